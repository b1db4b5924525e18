using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>Rigid packages from quick to slow in weather that never repeats, each day its own, against the fine engine. Source: own computation.</summary>
public class PassingWeatherTests(ITestOutputHelper output)
{
    private const int Years = 6;

    [Theory]
    [InlineData(0.15, 12)]
    [InlineData(0.6, 60)]
    [InlineData(2, 15)]
    [InlineData(6, 25)]
    [InlineData(15, 400)]
    [InlineData(60, 30)]
    [InlineData(900, 5000)]
    public void Daily_means_stay_with_the_fine_engine(double oxygenDays, double leafDays)
    {
        Weather weather = new((365 * Years) + 3);
        var oxygen = 2e-4 / (PhysicalConstants.GasConstant * 296.15 * oxygenDays * 86400);
        var water = 0.05 * 0.3 / (leafDays * 86400 * 2300 * PhysicalConstants.MolarMassOfWater);
        PackageModel model = new(
            new(0.05), new OswinIsotherm(0.12, 0.6, 2500), new Headspace.Rigid(new(2e-4)), [new("film", new(water, 35_000), new(oxygen, 33_000), new(4 * oxygen, 30_000), new(0.3 * oxygen, 40_000))],
            new(1e-3 / 86400, 296.15, 2, 0.9, UptakeBasis.PerMole), RoomAir.Ordinary);
        var start = PackageState.Sealed(model, model.Leaf.MoistureAt(new(0.62)), weather.At(0.5).Kelvin, new(101325));
        int[] days = [.. Enumerable.Range(1, (Years * 4) - 1).Select(quarter => (int)(quarter * 91.25))];
        var distance = RowDistance.Between(DailyMeans.Fine(model, start, weather, days), DailyMeans.Fast(model, start, ClimateTable.Daily(weather, (365 * Years) + 2), days));
        output.WriteLine($"{oxygenDays} {leafDays}: {distance}");
        distance.AssertWithinTheModelsAccuracy();
    }

    /// <summary>A year with weather on top that goes over in about ten days.</summary>
    private sealed class Weather : IPlaceClimate
    {
        private readonly SinusoidClimate year = new(15, 8, 5, -1.8, 0.5, 0.12, 1);
        private readonly double[] warmer;
        private readonly double[] moister;

        public Weather(int days)
        {
            Random random = new(11);
            (warmer, moister) = (new double[days + 1], new double[days + 1]);
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
