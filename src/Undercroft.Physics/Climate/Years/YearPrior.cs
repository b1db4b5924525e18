using Undercroft.Physics.Air;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Inference;

namespace Undercroft.Physics.Climate.Years;

/// <summary>What is believed of the year of a place before a logger has stood there.</summary>
/// <param name="Year">Six numbers: mean, cosine and sine part of the year, of temperature (°C) and then of ln(e/Pa); angles count from 1 January.</param>
/// <param name="Day">Four numbers: cosine and sine part of the day, of temperature and then of ln(e/Pa); angles count from midnight.</param>
/// <param name="CelsiusScatter">Of daily means about the waves; times in days.</param>
/// <param name="VapourScatter">The same of ln(e/Pa).</param>
/// <param name="CelsiusYearToYear">Standard deviation of one year's mean about the long one, K.</param>
/// <param name="VapourYearToYear">The same of ln(e/Pa).</param>
/// <param name="MayBeSouthern">True where nobody said on which half of the world it is: a log may turn the year round.</param>
public sealed record YearPrior(
    GaussianBelief Year, GaussianBelief Day, ScatterPrior CelsiusScatter, ScatterPrior VapourScatter, double CelsiusYearToYear, double VapourYearToYear, bool MayBeSouthern)
{
    // Assumptions, all of them: no source lists them for rooms.
    private const double WarmestDay = 200; // 20 July
    private const double WarmestDaySd = 15;
    private const double WarmestHour = 15;
    private const double WarmestHourSd = 3;
    private const double MoistestDaySd = 25;
    private const double MemoryDays = 6;
    private const double LogSd = 0.7;
    private const double VapourPerKelvin = 0.062; // d ln psat/dT at 20 °C: derived

    private static readonly double[] Angles = [.. Enumerable.Range(0, 48).Select(k => Math.Tau * k / 48)];

    /// <summary>Of a room kind, in a temperate climate.</summary>
    public static YearPrior Of(RoomKind kind)
    {
        ArgumentNullException.ThrowIfNull(kind);
        var warmest = Math.Tau * WarmestDay / 365;
        return Of(
            kind, new(kind.MeanCelsius.Middle, kind.AnnualSwing.Middle * Math.Cos(warmest), kind.AnnualSwing.Middle * Math.Sin(warmest), 0, 0),
            new(kind.MeanHumidity.Middle / 100, kind.AnnualHumiditySwing.Middle / 100 * Math.Cos(warmest), kind.AnnualHumiditySwing.Middle / 100 * Math.Sin(warmest), 0, 0), mayBeSouthern: true);
    }

    /// <summary>Of a room kind whose middle year somebody worked out: its doubts stay.</summary>
    /// <param name="kind">Doubts, and the swing of the day.</param>
    /// <param name="celsius">Temperature over the year, °C.</param>
    /// <param name="humidity">Relative humidity over the year, fraction.</param>
    /// <param name="mayBeSouthern">See <see cref="MayBeSouthern"/>.</param>
    public static YearPrior Of(RoomKind kind, Waves celsius, Waves humidity, bool mayBeSouthern)
    {
        ArgumentNullException.ThrowIfNull(kind);
        var crest = celsius.YearSwing > 0 ? Math.Atan2(celsius.YearSine, celsius.YearCosine) : Math.Tau * WarmestDay / 365;
        var (warm, moist) = (Wave.Of((celsius.YearSwing, kind.AnnualSwing.Sd), crest, Math.Tau * WarmestDaySd / 365), MoistWave(kind, humidity, crest));
        var figures = GaussianBelief.Independent((celsius.Mean, kind.MeanCelsius.Sd)).With(warm)
            .With(GaussianBelief.Independent((humidity.Mean, kind.MeanHumidity.Sd / 100))).With(moist);
        var afternoon = Math.Tau * WarmestHour / 24;
        var day = Wave.Of((kind.DailySwing.Middle, kind.DailySwing.Sd), afternoon, Math.Tau * WarmestHourSd / 24);
        var half = 0.5 * VapourPerKelvin; // between a buffered room, whose vapour follows its warmth, and an aired one, whose vapour stays
        var dayVapour = day.Mapped(new[,] { { half, 0 }, { 0, half } }, [Squared(0.02 + (0.35 * VapourPerKelvin * kind.DailySwing.Middle)), Squared(0.02 + (0.35 * VapourPerKelvin * kind.DailySwing.Middle))]);
        return new(
            WithVapour(figures), day.With(dayVapour), new(0.5 + (0.12 * kind.AnnualSwing.Middle), LogSd, MemoryDays, LogSd), new(0.06 + (0.012 * kind.AnnualSwing.Middle), LogSd, MemoryDays * 0.7, LogSd),
            0.2 + (0.06 * kind.AnnualSwing.Middle), 0.03, mayBeSouthern);
    }

    /// <summary>Of a place inside another one that is known better: it follows it, later and damped.</summary>
    /// <param name="around">The place around it.</param>
    /// <remarks>With <see cref="RoomLag.ShelfHours"/>; the doubt of the day's wave spans what <see cref="RoomLag.ShelfLeastHours"/> and <see cref="RoomLag.ShelfMostHours"/> come to.</remarks>
    public static YearPrior Inside(YearPosterior around)
    {
        ArgumentNullException.ThrowIfNull(around);
        const double timeConstantHours = RoomLag.ShelfHours;
        var damped = RoomLag.Gain(timeConstantHours, 24);
        var (sin, cos) = Math.SinCos(Math.Tau * RoomLag.DelayHours(timeConstantHours, 24) / 24);
        var (a, b) = (damped * cos, damped * sin);
        double Doubt(double swing, double floor) => Squared(floor + (0.3 * swing));
        var day = Wave.SizeOf(around.DayCelsius, 0, 1).Size;
        var vapourDay = Wave.SizeOf(around.DayVapour, 0, 1).Size;
        return new(
            around.Joint.Mapped(Identity(6), [1, 0.25, 0.25, Squared(0.06), Squared(0.04), Squared(0.04)]),
            around.DayCelsius.With(around.DayVapour).Mapped(
                new[,] { { a, -b, 0, 0 }, { b, a, 0, 0 }, { 0, 0, a, -b }, { 0, 0, b, a } }, [Doubt(day, 0.1), Doubt(day, 0.1), Doubt(vapourDay, 0.01), Doubt(vapourDay, 0.01)]),
            new(around.CelsiusScatter, 0.3, around.CelsiusMemory, 0.3), new(around.VapourScatter, 0.3, around.VapourMemory, 0.3),
            around.Prior.CelsiusYearToYear, around.Prior.VapourYearToYear, MayBeSouthern: false);
    }

    /// <summary>The same on the other half of the world.</summary>
    public YearPrior TurnedRound() => this with { Year = Year.Mapped(Diagonal(1, -1, -1, 1, -1, -1)) };

    internal static double[,] Diagonal(params double[] values)
    {
        var matrix = new double[values.Length, values.Length];
        for (var i = 0; i < values.Length; i++)
            matrix[i, i] = values[i];
        return matrix;
    }

    private static double[,] Identity(int size) => Diagonal([.. Enumerable.Repeat(1.0, size)]);

    private static GaussianBelief MoistWave(RoomKind kind, Waves humidity, double crest)
    {
        var along = (humidity.YearCosine * Math.Cos(crest)) + (humidity.YearSine * Math.Sin(crest));
        var across = (humidity.YearSine * Math.Cos(crest)) - (humidity.YearCosine * Math.Sin(crest));
        var sd = kind.AnnualHumiditySwing.Sd / 100;
        return GaussianBelief.Independent((along, sd), (across, Math.Max(sd / 2, Math.Abs(along) * Math.Sin(Math.Tau * MoistestDaySd / 365))))
            .Mapped(new[,] { { Math.Cos(crest), -Math.Sin(crest) }, { Math.Sin(crest), Math.Cos(crest) } });
    }

    /// <summary>From temperature and relative humidity to temperature and vapour, with how they hang together.</summary>
    private static GaussianBelief WithVapour(GaussianBelief figures)
    {
        double[] middle = [.. Enumerable.Range(0, 6).Select(figures.Mean)];
        var at = VapourOf(middle);
        var map = new double[6, 6];
        for (var k = 0; k < 6; k++)
        {
            var step = figures.Sd(k);
            double[] up = [.. middle], down = [.. middle];
            up[k] += step;
            down[k] -= step;
            var (high, low) = (VapourOf(up), VapourOf(down));
            for (var i = 0; i < 3; i++)
            {
                map[i, k] = i == k ? 1 : 0;
                map[3 + i, k] = step > 0 ? (high[i] - low[i]) / (2 * step) : 0;
            }
        }

        var moved = figures.Mapped(map, [1e-8, 1e-8, 1e-8, 1e-8, 1e-8, 1e-8]);
        var spread = new double[6, 6];
        for (var i = 0; i < 6; i++)
        {
            for (var j = 0; j < 6; j++)
                spread[i, j] = moved.Covariance(i, j);
        }

        return new([middle[0], middle[1], middle[2], .. at], spread);
    }

    private static double[] VapourOf(double[] figures)
    {
        var sums = new double[3];
        foreach (var angle in Angles)
        {
            var (sin, cos) = Math.SinCos(angle);
            var kelvin = Quantities.Temperature.ZeroCelsius + figures[0] + (figures[1] * cos) + (figures[2] * sin);
            var humidity = Math.Clamp(figures[3] + (figures[4] * cos) + (figures[5] * sin), 0.02, 0.99);
            var value = Math.Log(humidity * SaturationPressure.PascalOverWater(kelvin)) / Angles.Length;
            sums[0] += value;
            sums[1] += 2 * value * cos;
            sums[2] += 2 * value * sin;
        }

        return sums;
    }

    private static double Squared(double value) => value * value;
}
