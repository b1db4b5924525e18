using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;
using Undercroft.Physics.Storage.Kernel;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>The order of both production integrators, measured by halving their steps against the fine engine, in a year without days.</summary>
public class KernelOrderTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData("draw by draw")]
    [InlineData("in lanes")]
    public void Halving_the_step_quarters_the_error(string way)
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
        var errors = new[] { 20, 10, 5 }.Select(step => way == "in lanes" ? InLanes(model, start, seasons, End, step, fine) : Errors(model, start, seasons, End, step, fine)).ToArray();
        foreach (var (moisture, pressure) in errors)
            output.WriteLine($"{moisture} {pressure}");
        for (var i = 0; i + 1 < errors.Length; i++)
        {
            Assert.InRange(Math.Log2(errors[i].Moisture / errors[i + 1].Moisture), 1.8, 2.2);
        }

        // A linear gas under a smooth year: exact but for the curve of its target, millipascals at any of these steps.
        Assert.All(errors, error => Assert.InRange(error.Oxygen, 0, 0.05));
    }

    private static (double Moisture, double Oxygen) InLanes(PackageModel model, PackageState start, SinusoidClimate climate, int end, int step, StorageRow fine)
    {
        var course = DailyMeans.CourseOf(model, start, ClimateTable.Daily(climate, 365), [end]);
        var stay = course.Stays[0];
        DrawGroup group = new([0], course.DryMass, model.Leaf.SorptionHeat, new(course.Leaf), withGas: true);
        var (weights, _) = QuietRun<Single1>.Enter(group, stay);
        for (var slot = 0; slot < group.Slots; slot++)
        {
            group.Activity[slot] = model.Leaf.ActivityAt(new(start.Water.Kilograms / model.DryMass.Kilograms)).Fraction;
            (group.Moles[0][slot], group.Moles[1][slot], group.Moles[2][slot]) = ((float)start.OxygenMoles, (float)start.CarbonDioxideMoles, (float)start.NitrogenMoles);
        }

        LeafDispatch<Single1>.Begin(group);
        StepTable table = new(new(stay.Place.Basis, [.. Enumerable.Range(0, (end / step) + 1).Select(i => i * step)], null), QuietRun<Single1>.Middle(weights), null, Felt.ByBoth);
        for (var i = 0; i < table.Count; i++)
        {
            LeafDispatch<Single1>.Advance(group, weights, table.Sums(i), table.TrendsOf(i)[StepTable.WaterChange], null);
            GasSteps<Single1>.Advance(group, weights, table, i);
        }

        var oxygen = group.Moles[0][0] * group.PerVolume[0] * climate.At(end).Kelvin;
        return (Math.Abs(model.Leaf.MoistureAt(new(group.Activity[0])).DryBasis - fine.Moisture.DryBasis), Math.Abs(oxygen - fine.Oxygen.Pascals));
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
