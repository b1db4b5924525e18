namespace Undercroft.Forecasts;

/// <summary>A measurement that a person could make, as each draw predicts it.</summary>
/// <param name="Measurement">In words: "weigh it now".</param>
/// <param name="Predicted">What it would read, one value per draw.</param>
/// <param name="NoiseSd">Standard deviation of its error, in the same unit.</param>
public sealed record CandidateMeasurement(string Measurement, double[] Predicted, double NoiseSd);

/// <summary>The one measurement that would narrow an answer most.</summary>
/// <param name="Measurement">In words.</param>
/// <param name="SpreadNow">P95 − P5 of the answer now.</param>
/// <param name="SpreadAfter">The same, as expected after the measurement.</param>
public sealed record Narrowing(string Measurement, double SpreadNow, double SpreadAfter)
{
    /// <summary>A gain smaller than this share of the spread is not worth a walk to the shelf (assumption).</summary>
    public const double WorthWhile = 0.05;

    /// <summary>
    /// The candidate with the smallest expected posterior spread, or null where none helps.
    /// </summary>
    /// <param name="answer">The answer in each draw.</param>
    /// <param name="candidates">What could be measured.</param>
    /// <remarks>
    /// For each draw in turn its prediction is taken as the reading, all draws are weighted by how well theirs agree, and the weighted spread is
    /// averaged. To the noise a kernel width of 0.5·sd·M^(−1/5) is added, since with a finite number of draws an exact reading would otherwise
    /// seem to leave a single one.
    /// </remarks>
    public static Narrowing? Best(double[] answer, IReadOnlyList<CandidateMeasurement> candidates)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(candidates);
        var order = Enumerable.Range(0, answer.Length).OrderBy(i => answer[i]).ToArray();
        var sorted = Array.ConvertAll(order, i => answer[i]);
        var now = Spread(sorted, Enumerable.Repeat(1.0, answer.Length).ToArray());
        if (!(now > 0))
            return null;
        var best = candidates
            .Select(candidate => new Narrowing(candidate.Measurement, now, Math.Min(now, Expected(sorted, Array.ConvertAll(order, i => candidate.Predicted[i]), candidate.NoiseSd))))
            .MinBy(found => found.SpreadAfter);
        return best is not null && best.SpreadAfter <= now * (1 - WorthWhile) ? best : null;
    }

    private static double Expected(double[] sortedAnswer, double[] predicted, double noise)
    {
        var mean = predicted.Average();
        var sd = Math.Sqrt(predicted.Sum(value => (value - mean) * (value - mean)) / predicted.Length);
        var kernel = 0.5 * sd * Math.Pow(predicted.Length, -0.2);
        var scale = -0.5 / Math.Max((noise * noise) + (kernel * kernel), 1e-300);
        var weights = new double[predicted.Length];
        var sum = 0.0;
        foreach (var reading in predicted)
        {
            for (var i = 0; i < weights.Length; i++)
                weights[i] = Math.Exp(scale * (predicted[i] - reading) * (predicted[i] - reading));
            sum += Spread(sortedAnswer, weights);
        }

        return sum / predicted.Length;
    }

    private static double Spread(double[] sorted, double[] weights)
    {
        var total = weights.Sum();
        return At(0.95) - At(0.05);

        double At(double share)
        {
            var below = 0.0;
            for (var i = 0; i < sorted.Length; i++)
            {
                below += weights[i];
                if (below >= share * total)
                    return sorted[i];
            }

            return sorted[^1];
        }
    }
}
