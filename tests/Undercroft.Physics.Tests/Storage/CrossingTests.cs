using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>Source: own computation by the fine engine, read once a day.</summary>
public class CrossingTests(ITestOutputHelper output)
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(201, 10)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void First_crossings_are_those_of_the_fine_engine(int seed)
    {
        var drawn = DrawnCase.From(seed);
        var (model, start) = (drawn.Model, drawn.Start);
        const int Years = 8;
        int[] days = [Years * 365];
        var begin = model.Leaf.ActivityAt(new(start.Water.Kilograms / model.DryMass.Kilograms)).Fraction;
        var moisture = new Moisture(start.Water.Kilograms / model.DryMass.Kilograms).WetBasis;
        Limit[] limits =
        [
            new Limit.MoistureBelow(moisture - 0.01), new Limit.MoistureAbove(moisture + 0.01), new Limit.ActivityBelow(begin - 0.04), new Limit.ActivityAbove(begin + 0.04),
        ];
        var fast = EnsembleEngine.Run(DailyMeans.CourseOf(model, start, ClimateTable.Daily(drawn.Climate, (Years * 365) + 2), days, limits));
        var rows = FineEngine.Run(model, start, drawn.Climate, [.. Enumerable.Range(1, Years * 365).Select(day => (double)day)]).Rows;
        for (var i = 0; i < limits.Length; i++)
        {
            var first = rows.Where(row => Beyond(limits[i], row, drawn, model) > 0).Select(row => row.Day).DefaultIfEmpty(double.NaN).First();
            output.WriteLine($"{limits[i]} fine {first} fast {fast.FirstDay[i][0]}");
            var found = fast.FirstDay[i][0];
            if (double.IsNaN(first) && double.IsNaN(found))
                continue;

            // One day or 1 % of the time; else the course grazes the limit between the two days.
            var (from, to) = (Math.Min(NumberOr(first), NumberOr(found)), Math.Max(NumberOr(first), NumberOr(found)));
            if (to - from <= Math.Max(1.5, 0.01 * to))
                continue;
            Assert.All(
                rows.Where(row => row.Day >= from && row.Day <= to),
                row => Assert.InRange(Beyond(limits[i], row, drawn, model), -Graze(limits[i]), Graze(limits[i])));
        }

        static double NumberOr(double day) => double.IsNaN(day) ? Years * 365 : day;
        static double Graze(Limit limit) => limit is Limit.ActivityAbove or Limit.ActivityBelow ? 0.003 : 0.0005;
    }

    [Fact]
    public void Days_on_end_in_which_mould_could_grow_are_counted()
    {
        // Leaf that follows a year of 0.5 + 0.25 sin: above 0.7 for the share of the year in which the sine passes 0.8.
        SinusoidClimate climate = new(22, 0, 0, 0, 0.5, 0.25, 0);
        PackageModel model = new(
            new(0.01), new GabIsotherm(0.09, 5, 0.85, 0), new Headspace.Rigid(new(1e-4)), [new("open", new(1e-9, 0), default, default, default)],
            new(0, 293.15, 2, 1, UptakeBasis.PerMole), RoomAir.Ordinary);
        var start = PackageState.Sealed(model, model.Leaf.MoistureAt(new(0.5)), 295.15, new(101325));
        var result = EnsembleEngine.Run(DailyMeans.CourseOf(model, start, ClimateTable.Daily(climate, 800), [730]));
        var expected = 365 * (Math.PI - (2 * Math.Asin(0.8))) / Math.Tau;
        Assert.Equal(expected, result.LongestDaysOfMould[0], 1.5);
        Assert.Equal(1, result.MouldRisk);
    }

    private static double Beyond(Limit limit, StorageRow row, DrawnCase drawn, PackageModel model)
    {
        var activity = model.Leaf.ActivityAt(row.Moisture).Fraction
            * SorptionShift.FactorOf(model.Leaf.SorptionHeat, MeanKelvin(drawn.Climate, row.Day));
        return limit switch
        {
            Limit.MoistureBelow below => below.WetBasis - row.Moisture.WetBasis,
            Limit.MoistureAbove above => row.Moisture.WetBasis - above.WetBasis,
            Limit.ActivityBelow below => below.Activity - activity,
            Limit.ActivityAbove above => activity - above.Activity,
            _ => throw new InvalidOperationException(),
        };
    }

    /// <summary>The temperature without the day's swing.</summary>
    private static double MeanKelvin(SinusoidClimate climate, double day) => (climate with { DailyCelsius = 0 }).At(day).Kelvin;
}
