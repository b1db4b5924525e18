using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>How many steps a group needs in a season.</summary>
/// <remarks>
/// <para><b>Equation</b> n z^(1/3), at least 1, z the season's length in time constants of the quickest draw; n is 7 for leaf, which takes no more, and 3 for gas, which takes up to 5.</para>
/// <para><b>Source</b> derived: the error of a second-order step grows with the cube of its length, and slow leaf follows only part of what the room does. Gas is
/// linear, and exact but for the bend of rate and source over a step: it may take longer ones.</para>
/// <para><b>Valid</b> any package.</para>
/// <para><b>Error</b> measured against the fine engine in the tests.</para>
/// </remarks>
internal static class GroupSpeed
{
    private const double MiddleActivity = 0.5;
    /// <summary>Length of a season, days.</summary>
    public const double SeasonDays = 91.25;

    private const int GasSteps = 3;
    private const int MostGasSteps = 5;
    private const double QuickGas = 7.5; // a season in time constants of twelve days
    private const double QuickLeaf = 3; // of thirty

    /// <summary>Steps of leaf, the season's length in time constants of the slowest draw, and whether any is so quick that it follows the weather of weeks.</summary>
    public static (int Steps, double Least, bool IsQuick) Water<T>(DrawGroup group, SeasonPlan plan, Stay stay, StayWeights[] all)
        where T : struct, ISingleLane<T>
    {
        Span<double> sums = stackalloc double[TemperatureBasis.Width];
        var season = Whole(plan, stay, sums);
        var (most, least) = (0.0, double.PositiveInfinity);
        var before = (double[])group.Activity.Clone();
        var slope = (float[])group.PerSlope.Clone();
        Array.Fill(group.Activity, MiddleActivity);
        LeafDispatch<T>.Begin(group);
        var clocks = new float[group.Slots];
        for (var at = 0; at < group.Slots; at += T.Count)
            (Dot<T>(all, sums, TemperatureBasis.Water, StayWeights.Clock, at) * T.At(group.PerDry, at)).Put(clocks, at);
        for (var slot = 0; slot < group.Slots; slot++)
        {
            var perSlope = season * clocks[slot];
            most = Math.Max(most, perSlope * Math.Max(slope[slot], group.PerSlope[slot]));
            least = Math.Min(least, perSlope * Math.Min(slope[slot], group.PerSlope[slot]));
        }

        before.CopyTo(group.Activity, 0);
        slope.CopyTo(group.PerSlope, 0);
        return (Steps(most, SeasonPlan.MostSteps, SeasonPlan.MostSteps), least, most > QuickLeaf);
    }

    /// <summary>Steps of gas, the season's length in time constants of the slowest gas of the slowest draw, and whether any gas is so quick that it follows the weather of days.</summary>
    public static (int Steps, double Least, bool IsQuick) Gas<T>(DrawGroup group, SeasonPlan plan, Stay stay, StayWeights[] all)
        where T : struct, ISingleLane<T>
    {
        Span<double> sums = stackalloc double[TemperatureBasis.Width];
        var season = Whole(plan, stay, sums);
        var (most, least) = (T.Of(0f), T.Of(float.PositiveInfinity));
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            var uptake = Dot<T>(all, sums, TemperatureBasis.Gas, StayWeights.Uptake, at);
            for (var each = 0; each < 3; each++)
            {
                var rate = Dot<T>(all, sums, TemperatureBasis.Gas, StayWeights.Gas + (each * StayWeights.GasWidth), at) + (each == 0 ? uptake : T.Of(0f));
                (most, least) = (T.Max(rate, most), T.Min(rate, least));
            }
        }

        Span<double> rates = stackalloc double[T.Count];
        most.Store(rates);
        var quickest = season * rates[0];
        foreach (var rate in rates)
            quickest = Math.Max(quickest, season * rate);
        least.Store(rates);
        var slowest = season * rates[0];
        foreach (var rate in rates)
            slowest = Math.Min(slowest, season * rate);
        return (Steps(quickest, GasSteps, MostGasSteps), slowest, quickest > QuickGas);
    }

    /// <summary>The integrals over all there is of the weather, and a season's share of them.</summary>
    private static double Whole(SeasonPlan plan, Stay stay, Span<double> sums)
    {
        var days = stay.Place.Periodic ? stay.Place.Cells : stay.ToDay - stay.FromDay;
        var from = stay.Place.Periodic ? 0 : stay.FromDay;
        plan.Basis.Between(from, from + days, sums);
        return SeasonDays / days;
    }

    private static int Steps(double clock, int usual, int most) => double.IsNaN(clock) ? most : Math.Clamp((int)Math.Ceiling(usual * Math.Cbrt(clock)), 1, most);

    private static T Dot<T>(StayWeights[] all, ReadOnlySpan<double> sums, int integrals, int family, int at)
        where T : struct, ISingleLane<T>
    {
        var sum = T.Of(0f);
        foreach (var weights in all)
            sum += weights.Of<T>(family, sums[integrals..], at);
        return sum;
    }
}
