using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Readings;

namespace Undercroft.Ledger;

public sealed partial record Cellar
{
    /// <summary>The last second in view: the end of the day as of which the cellar is seen.</summary>
    private long LastSecond { get; init; } = Reading.Latest;

    /// <summary>Which readings a place has: what was undone, or lies beyond the day as of which the cellar is seen, is not among them.</summary>
    /// <param name="place">The place itself, not what it is inside of.</param>
    /// <param name="series">One sensor; <c>""</c> for the one without a name; null for all together, where the first batch counts at an instant that several have.</param>
    /// <param name="from">First instant; null from the beginning.</param>
    /// <param name="to">Last instant, itself included; null to the end.</param>
    /// <returns>To be read with <see cref="ICellars.ReadingsAsync"/> or <see cref="ICellars.AllReadingsAsync"/>.</returns>
    public ReadingSpan ReadingsOf(PlaceId place, string? series = null, DateTimeOffset? from = null, DateTimeOffset? to = null) => new(
        [.. Readings.Where(one => one.Fact.Place == place && (series is null || SeriesName(one.Fact.Series) == SeriesName(series)))
            .Select(one => new ReadingPart(one.Fact.Batch, one.Fact.First.ToUnixTimeSeconds(), one.Fact.Last.ToUnixTimeSeconds(), one.Fact.Count))],
        Math.Max(from is { } first ? Ceiling(first) : Reading.Earliest, Reading.Earliest),
        Math.Min(to is { } last ? last.ToUnixTimeSeconds() : Reading.Latest, LastSecond));

    /// <summary>Names of the sensors that a place has readings of; <c>""</c> for one without a name.</summary>
    public IReadOnlyList<string> SeriesAt(PlaceId place) => [.. Readings.Where(one => one.Fact.Place == place).Select(one => SeriesName(one.Fact.Series)).Distinct()];

    /// <summary>The place, or the nearest that it is inside of, that has readings; null where none has.</summary>
    public Place? ReadingsNear(PlaceId? place) => Outwards(place).FirstOrDefault(here => !ReadingsOf(here.Id).IsEmpty);

    private static string SeriesName(string? series) => (series ?? "").Trim();

    private static long Ceiling(DateTimeOffset at) => at.ToUnixTimeSeconds() + (at.UtcTicks % TimeSpan.TicksPerSecond > 0 ? 1 : 0);
}
