namespace Undercroft.Forecasts.Simulating;

/// <summary>Which draws agree with what was measured.</summary>
/// <param name="Chosen">Places of the draws to go on with, resampled by weight.</param>
/// <param name="Tempering">1 where the weights stand as computed; less where they were flattened so that enough draws were left.</param>
public sealed record Agreement(int[] Chosen, double Tempering)
{
    private const double Freedom = 4; // Student's t: one odd reading must not overturn ten good ones
    private const double LeastEffectiveShare = 0.02;
    private const double LeakLogSd = 1.2;

    /// <summary>Draws weighted by the readings, resampled systematically.</summary>
    /// <param name="run">Simulated.</param>
    /// <param name="readings">Measured.</param>
    /// <param name="count">How many to choose.</param>
    public static Agreement Of(Simulation run, IReadOnlyList<Reading> readings, int count)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(readings);
        var log = new double[run.Draws];
        foreach (var reading in readings)
        {
            var predicted = reading.Predicted(run);
            for (var i = 0; i < log.Length; i++)
            {
                var z = (predicted[i] - reading.Value) / reading.Sd;
                log[i] += double.IsNaN(z) ? 0 : -(Freedom + 1) / 2 * Math.Log(1 + (z * z / Freedom));
            }
        }

        var tempering = 1.0;
        var weights = Weights(log, tempering);
        var enough = Math.Max(16, LeastEffectiveShare * run.Draws);
        while (Effective(weights) < enough && tempering > 1e-4)
            weights = Weights(log, tempering *= 0.8);
        return new(Systematic(weights, count), tempering);
    }

    /// <summary>
    /// Draws whose leak is scaled so that each loses what the scale says was lost: for losses far beyond what most draws foretell, of which resampling alone
    /// would find none. Null where no such loss was measured.
    /// </summary>
    /// <param name="run">Simulated.</param>
    /// <param name="readings">Measured.</param>
    /// <param name="count">How many to choose.</param>
    /// <param name="noise">Standard normal, one for each of them.</param>
    /// <remarks>
    /// Loss is nearly proportional to leak, so the leak that a draw needs is its own times the ratio of losses. How far that lies from what was drawn weighs the draw: a
    /// bad closure that needs no stretching counts for more than a sound one that needs a factor of a hundred. The spread of the ratio is that of two closures
    /// without published data, √2 · 1.2 in the logarithm.
    /// </remarks>
    public static Chosen? ByLoss(Simulation run, IReadOnlyList<Reading> readings, int count, double[] noise)
    {
        ArgumentNullException.ThrowIfNull(run);
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(noise);
        if (readings.LastOrDefault(reading => reading.IsChange && Math.Abs(reading.Value) > 3 * reading.Sd) is not { } loss)
            return null;
        var predicted = loss.Predicted(run);
        var log = Array.ConvertAll(predicted, each => each * loss.Value > 0 ? Math.Log(loss.Value / each) : double.NaN);
        if (log.Count(each => !double.IsNaN(each)) < 2)
            return null;
        var weights = Array.ConvertAll(log, each => double.IsNaN(each) ? 0 : Math.Exp(-0.5 * each * each / (2 * LeakLogSd * LeakLogSd)));
        var sum = weights.Sum();
        var chosen = Systematic(Array.ConvertAll(weights, weight => weight / sum), count);
        return new(chosen, [.. chosen.Select((draw, n) => Math.Max(1e-3, (loss.Value + (loss.Sd * noise[n])) / predicted[draw]))]);
    }

    private static double[] Weights(double[] log, double tempering)
    {
        var most = log.Max();
        var weights = Array.ConvertAll(log, value => Math.Exp(tempering * (value - most)));
        var sum = weights.Sum();
        return Array.ConvertAll(weights, weight => weight / sum);
    }

    private static double Effective(double[] weights) => 1 / weights.Sum(weight => weight * weight);

    private static int[] Systematic(double[] weights, int count)
    {
        var chosen = new int[count];
        var (draw, sum) = (0, weights[0]);
        for (var n = 0; n < count; n++)
        {
            var at = (n + 0.5) / count;
            while (sum < at && draw < weights.Length - 1)
                sum += weights[++draw];
            chosen[n] = draw;
        }

        return chosen;
    }
}
