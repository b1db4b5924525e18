using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger;

public sealed partial record Cellar
{
    /// <summary>The cellar after further lines, where all they change is single packages: those are told anew, everything else stays.</summary>
    /// <param name="fresh">What was written behind the last line, in the order of the ledger.</param>
    /// <returns>What <see cref="Fold"/> would say of all lines; null where it must be asked, since a line changes more than a package.</returns>
    internal Cellar? After(IReadOnlyList<CellarEvent> fresh)
    {
        Dictionary<PackageId, List<LedgerLine>> about = [];
        List<LedgerLine> lines = [.. Lines];
        foreach (var line in fresh)
        {
            if (line.Version != lines.Count + 1 || line.Cause is not null || line.Fact is Fact.PaceStated || AboutOne(line.Fact) is not { } id || !Packages.TryGetValue(id, out var package))
                return null;
            if (!about.TryGetValue(id, out var history))
                about[id] = history = [.. package.Timeline.Skip(1).Select(entry => Lines[(int)entry.Version - 1])];
            lines.Add(new(line, line.Fact, line.Happened, null, null));
            history.Add(lines[^1]);
        }

        var packages = Packages.ToDictionary();
        foreach (var (id, history) in about)
            packages[id] = Folding.Again(this, Packages[id], history);
        return this with { Version = lines.Count, Packages = packages, Lines = lines };
    }

    private PackageId? AboutOne(Fact fact) => fact is Fact.Noted { About: { } about } && Packages.ContainsKey(new(about)) ? new(about) : Mentioned.PackageOf(fact);
}
