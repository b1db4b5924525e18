using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;

namespace Undercroft.History;

/// <summary>How far a line can be relied on: who says its amounts, and how precisely its day is known.</summary>
public static class Telling
{
    /// <summary>Who says the amounts of a fact: <c>label</c>, <c>receipt</c>, <c>weighed</c>, <c>memory</c>, <c>guess</c>; null where it has none or nobody said.</summary>
    public static string? Source(Fact fact)
    {
        ArgumentNullException.ThrowIfNull(fact);
        string[] words = [.. Sayings(fact).Where(by => by != SaidBy.Unstated).Distinct().Select(CodeWords.Of)];
        return words.Length == 0 ? null : string.Join(", ", words);
    }

    /// <summary>How precisely a day is known: <c>day</c>, <c>month</c>, <c>season</c>, <c>year</c>, <c>decade</c>, <c>about</c>, <c>between</c>, <c>open</c>, or <c>unknown</c>.</summary>
    public static string Precision(UnevenDate date)
    {
        if (date.IsExactDay)
            return "day";
        if (!date.IsKnown)
            return "unknown";
        if (date.Earliest is not { } first || date.Latest is not { } last)
            return "open";
        if (date.Approximate)
            return "about";
        return date.ToString() is ['[', ..] ? "between" : (last.DayNumber - first.DayNumber) switch
        {
            < 31 => "month",
            < 93 => "season",
            < 366 => "year",
            _ => "decade",
        };
    }

    private static IEnumerable<SaidBy> Sayings(Fact fact) => fact switch
    {
        Fact.PlaceAdded place => [place.Altitude.By, .. Of(place.Climate)],
        Fact.ClimateStated climate => Of(climate.Climate),
        Fact.LotAdded lot => [lot.Net.By, lot.Paid?.By ?? SaidBy.Unstated, .. lot.Blend.Leaf.Select(share => share.Share.By)],
        Fact.PackagesAdded added => [added.Net.By, added.Gross.By, added.Moisture.By, added.Container.Tare.By, added.Container.Capacity.By],
        Fact.PackageWeighed => [SaidBy.Weighed],
        Fact.LeafTaken taken => [taken.Mass.By],
        Fact.WaterAdded water => [water.Mass.By],
        Fact.PackageRepacked repacked => [repacked.Gross.By, repacked.Net.By, repacked.Container.Tare.By],
        Fact.ContainerStated stated => [stated.Container.Tare.By, stated.Container.Capacity.By],
        Fact.PaceStated pace => [pace.PerWeek.By],
        Fact.EventCorrected corrected => Sayings(corrected.Replacement),
        _ => [],
    };

    private static IEnumerable<SaidBy> Of(StatedClimate? climate) => climate is null ? [] : [climate.Temperature.By, climate.Humidity.By];
}
