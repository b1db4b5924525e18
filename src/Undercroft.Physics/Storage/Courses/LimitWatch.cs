using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>Watches one draw for its limits: the first day beyond each, and the longest time in which mould could grow.</summary>
internal sealed class LimitWatch
{
    private readonly IReadOnlyList<Limit> limits;
    private readonly double[] thresholds;
    private readonly double[] firstDay;
    private double spell;

    public LimitWatch(IReadOnlyList<Limit> limits, LeafCurve leaf)
    {
        this.limits = limits;
        (thresholds, firstDay) = (new double[limits.Count], new double[limits.Count]);
        for (var i = 0; i < limits.Count; i++)
        {
            firstDay[i] = double.NaN;
            thresholds[i] = limits[i] switch
            {
                Limit.MoistureBelow below => ActivityOf(leaf, below.WetBasis),
                Limit.MoistureAbove above => ActivityOf(leaf, above.WetBasis),
                Limit.ActivityBelow below => below.Activity,
                Limit.ActivityAbove above => above.Activity,
                _ => throw new InvalidOperationException($"No limit {limits[i]}."),
            };
        }
    }

    public IReadOnlyList<double> FirstDay => firstDay;

    public double LongestSpell { get; private set; }

    /// <summary>Looks at a point without a step: the start, or what an event made of the leaf.</summary>
    public void Look(double day, double activity22, double shift)
    {
        for (var i = 0; i < limits.Count; i++)
        {
            if (double.IsNaN(firstDay[i]) && Beyond(i, activity22, shift) > 0)
                firstDay[i] = day;
        }
    }

    /// <summary>Follows one step, with the rates of activity at its ends for the course in between.</summary>
    public void Follow(double day, double length, (double Activity22, double Rate, double Shift) from, (double Activity22, double Rate, double Shift) to)
    {
        for (var i = 0; i < limits.Count; i++)
        {
            if (!double.IsNaN(firstDay[i]))
                continue;
            if (Beyond(i, to.Activity22, to.Shift) > 0)
                firstDay[i] = day + (length * Crossing(i, length, from, to));
        }

        var mould = Course.MouldActivity;
        var (before, after) = ((from.Activity22 * from.Shift) - mould, (to.Activity22 * to.Shift) - mould);
        if (before > 0 && after > 0)
        {
            spell += length;
        }
        else if (before > 0)
        {
            LongestSpell = Math.Max(LongestSpell, spell + (length * before / (before - after)));
            spell = 0;
        }
        else
        {
            spell = after > 0 ? length * after / (after - before) : 0;
        }

        LongestSpell = Math.Max(LongestSpell, spell);
    }

    private static double ActivityOf(LeafCurve leaf, double wetBasis)
    {
        try
        {
            return leaf.Leaf.ActivityAt(Moisture.FromWetBasis(wetBasis)).Fraction;
        }
        catch (ArgumentOutOfRangeException)
        {
            return 1; // this leaf never holds so much
        }
    }

    /// <summary>Above zero beyond the limit.</summary>
    private double Beyond(int limit, double activity22, double shift) => limits[limit] switch
    {
        Limit.MoistureBelow => thresholds[limit] - activity22,
        Limit.MoistureAbove => activity22 - thresholds[limit],
        Limit.ActivityBelow => thresholds[limit] - (activity22 * shift),
        _ => (activity22 * shift) - thresholds[limit],
    };

    /// <summary>Where within the step the limit is passed, 0 to 1: bisection on Hermite's cubic.</summary>
    private double Crossing(int limit, double length, (double Activity22, double Rate, double Shift) from, (double Activity22, double Rate, double Shift) to)
    {
        var (low, high) = (0.0, 1.0);
        for (var i = 0; i < 24; i++)
        {
            var t = (low + high) / 2;
            var u = 1 - t;
            var activity = (from.Activity22 * u * u * (1 + (2 * t))) + (to.Activity22 * t * t * (3 - (2 * t)))
                + (length * t * u * ((from.Rate * u) - (to.Rate * t)));
            if (Beyond(limit, activity, from.Shift + ((to.Shift - from.Shift) * t)) > 0)
                high = t;
            else
                low = t;
        }

        return high;
    }
}
