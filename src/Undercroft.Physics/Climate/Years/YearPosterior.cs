using Undercroft.Physics.Air;
using Undercroft.Physics.Inference;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate.Years;

/// <summary>A figure and how well it is known.</summary>
/// <param name="Middle">Best guess.</param>
/// <param name="Sd">Standard deviation.</param>
public readonly record struct Figure(double Middle, double Sd);

/// <summary>Three quantiles of a figure.</summary>
public readonly record struct Interval(double P5, double P50, double P95);

/// <summary>The year of a place as believed after its log was read.</summary>
public sealed record YearPosterior
{
    private const double Ninety = 1.6448536269514722;

    /// <summary>What was believed before.</summary>
    public required YearPrior Prior { get; init; }

    /// <summary>Mean, cosine and sine part of the year: of temperature (°C), then of ln(e/Pa).</summary>
    public required GaussianBelief Joint { get; init; }

    /// <summary>Cosine and sine part of the day, K.</summary>
    public required GaussianBelief DayCelsius { get; init; }

    /// <summary>The same of ln(e/Pa).</summary>
    public required GaussianBelief DayVapour { get; init; }

    /// <summary>Spread of daily means about the waves, K.</summary>
    public required double CelsiusScatter { get; init; }

    /// <summary>Days after which such a deviation has faded to 1/e.</summary>
    public required double CelsiusMemory { get; init; }

    /// <summary>Spread of ln(e/Pa) about its waves.</summary>
    public required double VapourScatter { get; init; }

    /// <summary>Days after which such a deviation has faded to 1/e.</summary>
    public required double VapourMemory { get; init; }

    /// <summary>Days of temperature behind it.</summary>
    public required int TemperatureDays { get; init; }

    /// <summary>Days of humidity behind it.</summary>
    public required int HumidityDays { get; init; }

    /// <summary>How many independent days those of temperature are worth for the mean.</summary>
    public required double EffectiveDays { get; init; }

    /// <summary>Different weeks of the year, of 52, in which at least one day was watched.</summary>
    public required int WeeksOfYear { get; init; }

    /// <summary>Mean temperature of the year, °C.</summary>
    public Figure MeanCelsius => new(Joint.Mean(0), Joint.Sd(0));

    /// <summary>Half of summer minus winter, K.</summary>
    public Figure AnnualSwing => Wave.SizeOf(Joint) is var (size, sd) ? new(size, sd) : default;

    /// <summary>Day of the year on which it is warmest, 0 to 365, in days.</summary>
    public Figure WarmestDay => Wave.CrestOf(Joint) is var (angle, sd) ? new(Days(angle, 365), sd * 365 / Math.Tau) : default;

    /// <summary>Half of afternoon minus night, K.</summary>
    public Figure DailySwing => Wave.SizeOf(DayCelsius, 0, 1) is var (size, sd) ? new(size, sd) : default;

    /// <summary>Hour of the log's clock at which it is warmest.</summary>
    public Figure WarmestHour => Wave.CrestOf(DayCelsius, 0, 1) is var (angle, sd) ? new(Days(angle, 24), sd * 24 / Math.Tau) : default;

    /// <summary>Mean relative humidity of the year, fraction.</summary>
    public Figure MeanHumidity => Delta(year => MeanOver(year, 0));

    /// <summary>Half of summer minus winter of relative humidity, fraction: above zero where it is moister when it is warmer.</summary>
    public Figure HumiditySwing => Delta(year =>
    {
        var crest = Math.Atan2(Joint.Mean(2), Joint.Mean(1));
        return 2 * MeanOver(year, 1, crest);
    });

    /// <summary>The middle year.</summary>
    /// <param name="pascals">Pressure of the room.</param>
    public HarmonicYear Year(double pascals = PhysicalConstants.StandardAtmosphere) => new(
        new(Joint.Mean(0), Joint.Mean(1), Joint.Mean(2), DayCelsius.Mean(0), DayCelsius.Mean(1)),
        new(Joint.Mean(3), Joint.Mean(4), Joint.Mean(5), DayVapour.Mean(0), DayVapour.Mean(1)), pascals);

    /// <summary>Mean temperature of one day of some year to come, °C: doubt of the waves, weather and the year's own mean together.</summary>
    /// <param name="dayOfYear">From 0.</param>
    public Interval CelsiusOn(double dayOfYear)
    {
        var (sin, cos) = Math.SinCos(Math.Tau * dayOfYear / 365);
        var (mean, sd) = Joint.Only(0, 1, 2).Of([1, cos, sin]);
        return Spread(mean, Math.Sqrt((sd * sd) + (CelsiusScatter * CelsiusScatter) + (Prior.CelsiusYearToYear * Prior.CelsiusYearToYear)));
    }

    /// <summary>Mean relative humidity of one day of some year to come, fraction.</summary>
    /// <param name="dayOfYear">From 0.</param>
    public Interval HumidityOn(double dayOfYear)
    {
        var (sin, cos) = Math.SinCos(Math.Tau * dayOfYear / 365);
        var celsius = Joint.Mean(0) + (Joint.Mean(1) * cos) + (Joint.Mean(2) * sin);
        var slope = SaturationPressure.LogSlopeOverWater(celsius + Temperature.ZeroCelsius);
        var (vapour, sd) = Joint.Of([-slope, -slope * cos, -slope * sin, 1, cos, sin]);
        vapour += slope * celsius;
        var weather = (VapourScatter * VapourScatter) + Math.Pow(slope * CelsiusScatter, 2) + Math.Pow(Prior.VapourYearToYear, 2);
        var log = vapour - Math.Log(SaturationPressure.PascalOverWater(celsius + Temperature.ZeroCelsius));
        var spread = Spread(log, Math.Sqrt((sd * sd) + weather));
        return new(Math.Min(1, Math.Exp(spread.P5)), Math.Min(1, Math.Exp(spread.P50)), Math.Min(1, Math.Exp(spread.P95)));
    }

    private static Interval Spread(double mean, double sd) => new(mean - (Ninety * sd), mean, mean + (Ninety * sd));

    private static double Days(double angle, double period) => ((angle / Math.Tau * period) + period) % period;

    /// <summary>A figure of the year and its doubt, by straight lines about the middle.</summary>
    private Figure Delta(Func<double[], double> of)
    {
        double[] middle = [.. Enumerable.Range(0, 6).Select(Joint.Mean)];
        var slopes = new double[6];
        for (var k = 0; k < 6; k++)
        {
            var step = Math.Max(1e-6, 0.5 * Joint.Sd(k));
            double[] up = [.. middle], down = [.. middle];
            up[k] += step;
            down[k] -= step;
            slopes[k] = (of(up) - of(down)) / (2 * step);
        }

        return new(of(middle), Joint.Of(slopes).Sd);
    }

    /// <summary>Mean of relative humidity over the year, or of its product with a wave that crests at an angle.</summary>
    private double MeanOver(double[] year, int wave, double crest = 0)
    {
        const int Dates = 36;
        const int Hours = 6;
        var sum = 0.0;
        for (var d = 0; d < Dates; d++)
        {
            var (sin, cos) = Math.SinCos(Math.Tau * d / Dates);
            for (var h = 0; h < Hours; h++)
            {
                var (hs, hc) = Math.SinCos(Math.Tau * h / Hours);
                var kelvin = Temperature.ZeroCelsius + year[0] + (year[1] * cos) + (year[2] * sin) + (DayCelsius.Mean(0) * hc) + (DayCelsius.Mean(1) * hs);
                var vapour = year[3] + (year[4] * cos) + (year[5] * sin) + (DayVapour.Mean(0) * hc) + (DayVapour.Mean(1) * hs);
                sum += Math.Min(1, Math.Exp(vapour) / SaturationPressure.PascalOverWater(kelvin)) * (wave == 0 ? 1 : Math.Cos((Math.Tau * d / Dates) - crest));
            }
        }

        return sum / (Dates * Hours);
    }
}
