using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate.Exposures;

/// <summary>Air that swings of temperature and pressure drive in and out of something not quite tight.</summary>
/// <remarks>
/// <para><b>Equation</b> by one warming and cooling 1 − T₁/T₂ of the headspace; by a rise of the room's pressure Δp/p. A day counts with its lowest and highest temperature.</para>
/// <para><b>Source</b> the gas law.</para>
/// <para><b>Valid</b> a lid that gives way at once: the most that can be. A tight lid breathes nothing and is strained instead.</para>
/// <para><b>Error</b> warming and cooling within a day that is not a single wave is left out.</para>
/// </remarks>
public static class Breathing
{
    /// <summary>Share of the headspace by one cycle.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The colder above the warmer, or not above absolute zero.</exception>
    public static double PerCycle(Temperature colder, Temperature warmer) => colder.Kelvin > 0 && colder <= warmer
        ? 1 - (colder.Kelvin / warmer.Kelvin)
        : throw new ArgumentOutOfRangeException(nameof(warmer), warmer.Kelvin, "The colder end first.");

    /// <summary>Share of the headspace by one swing of the room's pressure.</summary>
    /// <param name="swing">From trough to crest.</param>
    /// <param name="around">The mean.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative, or no pressure to swing about.</exception>
    public static double ByPressure(Pressure swing, Pressure around) => swing.Pascals >= 0 && around.Pascals > swing.Pascals
        ? swing.Pascals / around.Pascals
        : throw new ArgumentOutOfRangeException(nameof(swing), swing.Pascals, "A swing is not negative and smaller than the pressure it swings about.");
}

/// <summary>Swings of a log: of the day, and of the year.</summary>
/// <param name="DailyKelvin">Middle of the daily range, highest minus lowest; NaN where no day was watched for at least 18 h.</param>
/// <param name="WidestDailyKelvin">The range that one day in twenty passes.</param>
/// <param name="SeasonalKelvin">Warmest minus coldest week; null with fewer than 26 weeks between the first and last watched day.</param>
/// <param name="DailyHumidity">Middle of the daily range of humidity, fraction; NaN where not known.</param>
/// <param name="HeadspacesPerYear">What the daily ranges drive through a lid that gives way, headspaces a year.</param>
/// <param name="Days">Days watched.</param>
public sealed record Swings(double DailyKelvin, double WidestDailyKelvin, double? SeasonalKelvin, double DailyHumidity, double HeadspacesPerYear, int Days)
{
    private const double WatchedHours = 18;
    private const int SeasonDays = 182;

    /// <summary>Of a log; days are those of its clock.</summary>
    public static Swings Of(LoggedAir air)
    {
        ArgumentNullException.ThrowIfNull(air);
        Dictionary<long, Day> days = [];
        foreach (var span in air.Spans.Where(span => !double.IsNaN(span.Start.Kelvin + span.End.Kelvin)))
        {
            var key = (long)Math.Floor(span.Start.Seconds / 86400);
            if (!days.TryGetValue(key, out var day))
                days[key] = day = new Day();
            day.Add(span);
        }

        var whole = days.Where(pair => pair.Value.Hours >= WatchedHours).OrderBy(pair => pair.Key).ToArray();
        if (whole.Length == 0)
            return new(double.NaN, double.NaN, null, double.NaN, double.NaN, 0);
        double[] ranges = [.. whole.Select(pair => pair.Value.Highest - pair.Value.Lowest).Order()];
        double[] humid = [.. whole.Select(pair => pair.Value.Moistest - pair.Value.Driest).Where(double.IsFinite).Order()];
        double? season = whole[^1].Key - whole[0].Key < SeasonDays ? null : Weeks(whole) is { Length: > 0 } weeks ? weeks.Max() - weeks.Min() : null;
        return new(
            ranges[ranges.Length / 2], ranges[(int)(0.95 * (ranges.Length - 1))], season, humid.Length == 0 ? double.NaN : humid[humid.Length / 2],
            365.25 * whole.Average(pair => 1 - (pair.Value.Lowest / pair.Value.Highest)), whole.Length);
    }

    private static double[] Weeks(KeyValuePair<long, Day>[] days) =>
        [.. days.GroupBy(pair => pair.Key / 7).Where(week => week.Count() >= 4).Select(week => week.Average(pair => pair.Value.Mean))];

    private sealed class Day
    {
        private double sum;

        public double Hours { get; private set; }

        public double Lowest { get; private set; } = double.PositiveInfinity;

        public double Highest { get; private set; } = double.NegativeInfinity;

        public double Driest { get; private set; } = double.PositiveInfinity;

        public double Moistest { get; private set; } = double.NegativeInfinity;

        public double Mean => sum / Hours;

        public void Add(LoggedSpan span)
        {
            Hours += span.Hours;
            sum += span.Hours * (span.Start.Kelvin + span.End.Kelvin) / 2;
            Lowest = Math.Min(Lowest, Math.Min(span.Start.Kelvin, span.End.Kelvin));
            Highest = Math.Max(Highest, Math.Max(span.Start.Kelvin, span.End.Kelvin));
            if (double.IsNaN(span.Start.Humidity + span.End.Humidity))
                return;
            Driest = Math.Min(Driest, Math.Min(span.Start.Humidity, span.End.Humidity));
            Moistest = Math.Max(Moistest, Math.Max(span.Start.Humidity, span.End.Humidity));
        }
    }
}
