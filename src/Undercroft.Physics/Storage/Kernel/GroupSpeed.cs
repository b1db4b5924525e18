using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>How many steps a group needs in a season.</summary>
/// <remarks>
/// <para><b>Equation</b> 9 z^(1/3), at least 1 and at most 9, z the season's length in time constants of the quickest draw.</para>
/// <para><b>Source</b> derived: the error of a second-order step grows with the cube of its length, and slow leaf follows only part of what the room does.</para>
/// <para><b>Valid</b> any package.</para>
/// <para><b>Error</b> measured against the fine engine in the tests.</para>
/// </remarks>
internal static class GroupSpeed
{
    private const double MiddleActivity = 0.5;
    private const double SeasonDays = 91.25;

    /// <summary>Steps of water and of gas.</summary>
    public static (int Water, int Gas) Steps<T>(DrawGroup group, SeasonPlan plan, Stay stay, StayWeights[] all)
        where T : struct, ILane<T>
    {
        Span<double> sums = stackalloc double[TemperatureBasis.Width];
        var days = stay.Place.Periodic ? stay.Place.Cells : stay.ToDay - stay.FromDay;
        var from = stay.Place.Periodic ? 0 : stay.FromDay;
        plan.Basis.Between(from, from + days, sums);
        var season = SeasonDays / days;
        var (water, gas) = (0.0, 0.0);
        var before = (double[])group.Activity.Clone();
        var slope = (double[])group.PerSlope.Clone();
        Array.Fill(group.Activity, MiddleActivity);
        LeafDispatch<T>.Begin(group);
        for (var slot = 0; slot < group.Slots; slot++)
        {
            var clock = Dot(all, sums, TemperatureBasis.Water, StayWeights.Clock, slot);
            water = Math.Max(water, clock * season * group.PerDry[slot] * Math.Max(slope[slot], group.PerSlope[slot]));
            if (!group.WithGas)
                continue;
            var uptake = Dot(all, sums, TemperatureBasis.Gas, StayWeights.Uptake, slot);
            for (var each = 0; each < 3; each++)
            {
                var rate = Dot(all, sums, TemperatureBasis.Gas, StayWeights.Gas + (each * StayWeights.GasWidth), slot);
                gas = Math.Max(gas, season * (rate + (each == 0 ? uptake : 0)));
            }
        }

        before.CopyTo(group.Activity, 0);
        slope.CopyTo(group.PerSlope, 0);
        return (Steps(water), Steps(gas));
    }

    private static int Steps(double clock) => double.IsNaN(clock) ? SeasonPlan.MostSteps : Math.Clamp((int)Math.Ceiling(SeasonPlan.MostSteps * Math.Cbrt(clock)), 1, SeasonPlan.MostSteps);

    private static double Dot(StayWeights[] all, ReadOnlySpan<double> sums, int family, int row, int slot)
    {
        var sum = 0.0;
        foreach (var weights in all)
        {
            for (var k = 0; k < TemperatureBasis.Nodes; k++)
                sum += weights.Row(row + k)[slot] * sums[family + k];
        }

        return sum;
    }
}
