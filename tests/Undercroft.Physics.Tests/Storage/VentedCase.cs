using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>
/// Packages that give way or let air flow, drawn over the whole range that the storage model speaks of: pouches and bags between tight and bulging, evacuated or not, tins that
/// breathe, jars under vacuum; films from an hour to decades, gaps from minutes to years, weather of its own or a year that repeats.
/// </summary>
public sealed record VentedCase(PackageModel Model, PackageState Start, IPlaceClimate Climate, int[] Days)
{
    public static VentedCase From(int seed, int years = 10)
    {
        var random = new Random(seed);
        double Between(double low, double high) => low + ((high - low) * random.NextDouble());
        double Spread(double low, double high) => Math.Exp(Between(Math.Log(low), Math.Log(high)));

        SinusoidClimate year = new(Between(8, 22), Between(0, 12), Between(0, 7), Between(-Math.PI, Math.PI), Between(0.4, 0.62), Between(0, 0.15), Between(-Math.PI, Math.PI), 365, random.Next(4) == 0 ? 84556 : 101325);
        IPlaceClimate climate = random.Next(2) == 0 ? year : new Weather(year, Between(0, 100), Between(0, 1));
        var heat = random.Next(4) == 0 ? 0 : Between(-1000, 5000);
        Isotherm leaf = random.Next(2) == 0
            ? new GabIsotherm(Between(0.05, 0.11), Between(3, 20), Between(0.8, 0.92), heat)
            : new OswinIsotherm(Between(0.09, 0.13), Between(0.4, 0.75), heat);
        var dry = Spread(0.02, 0.3);
        var pores = 0.6 * dry / 1450 * Between(0.7, 1.3);
        var flexible = random.Next(3) > 0;
        var most = pores * Spread(1.3, 30);
        Headspace headspace = flexible ? new Headspace.Flexible(new(pores), new(most)) : new Headspace.Rigid(new(most));
        var reference = flexible ? pores : most;
        var water = dry * 0.3 / (Spread(20, 70_000) * 86400 * 2300 * PhysicalConstants.MolarMassOfWater);
        var oxygen = reference / (PhysicalConstants.GasConstant * 293 * Spread(0.05, 5000) * 86400);
        var lets = !flexible || random.Next(2) == 0;
        var viscous = lets ? reference / (PhysicalConstants.GasConstant * 296.15 * Spread(0.005, 2000) * 86400) : 0;
        List<ExchangePath> paths = [];
        var count = random.Next(1, 3);
        for (var i = 0; i < count; i++)
        {
            paths.Add(new(
                "path",
                new(water / count * Spread(0.5, 2), Between(15_000, 50_000)),
                new(oxygen / count * Spread(0.5, 2), Between(8_000, 58_000)),
                new(oxygen / count * Spread(2, 8), Between(8_000, 58_000)),
                new(oxygen / count * Spread(0.2, 0.6), Between(8_000, 58_000)),
                i == 0 ? viscous : 0));
        }

        PackageModel model = new(
            new(dry), leaf, headspace, paths, new(Spread(1e-13, 1e-10) * dry * 1000 / 86400, 293.15, Between(1.5, 3), Between(0.7, 1), UptakeBasis.PerPascal), RoomAir.Ordinary);
        var evacuated = random.Next(5) < 2;
        var filled = flexible && !evacuated ? new Volume(Between(pores, most)) : (Volume?)null;
        var start = PackageState.Sealed(
            model, leaf.MoistureAt(new(Between(0.45, 0.72))), Between(283, 298), evacuated ? Pressure.FromKilopascals(Between(4, 60)) : new(year.Pascals), filled);
        return new(model, start, climate, [1, 7, 30, .. Enumerable.Range(1, 4 * years).Select(quarter => (int)(quarter * 91.25))]);
    }

    /// <summary>What it is, for a reader of a failure.</summary>
    public override string ToString()
    {
        var sort = Model.Headspace is Headspace.Flexible ? "gives way" : Model.Breathes ? "breathes" : "holds";
        return $"{sort}{(Model.Viscous > 0 ? ", lets air flow" : "")}{(Climate is Weather ? ", in weather" : "")}";
    }

    /// <summary>Days that are no year's: fronts of some days in warmth, damp and pressure on top of a year.</summary>
    private sealed record Weather(SinusoidClimate Year, double Phase, double Size) : IPlaceClimate
    {
        public int? PeriodDays => null;

        public RoomMoment At(double day)
        {
            var at = Year.At(day);
            double Front(double days, double turn) => Math.Sin((Math.Tau * day / days) + Phase + turn);
            return new(
                at.Kelvin + (Size * 2 * (Front(3.7, 0) + Front(9.3, 1) + Front(43, 2))),
                Math.Clamp(at.RelativeHumidity + (Size * 0.04 * (Front(2.9, 3) + Front(7.7, 4) + Front(31, 5))), 0.05, 0.95),
                at.Pascals + (Size * 600 * (Front(4.1, 6) + Front(11.3, 7))));
        }
    }
}
