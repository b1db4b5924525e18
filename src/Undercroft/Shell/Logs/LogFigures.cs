using System.Runtime.InteropServices;
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
        var spells = new Dictionary<double, double>();
        var (mean, gaps) = Mean(log.Seconds, log.Kelvin, spells);
        var damp = log.Humidity;
        if (humidityAt is not null)
        {
            var corrected = damp.ToArray();
            for (var row = 0; row < corrected.Length; row++)
                corrected[row] = humidityAt(log.Seconds[row], corrected[row]);
            damp = corrected;
        }

        var (humidity, _) = Mean(log.Seconds, damp, null);
        double? kinetic = mean is null ? null : MeanKineticTemperature.Of(spells.Select(one => (new Temperature(one.Key), one.Value))).Celsius;
        return new(mean - Temperature.ZeroCelsius, 100 * humidity, kinetic, gaps);
    }

    // Spells: seconds for which each value stands; sensors say few different ones.
    private static (double? Mean, int Gaps) Mean(ReadOnlySpan<long> seconds, ReadOnlySpan<double> values, Dictionary<double, double>? spells)
    {
        var usual = Steps.Usual(Noted(seconds, values));
        var (gaps, before, count, first) = (0, -1, 0, double.NaN);
        double sum = 0, whole = 0;
        for (var row = 0; row < values.Length; row++)
        {
            if (double.IsNaN(values[row]))
                continue;
            if (before < 0)
            {
                first = values[row];
            }
            else if (seconds[row] - seconds[before] is var step && step > Oddities.GapIntervals * usual)
            {
                gaps++;
            }
            else
            {
                sum += 0.5 * step * (values[before] + values[row]);
                whole += step;
                Stand(values[before], 0.5 * step);
                Stand(values[row], 0.5 * step);
            }

            before = row;
            count++;
        }

        if (count == 1)
            Stand(first, 1);
        void Stand(double value, double time)
        {
            if (spells is not null)
                CollectionsMarshal.GetValueRefOrAddDefault(spells, value, out _) += time;
        }

        return count switch { 0 => (null, 0), 1 => (first, 0), _ => (sum / whole, gaps) };
    }

    private static ReadOnlySpan<long> Noted(ReadOnlySpan<long> seconds, ReadOnlySpan<double> values)
    {
        var lacking = 0;
        foreach (var value in values)
            lacking += double.IsNaN(value) ? 1 : 0;
        if (lacking == 0)
            return seconds;
        var noted = new long[values.Length - lacking];
        for (int row = 0, at = 0; row < values.Length; row++)
        {
            if (!double.IsNaN(values[row]))
                noted[at++] = seconds[row];
        }

        return noted;
    }
}
