using System.Globalization;
using Undercroft.Forecasts.Comparing;
using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Practising;

/// <summary>A tin that comes out by a day.</summary>
/// <param name="Id">The package.</param>
/// <param name="Blend">Its name; null where nobody said.</param>
/// <param name="Place">Where it stands; null where nobody said.</param>
/// <param name="Container">What it is.</param>
/// <param name="OutBy">Five years after it was closed, ISO 8601.</param>
/// <param name="Overdue">That day is past.</param>
/// <param name="DateKnown">False where the closing day is only the first day on which anything is known of it.</param>
/// <param name="NetG">Leaf in it.</param>
/// <param name="Jar">The smallest jar that takes it.</param>
public sealed record TinOut(string Id, string? Blend, string? Place, string Container, string OutBy, bool Overdue, bool DateKnown, double NetG, string Jar);

/// <summary>Jars of one kind.</summary>
/// <param name="Kind">Code.</param>
/// <param name="Count">How many.</param>
public sealed record JarsNeeded(string Kind, int Count);

/// <summary>Unlined and paper-walled tins of a cellar, in the order in which they come out, and the jars that they need.</summary>
/// <param name="Tins">Soonest first.</param>
/// <param name="Jars">Smallest first.</param>
public sealed record UnlinedTins(IReadOnlyList<TinOut> Tins, IReadOnlyList<JarsNeeded> Jars)
{
    private static readonly string[] Kinds = ["tin-unlined", "tin-paper"];
    private static readonly string[] Sizes = ["jar-118", "jar-237", "jar-355", "jar-473", "jar-946"];

    /// <summary>Of a cellar; empty where the rule is switched off.</summary>
    public static UnlinedTins Of(Cellar cellar, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        if (cellar.RulesOff.Contains(PracticeRules.UnlinedOut))
            return new([], []);
        TinOut[] tins =
        [
            .. cellar.Here.Where(package => package.Container.Kind is { } kind && (Kinds.Contains(kind, StringComparer.OrdinalIgnoreCase) || IsLike(cellar, kind)))
                .Select(package => Of(cellar, package, today)).OrderBy(tin => tin.OutBy, StringComparer.Ordinal).ThenBy(tin => tin.Id, StringComparer.Ordinal),
        ];
        return new(tins, [.. tins.GroupBy(tin => tin.Jar).OrderBy(group => Array.IndexOf(Sizes, group.Key)).Select(group => new JarsNeeded(group.Key, group.Count()))]);
    }

    private static bool IsLike(Cellar cellar, string kind) => cellar.OwnContainers.TryGetValue(kind, out var own) && Kinds.Contains(own.Like, StringComparer.OrdinalIgnoreCase);

    private static TinOut Of(Cellar cellar, Package package, DateOnly today)
    {
        var blend = cellar.BlendOf(package);
        var closed = ClosedOn(package);
        var out_ = closed.AddYears((int)PracticeRules.UnlinedYears);
        var grams = package.BookNet.Mid?.Grams ?? ContainerKinds.Find("tin-unlined")!.UsualContents!.Value.Grams;
        var cut = blend.Cut is { } said ? Cuts.Find(said) : null;
        var jar = Sizes.FirstOrDefault(size => Comparer.CountOf(ContainerKinds.Find(size)!, Mass.FromGrams(Math.Max(grams, 0.1)), cut) == 1) ?? Sizes[^1];
        return new(
            package.Id.ToString(), blend.Name, cellar.PathOf(package.Place), package.Container.Kind!, out_.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), out_ <= today,
            package.Sealed.IsKnown || cellar.Lots[package.Lot].Made.IsKnown, grams, jar);
    }

    /// <summary>The day on which the leaf went into what it is in now.</summary>
    private static DateOnly ClosedOn(Package package) =>
        package.Timeline.Where(entry => entry.Fact is Ledger.Events.Fact.PackageRepacked).Select(entry => entry.Day).DefaultIfEmpty(package.Timeline[0].Day).Last();
}
