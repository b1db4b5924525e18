using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Bench;

/// <summary>What is drawn, and in what weather.</summary>
internal enum Ensemble
{
    /// <summary>GAB leaf, one path with activation energies of its own; four conductances and the uptake drawn; a year that repeats.</summary>
    E1,

    /// <summary>Oswin leaf with glycerol, three paths; everything drawn: isotherm, sorption heat, conductances, activation energies, uptake, sizes, start, offsets of the place.</summary>
    E2,

    /// <summary>As E2, in weather that never repeats.</summary>
    E3,
}

/// <summary>Synthetic packages from a bag of ten days to a jar of two hundred years, their draws made from a seed. Draw 0 is the middle specimen.</summary>
internal sealed record Case(Course Course, PackageModel Middle, Isotherm Leaf, double StartActivity, IPlaceClimate Climate)
{
    private const double R = PhysicalConstants.GasConstant;

    private static readonly SinusoidClimate[] Years =
    [
        new(12, 4, 1, -1.8, 0.6, 0.08, 1), new(21, 3, 2, -1.8, 0.45, 0.1, 1), new(15, 8, 5, -1.8, 0.5, 0.12, 1), new(20, 8, 4, -2.2, 0.5, 0.15, 0.2),
    ];

    /// <summary>The four places, their tables not yet summed up.</summary>
    public static (IPlaceClimate Climate, ClimateTable Table)[] Places(Ensemble kind, int years)
    {
        IPlaceClimate[] climates = kind == Ensemble.E3 ? [.. Years.Select((year, n) => new Weather(year, (365 * years) + 3, n))] : [.. Years];
        return [.. climates.Select(climate => (climate, ClimateTable.Daily(climate, (365 * years) + 2)))];
    }

    /// <summary>Output days: every quarter.</summary>
    public static int[] Quarters(int years) => [.. Enumerable.Range(1, years * 4).Select(quarter => (int)(quarter * 91.25))];

    /// <summary>One package.</summary>
    public static Case Of(Ensemble kind, int number, int draws, int years, (IPlaceClimate Climate, ClimateTable Table) place)
    {
        Random random = new(number + 1_000_000);
        double Between(double low, double high) => low + ((high - low) * random.NextDouble());
        double Spread(double low, double high) => low * Math.Pow(high / low, random.NextDouble());
        var (dry, volume) = (Spread(0.02, 0.2), Spread(2e-5, 5e-4));
        var oxygen = volume / (R * 296.15 * Spread(0.1, 10_000) * 86400);
        var water = dry * 0.3 / (Spread(10, 70_000) * 86400 * 2300 * PhysicalConstants.MolarMassOfWater);
        var gab = new GabIsotherm(Spread(0.06, 0.11), Spread(3, 20), 0.86, 0);
        var oswin = new OswinIsotherm(Between(0.1, 0.13), Between(0.45, 0.65), 2500);
        Random drawn = new(number);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - drawn.NextDouble())) * Math.Cos(Math.Tau * drawn.NextDouble());
        PerDraw Each(Func<double, double> of) => Enumerable.Range(0, draws).Select(draw => of(draw == 0 ? 0 : Normal())).ToArray();
        PerDraw Factor(double sd) => Each(z => Math.Exp(sd * z));
        var everything = kind != Ensemble.E1;
        var paths = Enumerable.Range(0, everything ? 3 : 1).Select(path =>
        {
            var share = everything ? new[] { 0.6, 0.3, 0.1 }[path] : 1;
            ExchangePath median = new(
                $"path {path}", new(share * water, Between(20_000, 45_000)), new(share * oxygen, Between(20_000, 50_000)), new(4 * share * oxygen, Between(20_000, 50_000)),
                new(0.3 * share * oxygen, Between(20_000, 50_000)));
            PerDraw Energy(Conductance of) => Each(z => of.ActivationEnergy + (5000 * Math.Clamp(z, -2, 2)));
            return new PathDraws(median, Factor(0.5), Factor(0.5), Factor(0.5), Factor(0.5), 1, double.NegativeInfinity)
            {
                Energies = everything ? new(Energy(median.Water), Energy(median.Oxygen), Energy(median.CarbonDioxide), Energy(median.Nitrogen)) : null,
            };
        }).ToArray();
        Isotherm middle = everything ? HumectantIsotherm.WithGlycerol(oswin, 0.04) : gab;
        Isotherm[] leaves = [middle];
        if (everything)
        {
            leaves = [.. Enumerable.Range(0, draws).Select(draw => draw == 0
                ? middle
                : HumectantIsotherm.WithGlycerol(oswin with { A = oswin.A * Math.Exp(0.1 * Normal()), SorptionHeat = 2500 + (700 * Math.Clamp(Normal(), -2, 2)) }, 0.04))];
        }

        Stay stay = new(
            0, years * 365, place.Table, new HeadspaceDraws.Rigid(everything ? Each(z => volume * Math.Exp(0.1 * z)) : volume), paths,
            new(Each(z => 1e-3 / 86400 * Math.Exp(0.5 * z)), 296.15, everything ? Each(z => 2 * Math.Exp(0.15 * z)) : 2, 0.9, UptakeBasis.PerMole, PerKilogram: false),
            RoomAir.Ordinary, [CourseEvent.Sealed.InTheRoom], everything ? Each(z => Math.Clamp(z, -2, 2)) : 0, everything ? Each(z => 0.03 * Math.Clamp(z, -2, 2)) : 0);
        var start = middle.MoistureAt(new(0.62)).DryBasis;
        Course course = new(
            draws, everything ? Each(z => dry * Math.Exp(0.05 * z)) : dry, leaves, everything ? Each(z => start * Math.Exp(0.05 * z)) : start, [stay], Quarters(years),
            [new Limit.MoistureBelow(0.12)]) { CountsMouldDays = false };
        PackageModel model = new(
            new(dry), middle, new Headspace.Rigid(new(volume)), [.. paths.Select(path => path.Median)], new(1e-3 / 86400, 296.15, 2, 0.9, UptakeBasis.PerMole), RoomAir.Ordinary);
        return new(course, model, middle, 0.62, place.Climate);
    }

    /// <summary>A year with weather on top: each day its own, no year like another.</summary>
    private sealed class Weather : IPlaceClimate
    {
        private readonly SinusoidClimate year;
        private readonly double[] warmer;
        private readonly double[] moister;

        public Weather(SinusoidClimate year, int days, int seed)
        {
            Random random = new(seed + 77);
            (this.year, warmer, moister) = (year, new double[days + 1], new double[days + 1]);
            double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(Math.Tau * random.NextDouble());
            for (var day = 1; day <= days; day++)
            {
                warmer[day] = Math.Clamp((0.9 * warmer[day - 1]) + (0.5 * Normal()), -4, 4);
                moister[day] = Math.Clamp((0.9 * moister[day - 1]) + (0.012 * Normal()), -0.1, 0.1);
            }
        }

        public int? PeriodDays => null;

        public RoomMoment At(double day)
        {
            var room = year.At(day);
            var whole = Math.Clamp((int)Math.Floor(day), 0, warmer.Length - 2);
            double Of(double[] values) => values[whole] + ((day - whole) * (values[whole + 1] - values[whole]));
            return room with { Kelvin = room.Kelvin + Of(warmer), RelativeHumidity = Math.Clamp(room.RelativeHumidity + Of(moister), 0.05, 0.95) };
        }
    }
}
