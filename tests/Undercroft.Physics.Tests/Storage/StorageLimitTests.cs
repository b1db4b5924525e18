using Undercroft.Physics.Air;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>Cases with an answer on paper.</summary>
public class StorageLimitTests
{
    private const double R = PhysicalConstants.GasConstant;
    private static readonly GabIsotherm Leaf = new(0.09, 5, 0.85, 0);

    /// <summary>Leaf all but dry, its vapour below a pascal: the production engine knows no activity of 0.</summary>
    private static readonly Mass Trace = new(0.05 * Leaf.MoistureAt(new(1e-4)).DryBasis);

    /// <summary>Source: closed form y = y∞ + (y₀ − y∞) e^(−G R T t/V).</summary>
    [Fact]
    public void Isothermal_exchange_of_a_gas_is_exponential()
    {
        SinusoidClimate still = new(23, 0, 0, 0, 0.5, 0, 0);
        PackageModel model = Closed(4e-4) with { Paths = [new("film", default, new(2e-15, 0), new(2e-15, 0), new(2e-15, 0))], Air = new(0.21, 0.0004, 0.78, Moist: false) };
        var rate = 2e-15 * R * 296.15 / 4e-4 * 86400;
        PackageState start = new(new(0.05 * 0.15), 0.002, 0.001, 0.01);
        double[] days = [50, 400, 3000];
        var fine = FineEngine.Run(model, start, still, days).Rows;
        var fast = FastEngine.Run(model, start, still, days);
        for (var i = 0; i < days.Length; i++)
        {
            var perMole = R * 296.15 / 4e-4;
            var end = 0.21 * 101325;
            var expected = end + (((0.002 * perMole) - end) * Math.Exp(-rate * days[i]));
            Assert.Equal(expected, fine[i].Oxygen.Pascals, 0.05);
            Assert.Equal(expected, fast[i].Oxygen.Pascals, 0.05);
        }
    }

    /// <summary>Source: [GasLawExample], a sealed rigid box of dry air, 273 K to 333 K; half a unit of the last printed digit.</summary>
    [Fact]
    public void A_sealed_rigid_box_warmed_from_0_to_60_degrees()
    {
        SinusoidClimate warm = new(333 - 273.15, 0, 0, 0, 0, 0, 0);
        var model = Closed(1e-3) with { Air = new(0.21, 0, 0.79, Moist: false) };
        var start = PackageState.Sealed(model, new(1e-9), 273, new(101_325));
        var row = FineEngine.Run(model, start, warm, [1]).Rows[0];
        Assert.Equal(1235.94, (row.Oxygen.Pascals + row.Nitrogen.Pascals) / 100, 0.005);
        var fast = DailyMeans.Fast(model, start with { Water = Trace }, ClimateTable.Daily(warm, 3), [1])[0];
        Assert.Equal(1235.94, (fast.Oxygen.Pascals + fast.Nitrogen.Pascals) / 100, 0.005);
    }

    /// <summary>Source: first-order exchange of 0.1 volume an hour, 1 − e^(−0.1 t); half a unit of the last printed digit, 0.005 %.</summary>
    [Theory]
    [InlineData(1, 9.52)]
    [InlineData(2, 18.13)]
    [InlineData(3, 25.92)]
    public void A_tenth_of_the_volume_exchanged_each_hour(int hours, double percent)
    {
        SinusoidClimate still = new(23, 0, 0, 0, 0.5, 0, 0);
        var conductance = 0.1 / 3600 * 1e-3 / (R * 296.15);
        var model = Closed(1e-3) with { Paths = [new("gap", default, new(conductance, 0), new(conductance, 0), new(conductance, 0))] };
        var row = FineEngine.Run(model, new(new(0.05 * 0.15), 0, 0, 0.04), still, [hours / 24.0]).Rows[0];
        var vapour = 0.5 * SaturationPressure.PascalOverWater(296.15);
        Assert.Equal(percent, 100 * row.Oxygen.Pascals / (0.2095 * (101325 - vapour)), 0.005);
    }

    /// <summary>Source: gas law; each turn of the day draws in the share ΔT/T_hot, so the old gas shrinks by T_cold/T_hot.</summary>
    [Fact]
    public void Breathing_replaces_the_share_by_which_the_gas_shrinks_each_cycle()
    {
        SinusoidClimate days = new(20, 0, 5, 0, 1e-9, 0, 0);
        var model = Closed(3e-4) with { Paths = [new("hole", default, default, default, default, 1e-9)], Air = new(0.21, 0, 0.79, Moist: false) };
        Assert.True(model.Breathes);
        var held = 101325 * 3e-4 / (R * 293.15);
        var rows = FineEngine.Run(model, new(new(1e-9), 0, 0, held), days, [0.25, 1.25, 10.25]).Rows;
        var ratio = 288.15 / 298.15;
        Assert.Equal(1 - ratio, 1 - (OldShare(rows[1]) / OldShare(rows[0])), 1e-4);
        Assert.Equal(Math.Pow(ratio, 10), OldShare(rows[2]) / OldShare(rows[0]), 1e-4);
        var fast = DailyMeans.Fast(model, new(Trace, 0, 0, held), ClimateTable.Daily(days, 32), [1, 11, 21]);
        Assert.Equal(Math.Pow(ratio, 10), OldShare(fast[1]) / OldShare(fast[0]), 1e-3);
        Assert.Equal(Math.Pow(ratio, 20), OldShare(fast[2]) / OldShare(fast[0]), 1e-3);

        static double OldShare(StorageRow row) => 1 - (row.Oxygen.Pascals / (0.21 * 101325));
    }

    /// <summary>Source: closed form p = P − (P − p₀) e^(−k t), k = G_v R T/V (1 − e/P): the vapour in the air that flows in goes to the leaf.</summary>
    [Fact]
    public void A_capillary_fills_a_vacuum_exponentially()
    {
        SinusoidClimate still = new(23, 0, 0, 0, 0.5, 0, 0);
        var viscous = 5e-4 / (R * 296.15 * 20 * 86400);
        var model = Closed(5e-4) with { Paths = [new("capillary", default, default, default, default, viscous)], Air = new(0.21, 0.0004, 0.7896, Moist: true) };
        var start = PackageState.Sealed(model, Leaf.MoistureAt(new(0.5)), 296.15, Pressure.FromKilopascals(30));
        int[] days = [2, 15, 50, 150];
        var fine = FineEngine.Run(model, start, still, [.. days.Select(day => day + 0.5)]).Rows;
        var fast = DailyMeans.Fast(model, start, ClimateTable.Daily(still, 152), days);
        for (var i = 0; i < days.Length; i++)
        {
            var rate = (1 - (0.5 * SaturationPressure.PascalOverWater(296.15) / 101_325)) / 20;
            var expected = 101_325 - (71_325 * Math.Exp(-(days[i] + 0.5) * rate));
            Assert.Equal(expected, fine[i].Total.Pascals, 0.5);
            Assert.Equal(expected, fast[i].Total.Pascals, 100.0);
        }
    }

    /// <summary>Source: closed form; a tight pouch fills by Σ p_i = Σ p_room − Σ (p_room − p₀) e^(−λ_i t) and is slack when that and the vapour reach P.</summary>
    [Fact]
    public void An_evacuated_pouch_goes_slack_when_nitrogen_has_come_in()
    {
        SinusoidClimate still = new(23, 0, 0, 0, 0.4, 0, 0);
        const double Pores = 2e-5;
        double Film(double days) => Pores / (R * 296.15 * days * 86400);
        PackageModel model = new(
            new(0.05), Leaf, new Headspace.Flexible(new(Pores), new(2e-4)),
            [new("film", default, new(Film(100), 0), new(Film(25), 0), new(Film(400), 0))],
            new(0, 293.15, 2, 1, UptakeBasis.PerMole), RoomAir.Ordinary);
        var start = PackageState.Sealed(model, Leaf.MoistureAt(new(0.65)), 296.15, Pressure.FromKilopascals(10));
        var saturation = SaturationPressure.PascalOverWater(296.15);
        var dry = 101325 - (0.4 * saturation);
        double Missing(double day)
        {
            var left = 0.0;
            foreach (var (fraction, moles, days) in new[] { (0.2095, start.OxygenMoles, 100.0), (0.00042, start.CarbonDioxideMoles, 25.0), (0.79008, start.NitrogenMoles, 400.0) })
                left += (fraction * dry) + (((moles * R * 296.15 / Pores) - (fraction * dry)) * Math.Exp(-day / days));
            return 101325 - left - (0.65 * saturation);
        }

        var (low, high) = (0.0, 10_000.0);
        for (var i = 0; i < 60; i++)
            (low, high) = Missing((low + high) / 2) > 0 ? ((low + high) / 2, high) : (low, (low + high) / 2);
        Assert.InRange(low, 1000, 3000); // between two and eight of nitrogen's time constants
        var fine = FineEngine.Run(model, start, still, [low - 5, low + 5]).Rows;
        Assert.Equal(101325 - Missing(low - 5), fine[0].Total.Pascals, 0.5);
        Assert.True(fine[0].Total.Pascals < 101324);
        Assert.Equal(101325, fine[1].Total.Pascals, 1e-6);
        var fast = DailyMeans.Fast(model, start, ClimateTable.Daily(still, 4000), [(int)low - 20, (int)low + 20]);
        Assert.Equal(101325 - Missing((int)low - 19.5), fast[0].Total.Pascals, 5.0);
        Assert.Equal(101325, fast[1].Total.Pascals, 1e-3);
    }

    private static PackageModel Closed(double volume) => new(
        new(0.05), Leaf, new Headspace.Rigid(new(volume)), [], new(0, 293.15, 2, 1, UptakeBasis.PerMole), RoomAir.Ordinary);
}
