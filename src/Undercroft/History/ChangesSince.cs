using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Ids;

namespace Undercroft.History;

/// <summary>One package that changed.</summary>
/// <param name="Id">On its label.</param>
/// <param name="Blend">Its name, or null.</param>
/// <param name="From">Where it stood, for a move; else null.</param>
/// <param name="To">Where it stands, or how it left; else null.</param>
public sealed record ChangedPackage(string Id, string? Blend, string? From, string? To);

/// <summary>Leaf, as a range.</summary>
/// <param name="LowG">At least.</param>
/// <param name="HighG">At most.</param>
/// <param name="Packages">In how many packages.</param>
/// <param name="UnknownPackages">Of them, of how many no mass is known; these are not in the sum.</param>
public sealed record LeafAmount(double LowG, double HighG, int Packages, int UnknownPackages);

/// <summary>What differs between two days.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="Since">The earlier day.</param>
/// <param name="Until">The later day.</param>
/// <param name="Came">Packages that were not there.</param>
/// <param name="Went">Packages that are not there any more.</param>
/// <param name="Moved">Packages that stand elsewhere.</param>
/// <param name="Opened">Packages that were closed and are open.</param>
/// <param name="Closed">Packages that were open and are closed.</param>
/// <param name="Repacked">Packages in another container.</param>
/// <param name="Before">Leaf then.</param>
/// <param name="After">Leaf now.</param>
/// <param name="Written">Lines that were written down between, whatever day they are about.</param>
public sealed record ChangesFound(
    string Verdict, string Since, string Until, IReadOnlyList<ChangedPackage> Came, IReadOnlyList<ChangedPackage> Went, IReadOnlyList<ChangedPackage> Moved,
    IReadOnlyList<ChangedPackage> Opened, IReadOnlyList<ChangedPackage> Closed, IReadOnlyList<ChangedPackage> Repacked, LeafAmount Before, LeafAmount After, int Written);

/// <summary>What changed in the cellar between two days, by all that is known now; or, by what was known then, what was learned.</summary>
public static class ChangesSince
{
    /// <summary>Compares two days.</summary>
    /// <param name="cellars">Where.</param>
    /// <param name="since">The earlier day.</param>
    /// <param name="until">The later day.</param>
    /// <param name="known">True compares what the ledger said at the end of those days; false what was so on them, by today's knowledge.</param>
    /// <exception cref="Refusal">The days run backwards.</exception>
    public static async ValueTask<ChangesFound> Of(ICellars cellars, DateOnly since, DateOnly until, bool known = false)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        if (since > until)
            throw new Refusal($"{Day(since)} is after {Day(until)}. Name an earlier day.");
        var before = await cellars.ReadAsync(At(since, known));
        var after = await cellars.ReadAsync(At(until, known));
        var changes = Changes.Between(before, after);
        var (from, to) = (EndOf(since), EndOf(until));
        var written = after.Lines.Count(line => line.Event.Recorded > from && line.Event.Recorded <= to);
        return new(
            Verdict(changes, since), Day(since), Day(until), All(changes.Came), All(changes.Went),
            [.. changes.Moved.Select(moved => Named(moved.Package) with { From = before.PathOf(moved.From), To = after.PathOf(moved.To) })],
            All(changes.Opened), All(changes.Closed), All(changes.Repacked), Amount(changes.Before), Amount(changes.After), written);

        IReadOnlyList<ChangedPackage> All(IReadOnlyList<PackageId> ids) => [.. ids.Select(Named)];

        ChangedPackage Named(PackageId id)
        {
            var cellar = after.Packages.ContainsKey(id) ? after : before;
            var package = cellar.Packages[id];
            return new(id.ToString(), cellar.BlendOf(package).Name, null, package.Removed is { } gone ? CodeWords.Of(gone.Fact.As) : null);
        }
    }

    private static View At(DateOnly day, bool known) => known ? new View(KnownOn: EndOf(day)) : new View(AsOf: day);

    private static DateTimeOffset EndOf(DateOnly day) => new(day, TimeOnly.MaxValue, TimeSpan.Zero);

    private static LeafAmount Amount(MassTotal total) => new(total.Low.Grams, total.High.Grams, total.Packages, total.Unknown);

    private static string Verdict(Changes changes, DateOnly since)
    {
        (int Count, string Word)[] parts =
        [
            (changes.Came.Count, "came"), (changes.Went.Count, "went"), (changes.Moved.Count, "moved"), (changes.Opened.Count, "opened"), (changes.Closed.Count, "closed"),
            (changes.Repacked.Count, "repacked"),
        ];
        string[] said = [.. parts.Where(part => part.Count > 0).Select(part => string.Create(CultureInfo.InvariantCulture, $"{part.Count} {part.Word}"))];
        return said.Length == 0 ? $"Nothing changed since {Day(since)}." : $"Since {Day(since)}: {string.Join(", ", said)}.";
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
