using Undercroft.Physics.Air;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>What holds for every package whatever its numbers: one test an identity, run over every sort of package.</summary>
public class StorageIdentityTests
{
    private static readonly SinusoidClimate Seasons = new(16, 7, 4, -1.8, 0.5, 0.12, 1.0);
    private static readonly SinusoidClimate Still = new(20, 0, 0, 0, 0.6, 0, 0);

    public static TheoryData<string> Sorts => ["rigid", "tight", "free", "bulging", "breathing", "vacuum"];

    [Theory]
    [MemberData(nameof(Sorts))]
    public void Water_lost_by_the_leaf_is_what_went_through_the_paths(string sort)
    {
        var (model, start) = Package(sort, uptake: 1e-3);
        double Miss(double tolerance)
        {
            var course = FineEngine.Run(model, start, Seasons, [400], tolerance: tolerance, followPaths: true);
            var through = course.WaterThroughPaths!.Sum(each => each.Kilograms);
            Assert.True(Math.Abs(course.WaterLost.Kilograms) > 1e-4);
            return Math.Abs(through - course.WaterLost.Kilograms) / Math.Abs(course.WaterLost.Kilograms);
        }

        // The two are integrated apart: the difference is the integrators', and shrinks with the tolerance.
        var (loose, close) = (Miss(1e-5), Miss(1e-8));
        Assert.True(close < 2e-7, $"{close}");
        Assert.True(close < loose / 5, $"{loose} {close}");
    }

    [Theory]
    [InlineData("rigid")]
    [InlineData("tight")]
    [InlineData("free")]
    [InlineData("bulging")]
    [InlineData("vacuum")]
    public void A_closed_package_in_steady_warmth_keeps_its_water_and_pressure(string sort)
    {
        var (model, start) = Package(sort, uptake: 0);
        model = model with { Paths = [] };
        var rows = FineEngine.Run(model, start, Still, [0, 3650]).Rows;
        Assert.Equal(rows[0].Moisture.DryBasis, rows[1].Moisture.DryBasis, 1e-12);
        Assert.Equal(rows[0].Total.Pascals, rows[1].Total.Pascals, 1e-6);
        var means = DailyMeans.Fast(model, start, ClimateTable.Daily(Still, 3652), [1, 3650]);
        Assert.Equal(means[0].Moisture.DryBasis, means[1].Moisture.DryBasis, 1e-12);
        Assert.Equal(means[0].Total.Pascals, means[1].Total.Pascals, 1e-3);

        // Rigid packages are told in single precision: half a unit of its last place is 6e-8 of a number.
        var told = sort is "rigid" or "vacuum" ? 2 * 6e-8 : 0;
        Assert.Equal(rows[0].Moisture.DryBasis, means[1].Moisture.DryBasis, 1e-12 + (told * rows[0].Moisture.DryBasis));
        Assert.Equal(rows[0].Total.Pascals, means[1].Total.Pascals, 1e-3 + (told * rows[0].Total.Pascals));
    }

    [Theory]
    [MemberData(nameof(Sorts))]
    public void Equal_vapour_pressure_gives_no_flow_of_water(string sort)
    {
        var (model, start) = Package(sort, uptake: 0);
        model = model with { Leaf = new OswinIsotherm(0.12, 0.6, 0), Paths = [.. model.Paths.Select(path => path with { Viscous = 0 })] };
        start = start with { Water = new(0.05 * model.Leaf.MoistureAt(new(0.6)).DryBasis) };
        var rows = FineEngine.Run(model, start, Still, [1000]).Rows;
        Assert.Equal(start.Water.Kilograms / 0.05, rows[0].Moisture.DryBasis, 1e-12);
    }

    [Fact]
    public void Oxygen_taken_up_comes_back_as_carbon_dioxide_and_carbon_is_kept()
    {
        var (model, start) = Package("rigid", uptake: 5e-3);
        model = model with { Paths = [] };
        var row = FineEngine.Run(model, start, Still, [300]).Rows[0];
        var perPascal = 3e-4 / (PhysicalConstants.GasConstant * 293.15);
        var gone = start.OxygenMoles - (row.Oxygen.Pascals * perPascal);
        var come = (row.CarbonDioxide.Pascals * perPascal) - start.CarbonDioxideMoles;
        Assert.Equal(start.OxygenMoles * Math.Exp(-5e-3 * Math.Pow(2, -0.3) * 300), row.Oxygen.Pascals * perPascal, start.OxygenMoles * 1e-6);
        Assert.Equal(0.9 * gone, come, gone * 1e-6);
    }

    [Fact]
    public void A_huge_leak_brings_the_air_of_the_room()
    {
        var (model, start) = Package("rigid", uptake: 1e-3);
        model = model with { Paths = [model.Paths[0].Times(1e4)] };
        var row = FineEngine.Run(model, start, Still, [200]).Rows[0];
        var vapour = 0.6 * SaturationPressure.PascalOverWater(293.15);
        Assert.Equal(0.2095 * (101325 - vapour), row.Oxygen.Pascals, 5.0);
        Assert.Equal(0.6, row.Activity.Fraction, 1e-4);
        Assert.Equal(101325, row.Total.Pascals, 30.0); // the fractions of dry air add up to 1.00002
    }

    [Fact]
    public void More_conductance_never_keeps_more_water_in_drying_air()
    {
        var (model, start) = Package("rigid", uptake: 0);
        var place = ClimateTable.Daily(new SinusoidClimate(20, 3, 2, 0, 0.35, 0.05, 0), 2000);
        var before = double.PositiveInfinity;
        foreach (var factor in new[] { 0, 0.1, 0.5, 1, 2, 10, 100 })
        {
            var rows = DailyMeans.Fast(model with { Paths = [model.Paths[0].Times(factor)] }, start, place, [1500]);
            Assert.True(rows[0].Moisture.DryBasis <= before);
            before = rows[0].Moisture.DryBasis;
        }
    }

    private static (PackageModel Model, PackageState Start) Package(string sort, double uptake)
    {
        const double Cubic = 3e-4;
        Headspace headspace = sort is "rigid" or "breathing" or "vacuum"
            ? new Headspace.Rigid(new(Cubic))
            : new Headspace.Flexible(new(1e-4), new(sort == "bulging" ? 1.2e-4 : 6e-4));
        var oxygen = Cubic / (PhysicalConstants.GasConstant * 296.15 * 300 * 86400);
        var viscous = Cubic / (PhysicalConstants.GasConstant * 296.15 * 86400) / (sort == "breathing" ? 0.2 : 40);
        ExchangePath seal = new("seal", new(oxygen * 150, 35_000), new(oxygen, 33_000), new(4 * oxygen, 30_000), new(0.3 * oxygen, 40_000));
        ExchangePath gap = new(
            "gap", new(oxygen * 60, 0), new(oxygen / 2, 0), new(oxygen / 2, 0), new(oxygen / 2, 0), sort is "breathing" or "vacuum" ? viscous : 0);
        PackageModel model = new(
            new(0.05), new OswinIsotherm(0.12, 0.6, 2500), headspace, [seal, gap], new(uptake / 86400, 296.15, 2, 0.9, UptakeBasis.PerMole), RoomAir.Ordinary);
        var pressure = sort switch { "tight" or "vacuum" => 40_000, "bulging" => 130_000, _ => 101_325.0 };
        return (model, PackageState.Sealed(
            model, model.Leaf.MoistureAt(new(0.66)), 293.15, new(pressure), headspace is Headspace.Flexible ? new(sort == "free" ? 3e-4 : 1e-4) : null));
    }
}
