using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;

namespace Undercroft.Shell.Logs;

/// <summary>What a log comes to, weighted by time.</summary>
/// <param name="MeanC">By trapezoids; null without temperatures.</param>
/// <param name="MeanHumidityPct">By trapezoids; null without humidities.</param>
/// <param name="MeanKineticTemperatureC">With ΔH/R = 10 000 K; null without temperatures.</param>
/// <param name="Gaps">Steps of the temperatures longer than three usual ones, left out.</param>
public sealed record LogFigures(double? MeanC, double? MeanHumidityPct, double? MeanKineticTemperatureC, int Gaps)
{
    /// <summary>Of a log; steps over three usual ones are gaps and left out.</summary>
    /// <param name="log">The log.</param>
    /// <param name="humidityAt">From an instant and the humidity shown to the one that counts; null to take it as shown.</param>
    public static LogFigures Of(Log log, Func<long, double, double>? humidityAt = null)
    {
        ArgumentNullException.ThrowIfNull(log);
        var (mean, weights, gaps) = Mean(log.Seconds, log.Kelvin);
        var damp = log.Humidity;
        if (humidityAt is not null)
        {
            var corrected = damp.ToArray();
            for (var row = 0; row < corrected.Length; row++)
                corrected[row] = humidityAt(log.Seconds[row], corrected[row]);
            damp = corrected;
        }

        var (humidity, _, _) = Mean(log.Seconds, damp);
        double? kinetic = null;
        if (weights.Count > 0)
            kinetic = MeanKineticTemperature.Of(weights.Select(one => (new Temperature(one.Value), one.Weight))).Celsius;
        return new(mean - Temperature.ZeroCelsius, 100 * humidity, kinetic, gaps);
    }

    private static (double? Mean, List<(double Value, double Weight)> Weights, int Gaps) Mean(ReadOnlySpan<long> seconds, ReadOnlySpan<double> values)
    {
        var at = new long[values.Length];
        var weights = new List<(double Value, double Weight)>(values.Length);
        for (var row = 0; row < values.Length; row++)
        {
            if (double.IsNaN(values[row]))
                continue;
            at[weights.Count] = seconds[row];
            weights.Add((values[row], 0));
        }

        if (weights.Count == 0)
            return (null, weights, 0);
        if (weights.Count == 1)
            return (weights[0].Value, [(weights[0].Value, 1)], 0);
        var usual = Steps.Usual(at.AsSpan(0, weights.Count));
        var gaps = 0;
        double sum = 0, whole = 0;
        for (var row = 1; row < weights.Count; row++)
        {
            var step = at[row] - at[row - 1];
            if (step > Oddities.GapIntervals * usual)
            {
                gaps++;
                continue;
            }

            weights[row - 1] = (weights[row - 1].Value, weights[row - 1].Weight + (0.5 * step));
            weights[row] = (weights[row].Value, 0.5 * step);
            sum += 0.5 * step * (weights[row - 1].Value + weights[row].Value);
            whole += step;
        }

        return (sum / whole, weights, gaps);
    }
}
