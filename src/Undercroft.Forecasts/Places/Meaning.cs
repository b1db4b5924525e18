using System.Globalization;
using Undercroft.Physics.Climate.Exposures;

namespace Undercroft.Forecasts.Places;

/// <summary>One measure as a person reads it.</summary>
/// <param name="Name">What is measured.</param>
/// <param name="Value">With its unit.</param>
/// <param name="Means">For leaf and tin, in a sentence.</param>
/// <param name="Provenance">How the measure is known, and where it holds.</param>
public sealed record Meaning(string Name, string Value, string Means, string Provenance)
{
    /// <summary>Every measure of an exposure that is known, each with what it means.</summary>
    public static IReadOnlyList<Meaning> Of(Exposure seen)
    {
        ArgumentNullException.ThrowIfNull(seen);
        List<Meaning> all =
        [
            new("Mean kinetic temperature", $"{N(seen.MeanKineticTemperatureC)} °C (plain mean {N(seen.MeanC)} °C)",
                seen.MeanKineticTemperatureC > 21 ? "Warm spells count more than cool ones: slow changes in leaf run as if it always stood at this, above the usual aim of 15 to 21 °C."
                    : "Slow changes in leaf run as if it always stood at this; within or under the usual aim of 15 to 21 °C.", "published [UspMkt]; its energy is that of medicines, for leaf an assumption"),
            new("Ageing rate", $"{N(Math.Min(seen.AgeingRate, seen.AgeingRateSlow), "0.00")} to {N(Math.Max(seen.AgeingRate, seen.AgeingRateSlow), "0.00")} times that at 20 °C",
                "By temperature alone: a year here ages paper or varnish this many years of 20 °C; for leaf it only ranks places.", "published for paper and varnish [Michalski2002]; assumption for leaf"),
            new("Above 25 °C", $"{N(seen.HoursAbove25CPerYear, "0")} h a year, of it {N(seen.HoursAbove30CPerYear, "0")} h above 30 °C",
                seen.HoursAbove30CPerYear > 24 ? "Heat drives air and aroma past lids, strains sealed glass and swells pouches; tins that bulge afterwards want a look." : "Few or no hot hours: lids and seams are little strained.", "common practice, no source, for the limits"),
        ];
        if (seen.DailySwingK is { } daily && seen.BreathingPerYear is { } breath)
        {
            all.Add(new(
                "Daily swing", $"{N(daily)} K from night to afternoon",
                daily > 4 ? "A loose lid breathes every day, and jars sweat against a cool wall; a closed box halves it." : "Steady: lids are hardly worked by it.", "derived"));
            all.Add(new(
                "Breathing", $"{N(breath, "0.0")} headspaces a year by the day's swing, {N(seen.WeatherBreathingPerYear, "0.0")} by the weather's pressure",
                "The most that a lid that gives way takes in and lets out; a tight one none. Each headspace brings about 0.07 g of oxygen to a half-full jar of half a litre.", "derived from the gas law; weather swing of 5 hPa a day from memory"));
        }

        if (seen.SeasonalSwingK is { } season)
        {
            all.Add(new(
                "Seasonal swing", $"{N(season)} K from coldest to warmest week",
                season > 14 ? "Sealed tins and glass see this once a year as pressure: about 0.35 kPa a kelvin." : "Little strain on sealed tins and glass over the year.", "derived"));
        }

        if (seen.MeanHumidityPct is { } humidity)
            Damp(all, seen, humidity);
        all.Add(new(
            "Tobacco beetle", seen.InsectBand switch
            {
                InsectBand.Dormant => "too cold even in the warmest month",
                InsectBand.CouldDevelop => $"could develop in the warmest month, at most {N(seen.InsectGenerationsPerYear)} generations a year",
                InsectBand.Develops => $"develops in the warmest month, at most {N(seen.InsectGenerationsPerYear)} generations a year",
                _ => throw new InvalidOperationException($"No words for {seen.InsectBand}."),
            },
            seen.InsectBand == InsectBand.Dormant ? "Eggs that came with leaf do not come to much here." : "If eggs came with the leaf they can hatch: keep natural, unsealed leaf in closed glass, look for pinholes and dust.",
            "published life cycle and hatching [EuBeetle] [BeetleEggs1976]; a band, no date"));
        return all;
    }

    private static void Damp(List<Meaning> all, Exposure seen, double humidity)
    {
        all.Add(new(
            "Humidity", $"{N(humidity, "0")} % in the mean, {N(seen.HoursAbove65PctPerYear ?? 0, "0")} h a year above 65 %",
            humidity >= 70 ? "Damp: labels, cardboard and tins suffer; unsealed leaf gets too moist to store." : humidity < 45 ? "Dry: whatever breathes loses water here; only tight glass and sound tins keep leaf." : "Between dry and damp: tight containers hardly notice it.",
            "derived; limits common practice"));
        all.Add(new(
            "Dew point and cool walls", $"dew point {N(seen.MeanDewPointC ?? double.NaN)} °C; wet {N(seen.CondensationHoursPerYear ?? 0, "0")} h a year on a wall {N(Exposure.CoolerWall)} K cooler",
            seen.CondensationHoursPerYear > 50 ? "Keep jars and tins a hand's breadth off outside walls: water settles there, loosens labels and rusts tins." : "No condensation to speak of, unless a jar comes in cold: then let it warm up closed.", "derived; 4 K common practice"));
        all.Add(new(
            "Time of wetness", $"{N(seen.WetnessHoursPerYear ?? 0, "0")} h a year, class T{seen.WetnessClass ?? 1}",
            seen.WetnessClass >= 3 ? "Scratches, seams and lids of tins will rust within years: move tins to a drier place or pack their leaf anew." : "Bare steel stays dry most of the year: seams of tins hold.", "ISO 9223:1992, classes partly from memory [Iso9223y1992]"));
        all.Add(new(
            "Mould index", $"{N(seen.MouldIndex ?? 0)} of 6 (planed wood)",
            seen.MouldIndex >= 1 ? "On wood mould would start here: cardboard and labels are at risk, leaf only where air gets in. Relative risk only: the index was fitted to wood." : "On wood no mould would start here. Relative risk only: the index was fitted to wood, not to leaf.",
            "published for wood [HukkaViitanen1999] [ViitanenOjanen2007]"));
    }

    internal static string N(double value, string format = "0.#") => value.ToString(format, CultureInfo.InvariantCulture);
}
