namespace Undercroft.Physics.Inference;

/// <summary>What is believed of the scatter about a regression before any data: both figures log-normal.</summary>
/// <param name="Sd">Median of its standard deviation, in the unit of the data.</param>
/// <param name="SdLogSd">Standard deviation of the logarithm of that.</param>
/// <param name="Memory">Median time after which a deviation has faded to 1/e, in the unit of the times.</param>
/// <param name="MemoryLogSd">Standard deviation of the logarithm of that.</param>
public sealed record ScatterPrior(double Sd, double SdLogSd, double Memory, double MemoryLogSd);

/// <summary>What a regression found.</summary>
/// <param name="Coefficients">As believed now.</param>
/// <param name="ScatterSd">Standard deviation of the deviations, middle.</param>
/// <param name="Memory">Time after which a deviation has faded to 1/e, middle.</param>
/// <param name="EffectiveCount">How many independent points the data are worth for their mean.</param>
/// <param name="PriorWeights">How likely each of the alternative beliefs turned out to be; they add up to one.</param>
public sealed record RegressionPosterior(GaussianBelief Coefficients, double ScatterSd, double Memory, double EffectiveCount, IReadOnlyList<double> PriorWeights);

/// <summary>Linear regression on points whose deviations remember each other, from a belief about the coefficients.</summary>
/// <remarks>
/// <para><b>Equation</b> y(t) = x(t)·β + u(t), cov[u(s), u(t)] = σ² exp(−|t − s|/τ). With ρᵢ = exp(−Δtᵢ/τ) each point is whitened by the one before it:
/// (yᵢ − ρᵢ yᵢ₋₁)/√(1 − ρᵢ²). Given σ, τ the posterior of β is normal: Λ = C₀⁻¹ + X̃ᵀX̃/σ², Λβ = C₀⁻¹β₀ + X̃ᵀỹ/σ². Over σ, τ and the alternative beliefs it is summed on
/// a grid, each node weighted by its evidence; mean and covariance of that mixture are the answer.</para>
/// <para><b>Source</b> textbook Bayesian linear regression and the exponential covariance of a first-order process ([Gelman2013], [Uhlenbeck1930], both from memory).</para>
/// <para><b>Valid</b> deviations of one size all the time, that fade exponentially; times rising. A process with slower parts than its memory is known too well.</para>
/// <para><b>Error</b> the mixture is handed on as one normal distribution: its tails beyond about two standard deviations are too thin where few points are given.</para>
/// </remarks>
public static class CorrelatedRegression
{
    private const int SdNodes = 31;
    private const int MemoryNodes = 13;
    private const double Reach = 3;

    /// <summary>Fits.</summary>
    /// <param name="times">Rising.</param>
    /// <param name="values">One a time.</param>
    /// <param name="row">What the coefficients are multiplied with at a time; as long as each belief. The first is taken for the mean.</param>
    /// <param name="beliefs">About the coefficients, each with its weight; usually one.</param>
    /// <param name="scatter">About the deviations.</param>
    /// <exception cref="ArgumentOutOfRangeException">Times that do not rise, a value that is not finite, or no belief.</exception>
    public static RegressionPosterior Fit(
        IReadOnlyList<double> times, IReadOnlyList<double> values, Func<double, double[]> row, IReadOnlyList<(double Weight, GaussianBelief Belief)> beliefs, ScatterPrior scatter)
    {
        ArgumentNullException.ThrowIfNull(times);
        ArgumentNullException.ThrowIfNull(values);
        ArgumentNullException.ThrowIfNull(row);
        ArgumentNullException.ThrowIfNull(beliefs);
        ArgumentNullException.ThrowIfNull(scatter);
        if (beliefs.Count == 0 || values.Count != times.Count)
            throw new ArgumentOutOfRangeException(nameof(values), values.Count, "One value a time, and at least one belief.");
        for (var n = 0; n < times.Count; n++)
        {
            if (!double.IsFinite(values[n]) || !(n == 0 || times[n] > times[n - 1]))
                throw new ArgumentOutOfRangeException(nameof(times), times[n], "Times rise, and values are finite.");
        }

        var known = beliefs.Select(belief => Known.Of(belief.Weight, belief.Belief)).ToArray();
        double[][] rows = [.. times.Select(row)];
        List<(double LogWeight, GaussianBelief Belief, double Sd, double Memory, double Effective, int Prior)> nodes = [];
        foreach (var (memory, memoryWeight) in Nodes(scatter.Memory, scatter.MemoryLogSd, MemoryNodes))
        {
            var whitened = Whitened.Of(times, values, rows, known[0].Belief.Count, memory);
            foreach (var (sd, sdWeight) in Nodes(scatter.Sd, scatter.SdLogSd, SdNodes))
            {
                for (var k = 0; k < known.Length; k++)
                {
                    var (evidence, belief) = known[k].Given(whitened, sd);
                    nodes.Add((evidence + memoryWeight + sdWeight + Math.Log(known[k].Weight), belief, sd, memory, whitened.Squares[0, 0], k));
                }
            }
        }

        var top = nodes.Max(node => node.LogWeight);
        var parts = nodes.Where(node => node.LogWeight > top - 30).Select(node => (Weight: Math.Exp(node.LogWeight - top), Node: node)).ToArray();
        var total = parts.Sum(part => part.Weight);
        double Mean(Func<(double LogWeight, GaussianBelief Belief, double Sd, double Memory, double Effective, int Prior), double> of) => parts.Sum(part => part.Weight * of(part.Node)) / total;
        return new(
            GaussianBelief.Mixed([.. parts.Select(part => (part.Weight, part.Node.Belief))]), Math.Exp(Mean(node => Math.Log(node.Sd))), Math.Exp(Mean(node => Math.Log(node.Memory))),
            times.Count == 0 ? 0 : Mean(node => node.Effective), [.. Enumerable.Range(0, known.Length).Select(k => parts.Where(part => part.Node.Prior == k).Sum(part => part.Weight) / total)]);
    }

    private static IEnumerable<(double Value, double LogWeight)> Nodes(double median, double logSd, int count)
    {
        for (var k = 0; k < count; k++)
        {
            var z = -Reach + (2 * Reach * k / (count - 1));
            yield return (median * Math.Exp(logSd * z), -0.5 * z * z);
        }
    }

    private sealed record Whitened(double[,] Squares, double[] Products, double ValueSquares, double LogScale, int Count)
    {
        public static Whitened Of(IReadOnlyList<double> times, IReadOnlyList<double> values, double[][] rows, int width, double memory)
        {
            var (squares, products) = (new double[width, width], new double[width]);
            var (valueSquares, logScale) = (0.0, 0.0);
            var x = new double[width];
            for (var n = 0; n < times.Count; n++)
            {
                var rho = n == 0 ? 0 : Math.Exp(-(times[n] - times[n - 1]) / memory);
                var scale = 1 / Math.Sqrt(1 - (rho * rho));
                for (var i = 0; i < width; i++)
                    x[i] = scale * (rows[n][i] - (n == 0 ? 0 : rho * rows[n - 1][i]));
                var y = scale * (values[n] - (n == 0 ? 0 : rho * values[n - 1]));
                valueSquares += y * y;
                logScale += Math.Log(scale);
                for (var i = 0; i < width; i++)
                {
                    products[i] += x[i] * y;
                    for (var j = 0; j < width; j++)
                        squares[i, j] += x[i] * x[j];
                }
            }

            return new(squares, products, valueSquares, logScale, times.Count);
        }
    }

    private sealed record Known(double Weight, GaussianBelief Belief, double[,] Precision, double[] Pull, double LogDeterminant, double Square)
    {
        public static Known Of(double weight, GaussianBelief belief)
        {
            var size = belief.Count;
            var spread = new double[size, size];
            for (var i = 0; i < size; i++)
            {
                for (var j = 0; j < size; j++)
                    spread[i, j] = belief.Covariance(i, j);
            }

            var factor = Cholesky.Of(spread);
            double[] mean = [.. Enumerable.Range(0, size).Select(belief.Mean)];
            var pull = factor.Solve(mean);
            return new(weight, belief, factor.Inverse(), pull, factor.LogDeterminant, mean.Zip(pull, (m, p) => m * p).Sum());
        }

        /// <summary>Evidence and posterior where the deviations have this size.</summary>
        public (double LogEvidence, GaussianBelief Posterior) Given(Whitened data, double sd)
        {
            var size = Belief.Count;
            var weight = 1 / (sd * sd);
            var (precision, pull) = (new double[size, size], new double[size]);
            for (var i = 0; i < size; i++)
            {
                pull[i] = Pull[i] + (weight * data.Products[i]);
                for (var j = 0; j < size; j++)
                    precision[i, j] = Precision[i, j] + (weight * data.Squares[i, j]);
            }

            var factor = Cholesky.Of(precision);
            var mean = factor.Solve(pull);
            var fit = mean.Zip(pull, (m, p) => m * p).Sum();
            var evidence = data.LogScale - (data.Count * Math.Log(sd)) - (0.5 * (LogDeterminant + factor.LogDeterminant)) - (0.5 * ((weight * data.ValueSquares) + Square - fit));
            return (evidence, new(mean, factor.Inverse()));
        }
    }
}
