using Undercroft.Physics.Climate;
using Undercroft.Physics.Climate.Exposures;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Places;

/// <summary>What one stretch of air does to leaf and tins. Hours are scaled to a year.</summary>
/// <param name="WatchedDays">Of temperature that was watched.</param>
/// <param name="MeanC">Over the time watched.</param>
/// <param name="MeanKineticTemperatureC">The steady temperature at which slow reactions would run as far.</param>
/// <param name="LowestC">Seen.</param>
/// <param name="HighestC">Seen.</param>
/// <param name="MeanHumidityPct">Null where no humidity was watched.</param>
/// <param name="MeanDewPointC">Null where no humidity was watched.</param>
/// <param name="HoursAbove25CPerYear">Hours.</param>
/// <param name="HoursAbove30CPerYear">Hours.</param>
/// <param name="HoursAbove65PctPerYear">Null where no humidity was watched.</param>
/// <param name="HoursAbove80PctPerYear">Null where no humidity was watched.</param>
/// <param name="DailySwingK">Middle of highest minus lowest of a day; null where no day was watched.</param>
/// <param name="SeasonalSwingK">Warmest minus coldest week; null where less than half a year was watched.</param>
/// <param name="BreathingPerYear">Headspaces that swings of the day drive through a lid that gives way; null where no day was watched.</param>
/// <param name="WeatherBreathingPerYear">Headspaces that swings of air pressure drive through it.</param>
/// <param name="CondensationHoursPerYear">On a wall 4 K cooler; null where no humidity was watched.</param>
/// <param name="WetnessHoursPerYear">Bare steel wet; null where no humidity was watched.</param>
/// <param name="WetnessClass">1 to 5 for T1 to T5.</param>
/// <param name="MouldIndex">Highest on a sensitive building material, 0 to 6; relative.</param>
/// <param name="InsectBand">At the mean of the warmest 30 days.</param>
/// <param name="InsectGenerationsPerYear">Of the tobacco beetle, at most.</param>
/// <param name="AgeingRate">Relative to 20 °C, temperature alone, 100 kJ/mol.</param>
/// <param name="AgeingRateSlow">The same with 70 kJ/mol.</param>
public sealed record Exposure(
    double WatchedDays, double MeanC, double MeanKineticTemperatureC, double LowestC, double HighestC, double? MeanHumidityPct, double? MeanDewPointC,
    double HoursAbove25CPerYear, double HoursAbove30CPerYear, double? HoursAbove65PctPerYear, double? HoursAbove80PctPerYear,
    double? DailySwingK, double? SeasonalSwingK, double? BreathingPerYear, double WeatherBreathingPerYear, double? CondensationHoursPerYear,
    double? WetnessHoursPerYear, int? WetnessClass, double? MouldIndex, InsectBand InsectBand, double InsectGenerationsPerYear, double AgeingRate, double AgeingRateSlow)
{
    /// <summary>K by which the wall of the condensation measure is cooler than the air: an outside wall in winter; common practice, no source.</summary>
    public const double CoolerWall = 4;

    private const double WeatherSwingPascals = 500; // from one day to the next in temperate weather; from memory
    private const int WarmStretch = 30;

    /// <summary>Of a log or a typical year.</summary>
    /// <param name="air">With temperature.</param>
    /// <param name="pressure">Of the room.</param>
    public static Exposure? Of(LoggedAir air, Pressure pressure)
    {
        ArgumentNullException.ThrowIfNull(air);
        var spans = air.Spans.Where(span => !double.IsNaN(span.Start.Kelvin + span.End.Kelvin)).ToArray();
        var hours = spans.Sum(span => span.Hours);
        if (!(hours > 0))
            return null;
        var humid = spans.Where(span => !double.IsNaN(span.Start.Humidity + span.End.Humidity)).ToArray();
        var humidHours = humid.Sum(span => span.Hours);
        double? Moist(double value) => humidHours > 0 && double.IsFinite(value) ? value : null;
        var swings = Swings.Of(air);
        var wetness = TimeOfWetness.Of(air);
        var days = spans.GroupBy(span => Math.Floor(span.Start.Seconds / 86400)).Select(day => (
            Hours: day.Sum(span => span.Hours), Low: day.Min(span => Math.Min(span.Start.Kelvin, span.End.Kelvin)) - Temperature.ZeroCelsius,
            High: day.Max(span => Math.Max(span.Start.Kelvin, span.End.Kelvin)) - Temperature.ZeroCelsius,
            Mean: day.Sum(span => span.Hours * (span.Start.Kelvin + span.End.Kelvin) / 2) / day.Sum(span => span.Hours) - Temperature.ZeroCelsius)).ToArray();
        var warmest = Enumerable.Range(0, Math.Max(1, days.Length - WarmStretch + 1)).Max(start => days.Skip(start).Take(WarmStretch).Average(day => day.Mean));
        var vapour = humid.Sum(span => span.Hours * (Vapour(span.Start) + Vapour(span.End)) / 2) / humidHours;
        return new(
            hours / 24, spans.Sum(span => span.Hours * (span.Start.Kelvin + span.End.Kelvin) / 2) / hours - Temperature.ZeroCelsius,
            MeanKineticTemperature.OfSpans(spans.Select(span => (span.Hours, new Temperature(span.Start.Kelvin), new Temperature(span.End.Kelvin)))).Celsius,
            days.Min(day => day.Low), days.Max(day => day.High),
            Moist(100 * humid.Sum(span => span.Hours * (span.Start.Humidity + span.End.Humidity) / 2) / humidHours),
            humidHours > 0 && vapour > 1 ? Physics.Air.DewPoint.OverWater(new Pressure(vapour)).Celsius : null,
            TimeBeyond.Warmer(air, 25 + Temperature.ZeroCelsius).HoursPerYearOf, TimeBeyond.Warmer(air, 30 + Temperature.ZeroCelsius).HoursPerYearOf,
            Moist(TimeBeyond.Moister(air, 0.65).HoursPerYearOf), Moist(TimeBeyond.Moister(air, 0.80).HoursPerYearOf),
            Known(swings.DailyKelvin), swings.SeasonalKelvin, Known(swings.HeadspacesPerYear), 365 * Breathing.ByPressure(new Pressure(WeatherSwingPascals), pressure),
            Moist(SurfaceCondensation.Time(air, CoolerWall).HoursPerYearOf), Moist(wetness.HoursPerYearOf), humidHours > 0 ? TimeOfWetness.Class(wetness.HoursPerYearOf) : null,
            humidHours > 0 ? Physics.Climate.Exposures.MouldIndex.Of(air, MouldClass.Sensitive).Highest : null,
            InsectDevelopment.BandAt(Temperature.FromCelsius(warmest)),
            days.Sum(day => day.Hours / 24 * InsectDevelopment.DegreeDays(day.Low, day.High)) / InsectDevelopment.DegreeDaysPerGeneration * 8766 / hours,
            Physics.Climate.Exposures.AgeingRate.Of(air), Physics.Climate.Exposures.AgeingRate.Of(air, Physics.Climate.Exposures.AgeingRate.Varnish));
    }

    private static double Vapour(LoggedMoment moment) => moment.Humidity * Physics.Air.SaturationPressure.PascalOverWater(moment.Kelvin);

    private static double? Known(double value) => double.IsFinite(value) ? value : null;
}
