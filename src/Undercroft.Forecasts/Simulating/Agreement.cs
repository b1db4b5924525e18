namespace Undercroft.Forecasts.Simulating;

/// <summary>Which draws agree with what was measured.</summary>
/// <param name="Chosen">Places of the draws to go on with, resampled by weight.</param>
/// <param name="Tempering">1 where the weights stand as computed; less where they were flattened so that enough draws were left.</param>
public sealed record Agreement(int[] Chosen, double Tempering)
{
    private const double Freedom = 4; // Student's t: one odd reading must not overturn ten good ones
    private const double LeastEffectiveShare = 0.02;

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
