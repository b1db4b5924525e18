using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>
/// Rigid packages drawn over the whole range that the storage model speaks of: from a bag of ten days to a jar of two hundred years, gas time
/// constants from an hour to decades, one to three paths, both isotherms, sorption heat of either sign, daily swings up to 9 °C.
/// </summary>
public sealed record DrawnCase(PackageModel Model, PackageState Start, SinusoidClimate Climate, double[] Days)
{
    public static DrawnCase From(int seed)
    {
        var random = new Random(seed);
        double Between(double low, double high) => low + ((high - low) * random.NextDouble());
        double Spread(double low, double high) => Math.Exp(Between(Math.Log(low), Math.Log(high)));

        SinusoidClimate climate = new(
            Between(5, 24), Between(0, 14), Between(0, 9), Between(-Math.PI, Math.PI), Between(0.35, 0.62), Between(0, 0.2), Between(-Math.PI, Math.PI),
            random.Next(4) == 0 ? 365.25 : 365, random.Next(3) == 0 ? 84556 : 101325);
        var heat = random.Next(4) == 0 ? 0 : Between(-1500, 6000);
        Isotherm leaf = random.Next(2) == 0
            ? new GabIsotherm(Between(0.05, 0.11), Between(3, 20), Between(0.8, 0.92), heat)
            : new OswinIsotherm(Between(0.09, 0.13), Between(0.4, 0.75), heat);
        var dry = Spread(0.02, 0.3);
        var volume = Spread(1e-5, 1e-3);
        var waterDays = Spread(10, 70_000);
        var oxygenDays = Spread(0.05, 10_000);
        var count = random.Next(1, 4);
        var water = dry * 0.3 / (waterDays * 86400 * 2300 * PhysicalConstants.MolarMassOfWater);
        var oxygen = volume / (PhysicalConstants.GasConstant * 293 * oxygenDays * 86400);
        List<ExchangePath> paths = [];
        for (var i = 0; i < count; i++)
        {
            paths.Add(new(
                "path",
                new(water / count * Spread(0.5, 2), Between(15_000, 50_000)),
                new(oxygen / count * Spread(0.5, 2), Between(8_000, 58_000)),
                new(oxygen / count * Spread(2, 8), Between(8_000, 58_000)),
                new(oxygen / count * Spread(0.2, 0.6), Between(8_000, 58_000))));
        }

        PackageModel model = new(
            new(dry), leaf, new Headspace.Rigid(new(volume)), paths,
            new(Spread(1e-5, 0.1) / 86400, 296.15, Between(1.5, 3), Between(0.7, 1), UptakeBasis.PerMole), new(0.2095, 0.00042, 0.7901, Moist: false));
        var start = PackageState.Sealed(model, leaf.MoistureAt(new(Between(0.45, 0.75))), Between(278, 298), Pressure.FromAtmospheres(1));
        var every = random.Next(4) switch { 0 => 91.25, 1 => 30.4375, 2 => 182.625, _ => 365.0 / 7 };
        var days = Enumerable.Range(1, (int)(10950 / every)).Select(row => row * every).ToArray();
        return new(model, start, climate, days);
    }
}
