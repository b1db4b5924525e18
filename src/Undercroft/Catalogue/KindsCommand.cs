using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Shell;

namespace Undercroft.Catalogue;

/// <summary><c>kinds</c>: which codes there are, and what stands behind one.</summary>
public static class KindsCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var what = new Argument<string?>("what")
        {
            Description = $"A group ({string.Join(", ", KindList.Groups)}) or one code, such as jar-473; else everything.",
            Arity = ArgumentArity.ZeroOrOne,
        };
        var views = new ViewOptions();
        return line.Command("kinds", "List containers, leaf, rooms, cuts, films, materials and packs; for one code every number with its spread and source.", async call =>
        {
            using var cellars = call.CellarsOrNew();
            var cellar = await cellars.ReadAsync(views.Of(call));
            var asked = call.Value(what);
            var group = KindList.Groups.FirstOrDefault(name => string.Equals(name, asked?.Trim(), StringComparison.OrdinalIgnoreCase));
            if (asked is not null && group is null)
            {
                var found = KindList.Page(cellar, asked);
                return new Answer(found, page => Print(page, found));
            }

            var lines = KindList.Lines(cellar, group);
            return new Answer(new { kinds = lines }, page => Print(page, lines));
        }, what, views.AsOf, views.KnownOn);
    }

    private static void Print(IAnsiConsole page, IReadOnlyList<KindLine> lines)
    {
        foreach (var group in lines.GroupBy(line => line.Group))
        {
            page.WriteLine(Heading(group.Key));
            var widest = group.Max(line => line.Code.Length);
            foreach (var line in group)
            {
                page.WriteLine($"  {line.Code.PadRight(widest)}  {line.Name}");
                page.WriteLine($"  {new string(' ', widest)}  {line.Horizon}");
            }
        }

        page.WriteLine("Everything about one: undercroft kinds CODE");
    }

    private static string Heading(string group) => group switch
    {
        KindList.Containers => "Containers, for --container, with how long practice trusts them",
        KindList.Leaves => "Leaf kinds, for --leaf",
        KindList.Rooms => "Room kinds, for place add --room",
        KindList.CutKinds => "Cuts, for --cut",
        KindList.FilmKinds => "Films and laminates, for own container --film",
        KindList.MaterialKinds => "Materials, for own container --gasket, every source beside the others",
        KindList.PackKinds => "Humidity packs and liners",
        _ => throw new InvalidOperationException($"No heading for {group}."),
    };

    private static void Print(IAnsiConsole page, KindPage kind)
    {
        page.WriteLine($"{kind.Code}: {kind.Name}");
        page.WriteLine($"{kind.Horizon}.");
        if (kind.Check is { } check)
            page.WriteLine($"To check: {check}. Bad: {kind.BadIf}.");
        if (kind.Caution is { } caution)
            page.WriteLine($"Caution: {caution}");
        for (var i = 0; i < kind.Values.Count; i++)
        {
            var value = kind.Values[i];
            page.Write(new Padder(new Text(string.Create(CultureInfo.InvariantCulture,
                $"{value.What}: {value.Value:G4} {value.Unit}{(value.Spread is { } spread ? $"; {spread}" : "")}"))).Padding(2, 0, 0, 0));
            if (i + 1 == kind.Values.Count || Basis(kind.Values[i + 1]) != Basis(value))
                page.Write(new Padder(new Text(Basis(value))).Padding(4, 0, 0, 0));
        }

        page.WriteLine("Two in three lie within a spread: own is that of one specimen about its kind, shared that of the kind as a whole.");
    }

    /// <summary>Printed once under the values that share it.</summary>
    private static string Basis(KindValue value) =>
        $"[{value.Provenance}{(value.Source is { } source ? " " + source : "")}{(value.Remark is { } remark ? ": " + remark : "")}]";
}
