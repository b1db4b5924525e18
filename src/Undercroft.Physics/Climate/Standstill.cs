namespace Undercroft.Physics.Climate;

/// <summary>A stretch over which one quantity of a logger says one and the same value, too long for air.</summary>
/// <param name="FromSeconds">First moment.</param>
/// <param name="ToSeconds">Last moment.</param>
/// <param name="Moments">How many.</param>
/// <remarks>
/// <para><b>Equation</b> at least two days and twelve moments of one value, and eight times as long as the stretch of one value in which an hour of the rest of the log falls, by the median. A log that never says another value tells nothing and is left as it is.</para>
/// <para><b>Source</b> none: an assumption. Real air moves by a tenth of a degree or a point within two days; a sensor that shows whole degrees, or a deep cellar, stands still longer, and then always.</para>
/// <para><b>Valid</b> readings of one sensor in order of time.</para>
/// <para><b>Error</b> a sensor that freezes for less than two days is not found, nor one whose last digit still flickers.</para>
/// </remarks>
public readonly record struct Standstill(double FromSeconds, double ToSeconds, int Moments)
{
    /// <summary>Seconds of one value after which a sensor looks stuck.</summary>
    public const long LeastSeconds = 48 * 3600;

    /// <summary>Readings of one value that it takes besides.</summary>
    public const int LeastMoments = 12;

    private const double Usual = 8;
    private const double GapSteps = 3;
    private const double AlwaysBridged = 7200;

    /// <summary>Finds them.</summary>
    /// <param name="seconds">In order of time.</param>
    /// <param name="values">NaN where nothing was noted: such a moment neither ends a stretch nor belongs to one.</param>
    public static IReadOnlyList<Standstill> In(IReadOnlyList<double> seconds, IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(seconds);
        ArgumentNullException.ThrowIfNull(values);
        int[] known = [.. Enumerable.Range(0, values.Count).Where(row => !double.IsNaN(values[row]))];
        if (known.Length < LeastMoments)
            return [];
        double[] steps = [.. known.Zip(known.Skip(1), (one, next) => seconds[next] - seconds[one]).Order()];
        var gap = Math.Max(AlwaysBridged, GapSteps * steps[steps.Length / 2]);
        List<Standstill> all = [];
        for (int first = 0, last = 0; first < known.Length; first = last + 1)
        {
            for (last = first; last + 1 < known.Length && values[known[last + 1]] == values[known[first]] && seconds[known[last + 1]] - seconds[known[last]] <= gap;)
                last++;
            all.Add(new(seconds[known[first]], seconds[known[last]], last - first + 1));
        }

        var suspects = all.FindAll(one => one.Lasts >= LeastSeconds && one.Moments >= LeastMoments);
        if (suspects.Count == 0)
            return [];
        var others = all.FindAll(one => one.Lasts < LeastSeconds || one.Moments < LeastMoments);
        if (suspects.Count == 1 && others.Sum(one => one.Moments) < LeastMoments)
            return []; // it never says anything else: nothing tells whether the air does
        // Several that fill most of the log are its rule and no exception.
        var rule = suspects.Count > 1 && suspects.Sum(one => one.Lasts) > others.Sum(one => one.Lasts) ? all : others;
        return suspects.FindAll(one => one.Lasts >= Usual * Middle(rule));
    }

    private double Lasts => ToSeconds - FromSeconds;

    // The median by time; nothing where there is no other.
    private static double Middle(List<Standstill> stretches)
    {
        var (half, passed) = (stretches.Sum(one => one.Lasts) / 2, 0.0);
        foreach (var one in stretches.OrderBy(one => one.Lasts))
        {
            passed += one.Lasts;
            if (passed >= half)
                return one.Lasts;
        }

        return 0;
    }
}
