using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>Draws of packages that give way or let air flow, side by side: the same bits in lanes of one, four and eight, in any company, on any thread.</summary>
public class VentedLaneTests
{
    private const double R = PhysicalConstants.GasConstant;
    private static readonly SinusoidClimate Place = new(15, 8, 5, -1.8, 0.5, 0.1, 1);

    /// <summary>Bags and pouches from tight to bulging; rigid ones from breathing to a vacuum that lasts; closures that fail; leaf taken from day to day.</summary>
    public static TheoryData<string> Sorts => ["bag", "pouch", "leaking pouch", "tin", "jar", "in use", "weather"];

    [Theory]
    [MemberData(nameof(Sorts))]
    public void Lanes_of_one_four_and_eight_give_the_same_bits(string sort)
    {
        var course = Drawn(sort, 21, 8);
        var one = EnsembleEngine.RunWith<Single1>(course);
        AssertSame(one, EnsembleEngine.RunWith<Single8>(course));
        AssertSame(one, EnsembleEngine.RunWith<Single16>(course));
        AssertSame(one, EnsembleEngine.Run(course));
        Assert.Equal(0, one.LeftRangeCount);
    }

    [Fact]
    public void Packages_side_by_side_give_what_they_give_alone()
    {
        var courses = Sorts.Select(sort => Drawn(sort.Data, 9, 4)).ToArray();
        var alone = courses.Select(EnsembleEngine.Run).ToArray();
        var beside = new EnsembleCourse[courses.Length];
        Parallel.For(0, courses.Length, i => beside[i] = EnsembleEngine.Run(courses[i]));
        for (var i = 0; i < courses.Length; i++)
            AssertSame(alone[i], beside[i]);
    }

    /// <summary>A draw that left its isotherm takes nobody with it.</summary>
    [Fact]
    public void A_draw_out_of_range_leaves_its_neighbours_alone()
    {
        var course = Drawn("bag", 8, 3) with { Leaf = [new GabIsotherm(0.09, 5, 0.85, 0)] };
        var sound = EnsembleEngine.Run(course);
        var moisture = Enumerable.Range(0, 8).Select(draw => draw == 3 ? 3.0 : course.StartMoisture[draw]).ToArray();
        var result = EnsembleEngine.Run(course with { StartMoisture = moisture });
        Assert.Equal([3], Enumerable.Range(0, 8).Where(draw => result.LeftRange[draw]));
        for (var draw = 0; draw < 8; draw++)
            Assert.Equal(draw == 3 ? double.NaN : sound.Oxygen[^1][draw], result.Oxygen[^1][draw]);
    }

    /// <summary>Draws of glass whose gaps never open go by the kernel, the others step by step; neither is far from the step-by-step engine alone.</summary>
    [Fact]
    public void Draws_whose_gaps_never_open_are_where_the_step_by_step_engine_puts_them()
    {
        var course = Drawn("jar", 24, 10);
        var parts = CourseParts.Of(course);
        Assert.NotEmpty(parts.Quiet);
        Assert.NotEmpty(parts.Vented);
        var (together, alone) = (EnsembleEngine.Run(course), EnsembleEngine.RunAlone(course));
        for (var row = 0; row < course.OutputDays.Count; row++)
        {
            for (var draw = 0; draw < course.Draws; draw++)
            {
                Assert.Equal(alone.MoistureWetBasis[row][draw], together.MoistureWetBasis[row][draw], 2e-4);
                Assert.Equal(alone.Oxygen[row][draw], together.Oxygen[row][draw], 20.0);
                Assert.Equal(alone.CarbonDioxide[row][draw], together.CarbonDioxide[row][draw], 20.0);
                Assert.Equal(alone.Total[row][draw], together.Total[row][draw], 50.0);
            }
        }
    }

    private static Course Drawn(string sort, int draws, int years)
    {
        var random = new Random(5);
        PerDraw Each(double low, double high) => Enumerable.Range(0, draws).Select(_ => low + ((high - low) * random.NextDouble())).ToArray();
        PerDraw Spread(double factor) => Enumerable.Range(0, draws).Select(_ => Math.Exp(Math.Log(factor) * ((2 * random.NextDouble()) - 1))).ToArray();
        var soft = sort is "bag" or "pouch" or "leaking pouch" or "weather";
        var pores = 2e-5;
        var oxygen = (soft ? pores : 3e-4) / (R * 296.15 * 86400 * (sort is "bag" or "weather" ? 2 : 300));
        var viscous = 3e-4 / (R * 296.15 * 86400 * (sort == "tin" ? 0.1 : 30));
        ExchangePath film = new("film", new(oxygen * 100, 35_000), new(oxygen, 33_000), new(4 * oxygen, 30_000), new(0.3 * oxygen, 40_000), sort is "tin" ? viscous : 0);
        ExchangePath gap = new("gap", new(oxygen * 300, 5_000), new(oxygen * 3, 5_000), new(3 * oxygen, 5_000), new(3 * oxygen, 5_000), sort is "pouch" ? 0 : viscous);
        HeadspaceDraws headspace = soft ? new HeadspaceDraws.Flexible(Each(1.5e-5, 2.5e-5), Each(5e-5, 4e-4)) : new HeadspaceDraws.Rigid(Each(2e-4, 4e-4));
        var fails = Enumerable.Range(0, draws).Select(draw => draw % 3 == 0 ? 200.0 + (100 * draw) : double.PositiveInfinity).ToArray();
        PerDraw pressure = sort is "pouch" or "leaking pouch" or "jar" ? Each(10_000, 60_000) : double.NaN;
        PerDraw filled = sort is "bag" or "weather" ? Each(2.5e-5, 5e-5) : double.NaN;
        var place = sort == "weather" ? ClimateTable.Daily(VentedCase.From(13).Climate, (365 * years) + 2) : ClimateTable.Daily(Place, 365);
        Stay stay = new(
            0, 400, place, headspace,
            [PathDraws.Of(film, Spread(20)), new(gap, Spread(3), Spread(3), Spread(3), Spread(3), Spread(20), fails)],
            new(Each(1e-14, 2e-13), 293.15, Each(1.5, 3), 0.9, UptakeBasis.PerPascal, PerKilogram: true), RoomAir.Ordinary,
            [new CourseEvent.Sealed(pressure, filled, double.NaN)], Each(-2, 2), Each(-0.03, 0.03));
        var later = stay with { FromDay = 400, ToDay = years * 365, Events = sort == "jar" ? [] : [new CourseEvent.TakenOut(0.2), new CourseEvent.WaterAdded(0.0005), new CourseEvent.Opened(0.7)], LeafTakenPerDay = sort == "in use" ? Each(0, 1e-5) : 0 };
        return new(
            draws, Each(0.03, 0.08), sort == "bag" ? [new OswinIsotherm(0.12, 0.6, 2500)] : [.. Enumerable.Range(0, draws).Select(i => new OswinIsotherm(0.1 + (0.001 * i), 0.6, 2000 + (20 * i)))],
            Each(0.13, 0.17), [stay, later], [.. Enumerable.Range(1, years * 4).Select(quarter => (int)(quarter * 91.25))],
            [new Limit.MoistureBelow(0.12), new Limit.ActivityAbove(0.66)]);
    }

    private static void AssertSame(EnsembleCourse one, EnsembleCourse other)
    {
        foreach (var of in (Func<EnsembleCourse, double[][]>[])[each => each.MoistureWetBasis, each => each.Activity, each => each.Oxygen, each => each.CarbonDioxide, each => each.Nitrogen, each => each.Total, each => each.FirstDay])
        {
            for (var row = 0; row < of(one).Length; row++)
                Assert.Equal(of(one)[row], of(other)[row]);
        }

        Assert.Equal(one.LongestDaysOfMould, other.LongestDaysOfMould);
    }
}
