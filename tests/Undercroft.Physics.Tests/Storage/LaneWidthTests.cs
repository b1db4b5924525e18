using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>An ensemble gives the same bits in lanes of one, eight and sixteen, whatever runs beside it, and years that repeat are told as they would be stepped.</summary>
public class LaneWidthTests(ITestOutputHelper output)
{
    private const double R = PhysicalConstants.GasConstant;

    [Fact]
    public void Lanes_of_one_eight_and_sixteen_give_the_same_bits()
    {
        var course = Drawn(21, 12, oxygenDays: 90, SharedLeaf: false);
        var one = EnsembleEngine.RunWith<Single1>(course);
        AssertSame(one, EnsembleEngine.RunWith<Single8>(course));
        AssertSame(one, EnsembleEngine.RunWith<Single16>(course));
        AssertSame(one, EnsembleEngine.Run(course));
    }

    [Fact]
    public void Packages_side_by_side_give_what_they_give_alone()
    {
        var courses = Enumerable.Range(0, 6).Select(seed => Drawn(9, 3, 30 + (200 * seed), SharedLeaf: seed % 2 == 0)).ToArray();
        var alone = courses.Select(EnsembleEngine.Run).ToArray();
        var beside = new EnsembleCourse[courses.Length];
        Parallel.For(0, courses.Length, i => beside[i] = EnsembleEngine.Run(courses[i]));
        for (var i = 0; i < courses.Length; i++)
            AssertSame(alone[i], beside[i]);
    }

    [Theory]
    [InlineData(0.5, true)]
    [InlineData(20.0, false)]
    [InlineData(90.0, true)]
    [InlineData(3000.0, false)]
    public void Seasons_joined_give_what_each_draw_gives_alone_step_by_step(double oxygenDays, bool sharedLeaf)
    {
        var course = Drawn(37, 30, oxygenDays, sharedLeaf);
        var (together, alone) = (EnsembleEngine.Run(course), EnsembleEngine.RunAlone(course));
        var (moisture, oxygen, carbon, total, day) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (var draw = 0; draw < course.Draws; draw++)
        {
            for (var row = 0; row < course.OutputDays.Count; row++)
            {
                moisture = Math.Max(moisture, 100 * Math.Abs(together.MoistureWetBasis[row][draw] - alone.MoistureWetBasis[row][draw]));
                oxygen = Math.Max(oxygen, Math.Abs(together.Oxygen[row][draw] - alone.Oxygen[row][draw]) / 1000);
                carbon = Math.Max(carbon, Math.Abs(together.CarbonDioxide[row][draw] - alone.CarbonDioxide[row][draw]) / 1000);
                total = Math.Max(total, Math.Abs(together.Total[row][draw] - alone.Total[row][draw]) / 1000);
            }

            for (var limit = 0; limit < 2; limit++)
            {
                var (one, other) = (together.FirstDay[limit][draw], alone.FirstDay[limit][draw]);
                Assert.Equal(double.IsNaN(one), double.IsNaN(other));
                if (!double.IsNaN(one))
                    day = Math.Max(day, Math.Abs(one - other) / Math.Max(1, 0.01 * other));
            }
        }

        output.WriteLine($"{moisture} points, {oxygen} {carbon} {total} kPa, {day} of the allowed day");
        Assert.InRange(moisture, 0, 0.02);
        Assert.InRange(oxygen, 0, 0.02);
        Assert.InRange(carbon, 0, 0.02);
        Assert.InRange(total, 0, 0.05);
        Assert.InRange(day, 0, 1);
    }

    [Theory]
    [InlineData(2.0)]
    [InlineData(200.0)]
    [InlineData(5000.0)]
    public void Years_that_repeat_are_those_that_steps_give(double oxygenDays)
    {
        var course = Drawn(8, 30, oxygenDays, SharedLeaf: true);
        // The same weather without a stated period: every step is taken.
        var doubled = course with { Stays = [course.Stays[0] with { Place = ClimateTable.Daily(new Long(Place), (365 * 30) + 2) }] };
        var (quick, stepped) = (EnsembleEngine.Run(course), EnsembleEngine.Run(doubled));
        for (var row = 0; row < course.OutputDays.Count; row++)
        {
            for (var draw = 0; draw < 8; draw++)
            {
                // A twentieth of what the model allows in gas: seasons begin on other days where no year is known, and steps of up to 18 days with them.
                Assert.Equal(stepped.MoistureWetBasis[row][draw], quick.MoistureWetBasis[row][draw], 1e-5);
                Assert.Equal(stepped.Oxygen[row][draw], quick.Oxygen[row][draw], 5.0);
                Assert.Equal(stepped.Total[row][draw], quick.Total[row][draw], 10.0);
            }
        }
    }

    private static readonly SinusoidClimate Place = new(15, 8, 5, -1.8, 0.5, 0.1, 1);

    private static Course Drawn(int draws, int years, double oxygenDays, bool SharedLeaf)
    {
        var random = new Random(5);
        PerDraw Each(double low, double high) => Enumerable.Range(0, draws).Select(_ => low + ((high - low) * random.NextDouble())).ToArray();
        var oxygen = 3e-4 / (R * 296.15 * oxygenDays * 86400);
        ExchangePath film = new("film", new(oxygen * 100, 35_000), new(oxygen, 33_000), new(4 * oxygen, 30_000), new(0.3 * oxygen, 40_000));
        Stay stay = new(
            0, years * 365, ClimateTable.Daily(Place, 365), new HeadspaceDraws.Rigid(Each(2e-4, 4e-4)),
            [new(film, Each(0.3, 3), Each(0.3, 3), Each(0.3, 3), Each(0.3, 3), 0, double.NegativeInfinity)],
            new(Each(1e-9, 1e-8), 293.15, Each(1.5, 3), 0.9, UptakeBasis.PerMole, PerKilogram: false), RoomAir.Ordinary,
            [CourseEvent.Sealed.InTheRoom], Each(-2, 2), Each(-0.03, 0.03));
        return new(
            draws, Each(0.03, 0.08), SharedLeaf ? [new OswinIsotherm(0.12, 0.6, 2500)] : [.. Enumerable.Range(0, draws).Select(i => new OswinIsotherm(0.1 + (0.001 * i), 0.6, 2000 + (20 * i)))],
            Each(0.13, 0.19), [stay], [.. Enumerable.Range(1, years * 4).Select(quarter => (int)(quarter * 91.25))],
            [new Limit.MoistureBelow(0.12), new Limit.ActivityAbove(0.66)]);
    }

    private static void AssertSame(EnsembleCourse one, EnsembleCourse other)
    {
        for (var row = 0; row < one.Days.Count; row++)
        {
            Assert.Equal(one.MoistureWetBasis[row], other.MoistureWetBasis[row]);
            Assert.Equal(one.Activity[row], other.Activity[row]);
            Assert.Equal(one.Oxygen[row], other.Oxygen[row]);
            Assert.Equal(one.CarbonDioxide[row], other.CarbonDioxide[row]);
            Assert.Equal(one.Total[row], other.Total[row]);
        }

        for (var limit = 0; limit < one.FirstDay.Length; limit++)
            Assert.Equal(one.FirstDay[limit], other.FirstDay[limit]);
        Assert.Equal(one.LongestDaysOfMould, other.LongestDaysOfMould);
    }

    private sealed record Long(SinusoidClimate Year) : IPlaceClimate
    {
        public int? PeriodDays => null;

        public RoomMoment At(double day) => Year.At(day);
    }
}
