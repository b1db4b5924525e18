using Undercroft.Physics.Air;

namespace Undercroft.Physics.Climate.Years;

/// <summary>One day of a log: its mean and the wave of the day about it.</summary>
/// <param name="Day">Days of 86 400 s from the zero of the clock; the middle of the day.</param>
/// <param name="Mean">Over the watched part of the day.</param>
/// <param name="Cosine">Of the day's wave, crest at midnight.</param>
/// <param name="Sine">Of the day's wave, crest at six.</param>
/// <param name="HasWave">True where the day was watched whole and closely enough to tell its wave.</param>
public readonly record struct DailyFigure(double Day, double Mean, double Cosine, double Sine, bool HasWave);

/// <summary>A log as days: temperature, and the logarithm of the vapour pressure.</summary>
/// <param name="Temperature">°C.</param>
/// <param name="LogVapour">ln(e/Pa).</param>
/// <param name="FirstDay">Of the first moment.</param>
/// <param name="LastDay">Of the last moment.</param>
public sealed record DailyAir(IReadOnlyList<DailyFigure> Temperature, IReadOnlyList<DailyFigure> LogVapour, double FirstDay, double LastDay)
{
    private const double LeastShare = 0.75;
    private const double WholeShare = 0.98;
    private const double ClosestStep = 3 * 3600.0;
    private const double LeastHumidity = 0.005;

    /// <summary>Nothing was logged.</summary>
    public static DailyAir Nothing { get; } = new([], [], double.NaN, double.NaN);

    /// <summary>Of a log. A day counts where three quarters of it were watched.</summary>
    public static DailyAir Of(LoggedAir air)
    {
        ArgumentNullException.ThrowIfNull(air);
        if (air.Moments.Count == 0)
            return Nothing;
        var close = air.UsualStep <= ClosestStep;
        return new(
            Days(air, moment => moment.Kelvin - Quantities.Temperature.ZeroCelsius, close),
            Days(air, moment => Math.Log(Math.Max(moment.Humidity, LeastHumidity) * SaturationPressure.PascalOverWater(moment.Kelvin)), close),
            air.Moments[0].Seconds / 86400, air.Moments[^1].Seconds / 86400);
    }

    private static List<DailyFigure> Days(LoggedAir air, Func<LoggedMoment, double> of, bool close)
    {
        List<DailyFigure> days = [];
        var (key, share, sum, cosine, sine, cosines, sines) = (long.MinValue, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
        foreach (var span in air.Spans)
        {
            var (a, b) = (of(span.Start), of(span.End));
            if (double.IsNaN(a) || double.IsNaN(b))
                continue;
            var (from, to) = (span.Start.Seconds / 86400, span.End.Seconds / 86400);
            for (var start = from; start < to;)
            {
                var day = (long)Math.Floor(start);
                var end = Math.Min(to, day + 1);
                if (day != key)
                {
                    Close();
                    (key, share, sum, cosine, sine, cosines, sines) = (day, 0, 0, 0, 0, 0, 0);
                }

                var middle = ((start + end) / 2) - from;
                var value = a + ((b - a) * middle / (to - from));
                var (sin, cos) = Math.SinCos(Math.Tau * (from + middle - day));
                var width = end - start;
                share += width;
                sum += width * value;
                cosine += width * value * cos;
                sine += width * value * sin;
                cosines += width * cos;
                sines += width * sin;
                start = end;
            }
        }

        Close();
        return days;

        void Close()
        {
            if (share < LeastShare)
                return;
            var mean = sum / share;
            var whole = close && share >= WholeShare;
            days.Add(new(key + 0.5, mean, whole ? 2 * (cosine - (mean * cosines)) / share : 0, whole ? 2 * (sine - (mean * sines)) / share : 0, whole));
        }
    }
}
