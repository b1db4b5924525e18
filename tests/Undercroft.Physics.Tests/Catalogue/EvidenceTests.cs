using System.Text.RegularExpressions;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Tests.House;
using Xunit;

namespace Undercroft.Physics.Tests.Catalogue;

/// <summary>Every number of the catalogue says what it rests on, and every source it names exists.</summary>
public sealed partial class EvidenceTests
{
    [Fact]
    public void Every_source_named_in_the_catalogue_is_in_the_bibliography()
    {
        var bibliography = Repository.Read("docs", "physics", "sources.bib");
        var keys = Entry().Matches(bibliography).Select(match => match.Groups[1].Value).ToHashSet();
        var named = Everything().SelectMany(evidence => Key().Matches(evidence.Remark).Select(match => match.Groups[1].Value).Append(evidence.Source))
            .Where(key => key.Length > 0).Distinct().ToList();
        Assert.True(named.Count >= 10);
        Assert.All(named, key => Assert.Contains(key, keys));
    }

    [Fact]
    public void Provenance_and_source_go_together() => Assert.All(Everything(), evidence =>
    {
        Assert.Equal(evidence.Provenance is Provenance.Published or Provenance.FromMemory, evidence.Source.Length > 0 && evidence.Provenance != Provenance.Derived);
        Assert.True(evidence.Remark.Length > 3, evidence.ToString());
    });

    [Fact]
    public void Published_values_are_not_from_memory()
    {
        Assert.All(Materials.All.Where(value => value.Evidence.Source == "PolymerHandbook"), value => Assert.Equal(Provenance.FromMemory, value.Evidence.Provenance));
        Assert.Equal("from memory", Films.Stretch.Water.Evidence.Tag);
    }

    private static IEnumerable<Evidence> Everything() =>
    [
        .. ContainerKinds.All.SelectMany(kind => kind.Paths.Append(kind.Failure.WhenFailed).Select(path => path.Evidence)
            .Concat([kind.CapacityEvidence, kind.Failure.Evidence, kind.Habit.Evidence])),
        .. ContainerKinds.All.Select(kind => kind.TareEvidence).OfType<Evidence>(),
        .. LeafKinds.All.Select(kind => kind.Evidence),
        .. Cuts.All.Select(cut => cut.Evidence),
        .. RoomKinds.All.Select(room => room.Evidence),
        .. PracticeRows.All.Select(row => row.Evidence),
        .. Materials.All.Select(value => value.Evidence),
        .. Materials.Energies.Select(energy => energy.Evidence),
        .. Films.All.SelectMany(film => new[] { film.Water.Evidence, film.Oxygen.Evidence, film.CarbonDioxide.Evidence, film.Nitrogen.Evidence }),
        PackingCost.Rough,
    ];

    [GeneratedRegex(@"\[([A-Z][A-Za-z0-9_]+)\]")]
    private static partial Regex Key();

    [GeneratedRegex(@"^@[a-z]+\{([A-Za-z0-9_]+),", RegexOptions.Multiline)]
    private static partial Regex Entry();
}
