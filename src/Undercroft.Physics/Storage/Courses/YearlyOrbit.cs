using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>Notices when a package in a periodic place has come to do the same every year, so that the years to come need no steps.</summary>
/// <remarks>
/// <para><b>Equation</b> |y − y_before| ≤ ε and |n − n_before| ≤ ε Σn at two ends of a year; the way still to go is then ε/(1 − ρ), ρ the share
/// of a disturbance left after a year.</para>
/// <para><b>Source</b> elementary; a linear equation under periodic forcing has one periodic solution, and every other comes to it.</para>
/// <para><b>Valid</b> stays without taking leaf, after the last path has come.</para>
/// <para><b>Error</b> ε = 1e-8: below 1e-6 of activity and of gas for time constants up to a hundred years.</para>
/// </remarks>
internal sealed class YearlyOrbit<T>
    where T : struct, ILane<T>
{
    private const double Near = 1e-8;

    private readonly StayPlan plan;
    private readonly int period;
    private readonly Dictionary<double, int> rowOfDay = [];
    private readonly T[] before = new T[4];
    private double nextEnd;
    private bool hasBefore;

    public YearlyOrbit(StayPlan plan)
    {
        this.plan = plan;
        period = plan.Stay.Place.Cells;
        nextEnd = plan.Start[0] + period;
        for (var row = 0; row < plan.Rows.Count; row++)
            rowOfDay[plan.Start[plan.Rows[row].AfterStep]] = row;
    }

    /// <summary>The beginning of the year that has just ended.</summary>
    public double Since => nextEnd - (2 * period);

    /// <summary>True where a year ends at this edge that can be held against the one before, and its rows stand for all to come.</summary>
    /// <param name="edge">Of a step.</param>
    /// <param name="activity">There.</param>
    /// <param name="moles">There.</param>
    /// <param name="draws">Gets for each draw of the lane whether its year was like the one before.</param>
    public bool Repeats(int edge, T activity, ReadOnlySpan<T> moles, Span<bool> draws)
    {
        var day = plan.Start[edge];
        if (day < nextEnd)
            return false;
        if (day > nextEnd)
        {
            (nextEnd, hasBefore) = (nextEnd + period, false); // no step ends with that year
            return false;
        }

        nextEnd += period;
        var repeats = hasBefore && RowsStand(day);
        if (repeats)
            Same(activity, moles, draws);
        (before[0], before[1], before[2], before[3]) = (activity, moles[0], moles[1], moles[2]);
        hasBefore = true;
        return repeats;
    }

    /// <summary>The row of the same day of the year, in the year just ended or in one already repeated.</summary>
    public int SameDayBefore(int row) => rowOfDay[plan.Start[plan.Rows[row].AfterStep] - period];

    private bool RowsStand(double end)
    {
        for (var row = plan.Rows.Count - 1; row >= 0; row--)
        {
            var day = plan.Start[plan.Rows[row].AfterStep];
            if (day <= end)
                break;
            if (plan.Rows[row].Cell < 0 || !rowOfDay.ContainsKey(day - period))
                return false;
        }

        return true;
    }

    private void Same(T activity, ReadOnlySpan<T> moles, Span<bool> draws)
    {
        var near = T.Of(Near);
        var allowed = (moles[0] + moles[1] + moles[2]) * near;
        var gas = T.Max(T.Max(Distance(moles[0], before[1]), Distance(moles[1], before[2])), Distance(moles[2], before[3]));
        Span<double> like = stackalloc double[T.Count];
        T.WhereLess(Distance(activity, before[0]), near, T.WhereLess(gas, allowed, T.Of(1), T.Of(0)), T.Of(0)).Store(like);
        for (var i = 0; i < like.Length; i++)
            draws[i] = like[i] > 0;
    }

    private static T Distance(T one, T other) => T.Max(one - other, other - one);
}
