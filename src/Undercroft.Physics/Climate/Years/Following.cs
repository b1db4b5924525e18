namespace Undercroft.Physics.Climate.Years;

/// <summary>How one place follows another, from logs of both.</summary>
/// <param name="Warmer">By how much it is warmer, K.</param>
/// <param name="TimeConstantHours">With which it follows.</param>
/// <param name="LowHours">Shortest time constant that fits nearly as well (95 %).</param>
/// <param name="HighHours">Longest; the longest tried where no end shows.</param>
/// <param name="DailyGain">Share of the day's swing that comes through.</param>
/// <param name="SharedDays">Days in which both were logged.</param>
public sealed record Following(double Warmer, double TimeConstantHours, double LowHours, double HighHours, double DailyGain, double SharedDays)
{
    private const double Step = 1800;
    private const double ShortestHours = 0.25;
    private const double LongestHours = 96;
    private const int Tried = 61;
    private const double Confidence = 3.841; // χ² of one degree of freedom, 95 %
    private const double LeastDays = 3;

    /// <summary>The inner log as offset plus the outer log through a first-order lag; null with fewer than three shared days.</summary>
    /// <remarks>The likelihood counts only as many points as the residuals' own memory leaves independent.</remarks>
    public static Following? Of(LoggedAir inner, LoggedAir outer)
    {
        ArgumentNullException.ThrowIfNull(inner);
        ArgumentNullException.ThrowIfNull(outer);
        if (inner.Moments.Count < 2 || outer.Moments.Count < 2)
            return null;
        var from = Math.Ceiling(Math.Max(inner.Moments[0].Seconds, outer.Moments[0].Seconds) / Step);
        var to = Math.Floor(Math.Min(inner.Moments[^1].Seconds, outer.Moments[^1].Seconds) / Step);
        if (!((to - from) * Step >= LeastDays * 86400))
            return null;
        var count = (int)(to - from) + 1;
        var (x, y) = (Sampled(outer, from, count), Sampled(inner, from, count));
        if (x.Count(double.IsNaN) > count / 4 || y.Count(double.IsNaN) > count / 4)
            return null;
        var fits = Enumerable.Range(0, Tried).Select(k => Fit(x, y, ShortestHours * Math.Pow(LongestHours / ShortestHours, k / (Tried - 1.0)))).ToArray();
        var best = fits.MinBy(fit => fit.Squares)!;
        var limit = best.Squares * Math.Exp(Confidence / best.Effective);
        return new(
            best.Offset, best.Hours, fits.First(fit => fit.Squares <= limit).Hours, fits.Last(fit => fit.Squares <= limit).Hours, RoomLag.Gain(best.Hours, 24), count * Step / 86400);
    }

    private sealed record Tuned(double Hours, double Offset, double Squares, double Effective);

    private static Tuned Fit(double[] x, double[] y, double hours)
    {
        var keep = Math.Exp(-Step / 3600 / hours);
        var start = Math.Min(x.Length / 4, (int)(3 * hours * 3600 / Step)); // until the unknown beginning is forgotten
        var (lagged, residual) = (double.NaN, new List<double>());
        for (var n = 0; n < x.Length; n++)
        {
            if (double.IsNaN(x[n]))
                continue;
            lagged = double.IsNaN(lagged) ? x[n] : (keep * lagged) + ((1 - keep) * x[n]);
            if (n >= start && !double.IsNaN(y[n]))
                residual.Add(y[n] - lagged);
        }

        var offset = residual.Average();
        var squares = residual.Sum(value => (value - offset) * (value - offset)) / residual.Count;
        var products = residual.Zip(residual.Skip(1), (a, b) => (a - offset) * (b - offset)).Sum() / Math.Max(1, residual.Count - 1);
        var rho = squares > 0 ? Math.Clamp(products / squares, 0, 0.999) : 0;
        return new(hours, offset, Math.Max(squares, 1e-12), Math.Max(2, residual.Count * (1 - rho) / (1 + rho)));
    }

    private static double[] Sampled(LoggedAir air, double from, int count)
    {
        var samples = new double[count];
        Array.Fill(samples, double.NaN);
        foreach (var span in air.Spans.Where(span => !double.IsNaN(span.Start.Kelvin + span.End.Kelvin)))
        {
            var last = Math.Min(count - 1, (long)Math.Floor((span.End.Seconds / Step) - from));
            for (var n = Math.Max(0, (long)Math.Ceiling((span.Start.Seconds / Step) - from)); n <= last; n++)
            {
                var share = (((from + n) * Step) - span.Start.Seconds) / (span.End.Seconds - span.Start.Seconds);
                samples[n] = span.Start.Kelvin + (share * (span.End.Kelvin - span.Start.Kelvin));
            }
        }

        return samples;
    }
}
