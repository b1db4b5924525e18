using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;
using Undercroft.Physics.Storage.Kernel;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>Draws read off between nodes against the same draws stepped one by one. Source: own computation.</summary>
public class LeafNodesTests(ITestOutputHelper output)
{
    private const double R = PhysicalConstants.GasConstant;

    private static readonly SinusoidClimate Attic = new(15, 8, 5, -1.8, 0.5, 0.12, 1.0);

    [Theory]
    [InlineData(20.0, 0.3, 0.62)]
    [InlineData(400.0, 0.5, 0.62)]
    [InlineData(3000.0, 0.5, 0.68)]
    [InlineData(3000.0, 1.2, 0.62)]
    [InlineData(70_000.0, 0.7, 0.75)]
    public void They_are_what_each_gives_by_itself(double days, double spread, double start)
    {
        var course = Course(days, Factors(256, spread), start);
        Assert.True(IsReadOff(course));
        var (read, stepped) = (EnsembleEngine.Run(course), EnsembleEngine.RunWith<Single1>(course, mayReadOff: false));
        var (moisture, total, day) = (0.0, 0.0, 0.0);
        for (var draw = 0; draw < course.Draws; draw++)
        {
            for (var row = 0; row < course.OutputDays.Count; row++)
            {
                moisture = Math.Max(moisture, 100 * Math.Abs(read.MoistureWetBasis[row][draw] - stepped.MoistureWetBasis[row][draw]));
                total = Math.Max(total, Math.Abs(read.Total[row][draw] - stepped.Total[row][draw]) / 1000);
            }

            for (var limit = 0; limit < course.Limits.Count; limit++)
            {
                var (one, other) = (read.FirstDay[limit][draw], stepped.FirstDay[limit][draw]);
                if (double.IsNaN(one) == double.IsNaN(other) && !double.IsNaN(one))
                    day = Math.Max(day, Math.Abs(one - other) / Math.Max(1, 0.01 * other));
                else
                    Assert.Equal(double.IsNaN(one), double.IsNaN(other));
            }

            Assert.Equal(stepped.LongestDaysOfMould[draw], read.LongestDaysOfMould[draw], Math.Max(1.0, 0.01 * stepped.LongestDaysOfMould[draw]));
        }

        output.WriteLine($"{moisture} points, {total} kPa, {day} of the allowed day; {read.FirstDay[0].Count(double.IsNaN)} draws never pass; mould {stepped.LongestDaysOfMould.Max()} days");
        Assert.InRange(moisture, 0, 0.01); // a fifth of what the model allows: slow draws take the longer steps when they are by themselves
        Assert.InRange(total, 0, 0.02);
        Assert.InRange(day, 0, 1);
    }

    [Fact]
    public void Lanes_of_one_eight_and_sixteen_give_the_same_bits()
    {
        var course = Course(500, Factors(70, 0.4), 0.62);
        Assert.True(IsReadOff(course));
        var (one, eight, sixteen) = (EnsembleEngine.RunWith<Single1>(course), EnsembleEngine.RunWith<Single8>(course), EnsembleEngine.RunWith<Single16>(course));
        for (var row = 0; row < course.OutputDays.Count; row++)
        {
            Assert.Equal(one.MoistureWetBasis[row], eight.MoistureWetBasis[row]);
            Assert.Equal(one.MoistureWetBasis[row], sixteen.MoistureWetBasis[row]);
            Assert.Equal(one.Total[row], eight.Total[row]);
            Assert.Equal(one.Total[row], sixteen.Total[row]);
        }

        Assert.Equal(one.FirstDay[0], eight.FirstDay[0]);
        Assert.Equal(one.FirstDay[0], sixteen.FirstDay[0]);
    }

    [Fact]
    public void Dry_mass_and_the_scale_of_the_isotherm_count_as_speed()
    {
        var course = Course(500, Factors(256, 0.3), 0.62);
        var scales = Factors(256, 0.1).Reverse().ToArray();
        var masses = Factors(256, 0.05).Select(factor => 0.05 * factor).ToArray();
        Isotherm[] leaves = [.. scales.Select(scale => new OswinIsotherm(0.12 * scale, 0.6, 2500))];
        double[] starts = [.. leaves.Select(each => each.MoistureAt(new(0.62)).DryBasis)];
        var drawn = course with { Leaf = leaves, DryMass = masses, StartMoisture = starts };
        Assert.True(IsReadOff(drawn));
        var (read, stepped) = (EnsembleEngine.Run(drawn), EnsembleEngine.RunWith<Single1>(drawn, mayReadOff: false));
        for (var row = 0; row < course.OutputDays.Count; row++)
            Assert.All(Enumerable.Range(0, course.Draws), draw => Assert.Equal(stepped.MoistureWetBasis[row][draw], read.MoistureWetBasis[row][draw], 1e-4));
    }

    [Fact]
    public void Whatever_differs_by_more_is_stepped()
    {
        var factors = Factors(256, 0.3);
        var course = Course(500, factors, 0.62);
        Assert.False(IsReadOff(course with { StartMoisture = factors.Select(factor => 0.15 * factor).ToArray() }));
        Assert.False(IsReadOff(Course(500, Factors(20, 0.3), 0.62)));
        Assert.False(IsReadOff(course with { Stays = [course.Stays[0] with { TemperatureOffset = factors }] }));
    }

    [Fact]
    public void A_closed_draw_among_them_keeps_its_water()
    {
        var factors = Factors(256, 0.3);
        factors[7] = 0;
        var course = Course(500, factors, 0.62);
        var run = EnsembleEngine.Run(course);
        Assert.Equal(0, run.LeftRangeCount);
        Assert.Equal(run.Water[0][7], run.Water[^1][7], 1e-9);
    }

    /// <summary>A start that none of the nodes can hold: every draw is found out of range by itself.</summary>
    [Fact]
    public void A_start_beyond_the_isotherm_is_counted_draw_by_draw()
    {
        var course = Course(500, Factors(64, 0.3), 0.62) with { StartMoisture = 300.0 };
        Assert.Equal(64, EnsembleEngine.Run(course).LeftRangeCount);
    }

    [Fact]
    public void The_polynomial_goes_through_its_points_and_tells_its_error()
    {
        var chebyshev = Chebyshev.Of(16);
        double Gompertz(double x, double steep) => Math.Exp(-Math.Exp(steep * x));
        foreach (var steep in new[] { 0.5, 1.5, 6.0 })
        {
            float[] values = [.. chebyshev.Points.Select(x => (float)(Gompertz(x, steep) - 0.3))];
            var found = new float[208];
            var places = Enumerable.Range(0, 208).Select(i => i == 50 ? chebyshev.Points[3] : -1 + (2 * i / 207.0)).ToArray();
            var (weights, last) = (chebyshev.Weights<Single8>(places), chebyshev.LastOf(values));
            for (var at = 0; at < 208; at += Single8.Count)
                Chebyshev.At(weights, 208, values, Single8.Of(0.3), at).Put(found, at);
            var worst = Enumerable.Range(0, 208).Max(i => Math.Abs(found[i] - Gompertz(places[i], steep)));
            output.WriteLine($"{steep}: last {last}, error {worst}");
            Assert.InRange(worst, 0, (3 * last) + 3e-7);
            Assert.Equal(Gompertz(places[50], steep), found[50], 1e-7);
            Assert.Equal(steep < 5, last < 5e-6);
        }
    }

    private static bool IsReadOff(Course course)
    {
        QuietRun<Single8> run = new(course, new Nobody(), mayReadOff: true);
        return run.Run() && run.ReadsOff;
    }

    private static double[] Factors(int draws, double spread)
    {
        Random random = new(3);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(Math.Tau * random.NextDouble());
        return [.. Enumerable.Range(0, draws).Select(_ => Math.Exp(spread * Normal()))];
    }

    /// <summary>A package whose leaf follows the room in about so many days.</summary>
    private static Course Course(double days, double[] factors, double start)
    {
        var water = 0.05 * 0.3 / (days * 86400 * 2300 * PhysicalConstants.MolarMassOfWater);
        var oxygen = 3e-4 / (R * 296.15 * 120 * 86400);
        OswinIsotherm leaf = new(0.12, 0.6, 2500);
        ExchangePath film = new("film", new(water, 35_000), new(oxygen, 33_000), new(4 * oxygen, 30_000), new(0.3 * oxygen, 40_000));
        Stay stay = new(
            0, 20 * 365, ClimateTable.Daily(Attic, 365), new HeadspaceDraws.Rigid(3e-4), [PathDraws.Of(film, factors)],
            new(3e-9, 293.15, 2, 0.9, UptakeBasis.PerMole, PerKilogram: false), RoomAir.Ordinary, [CourseEvent.Sealed.InTheRoom]);
        return new(
            factors.Length, 0.05, [leaf], leaf.MoistureAt(new(start)).DryBasis, [stay], [.. Enumerable.Range(1, 80).Select(quarter => (int)(quarter * 91.25))],
            [new Limit.MoistureBelow(0.12), new Limit.ActivityAbove(0.66)]);
    }

    private sealed class Nobody : IRowTaker
    {
        public void Take(RowBuffer row, IReadOnlyList<DrawGroup> order)
        {
        }

        public void Repeat(int row, int before)
        {
        }
    }
}
