using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>How many steps a group needs in a season.</summary>
/// <remarks>
/// <para><b>Equation</b> n z^(1/3), at least 1 and at most n, z the season's length in time constants of the quickest draw; n is 7 for leaf and 5 for gas.</para>
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

    private const int MostGasSteps = 5;

    /// <summary>Steps of water and of gas, and the season's length in time constants of the slowest draw for each.</summary>
    public static (int Water, int Gas, double LeastWater, double LeastGas) Steps<T>(DrawGroup group, SeasonPlan plan, Stay stay, StayWeights[] all)
        where T : struct, ILane<T>
    {
        Span<double> sums = stackalloc double[TemperatureBasis.Width];
        var days = stay.Place.Periodic ? stay.Place.Cells : stay.ToDay - stay.FromDay;
        var from = stay.Place.Periodic ? 0 : stay.FromDay;
        plan.Basis.Between(from, from + days, sums);
        var season = SeasonDays / days;
        var (water, gas) = (0.0, 0.0);
        var (leastWater, leastGas) = (double.PositiveInfinity, double.PositiveInfinity);
        var before = (double[])group.Activity.Clone();
        var slope = (double[])group.PerSlope.Clone();
        Array.Fill(group.Activity, MiddleActivity);
        LeafDispatch<T>.Begin(group);
        for (var slot = 0; slot < group.Slots; slot++)
        {
            var clock = Dot(all, sums, TemperatureBasis.Water, StayWeights.Clock, slot);
            var perSlope = clock * season * group.PerDry[slot];
            water = Math.Max(water, perSlope * Math.Max(slope[slot], group.PerSlope[slot]));
            leastWater = Math.Min(leastWater, perSlope * Math.Min(slope[slot], group.PerSlope[slot]));
            if (!group.WithGas)
                continue;
            var uptake = Dot(all, sums, TemperatureBasis.Gas, StayWeights.Uptake, slot);
            for (var each = 0; each < 3; each++)
            {
                var rate = Dot(all, sums, TemperatureBasis.Gas, StayWeights.Gas + (each * StayWeights.GasWidth), slot);
                gas = Math.Max(gas, season * (rate + (each == 0 ? uptake : 0)));
                leastGas = Math.Min(leastGas, season * (rate + (each == 0 ? uptake : 0)));
            }
        }

        before.CopyTo(group.Activity, 0);
        slope.CopyTo(group.PerSlope, 0);
        return (Steps(water, SeasonPlan.MostSteps), Steps(gas, MostGasSteps), leastWater, leastGas);
    }

    private static int Steps(double clock, int most) => double.IsNaN(clock) ? most : Math.Clamp((int)Math.Ceiling(most * Math.Cbrt(clock)), 1, most);

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
