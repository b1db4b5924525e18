using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>The order of the production kernel, measured by halving its step against the fine engine, in a year without days.</summary>
public class KernelOrderTests(ITestOutputHelper output)
{
    [Fact]
    public void Halving_the_step_of_the_kernel_quarters_its_error()
    {
        SinusoidClimate seasons = new(15, 8, 0, -1.8, 0.5, 0.15, 1);
        var oxygen = 3e-4 / (PhysicalConstants.GasConstant * 296.15 * 60 * 86400);
        PackageModel model = new(
            new(0.03), new GabIsotherm(0.08, 6, 0.87, 2500), new Headspace.Rigid(new(3e-4)),
            [new("film", new(oxygen * 600, 35_000), new(oxygen, 33_000), new(4 * oxygen, 30_000), new(0.3 * oxygen, 40_000))],
            new(2e-3 / 86400, 296.15, 2, 0.9, UptakeBasis.PerMole), RoomAir.Ordinary);
        var start = PackageState.Sealed(model, model.Leaf.MoistureAt(new(0.7)), 288.15, new(101325));
        const int End = 320;
        var fine = FineEngine.Run(model, start, seasons, [End], tolerance: 1e-9).Rows[0];
        var errors = new[] { 20, 10, 5 }.Select(step => Errors(model, start, seasons, End, step, fine)).ToArray();
        foreach (var (moisture, pressure) in errors)
            output.WriteLine($"{moisture} {pressure}");
        for (var i = 0; i + 1 < errors.Length; i++)
        {
            Assert.InRange(Math.Log2(errors[i].Moisture / errors[i + 1].Moisture), 1.8, 2.2);
        }

        // A linear gas under a smooth year: exact but for the curve of its target, millipascals at any of these steps.
        Assert.All(errors, error => Assert.InRange(error.Oxygen, 0, 0.05));
    }

    private static (double Moisture, double Oxygen) Errors(PackageModel model, PackageState start, SinusoidClimate climate, int end, int step, StorageRow fine)
    {
        var course = DailyMeans.CourseOf(model, start, ClimateTable.Daily(climate, 365), [end]);
        int[] cells = [.. Enumerable.Range(0, (end / step) + 1).Select(i => i * step)];
        StayPlan plan = new(course.Stays[0], model.Leaf.SorptionHeat, cells, [new(0, cells.Length - 1, -1)]);
        CourseRow told = default;
        new CourseRun<Lane1>(course, [plan], model.Leaf.SorptionHeat, null, 0, new CourseRow[1], (_, _, row) => told = row).Run();
        return (Math.Abs(told.MoistureDryBasis - fine.Moisture.DryBasis), Math.Abs(told.Oxygen - fine.Oxygen.Pascals));
    }
}
