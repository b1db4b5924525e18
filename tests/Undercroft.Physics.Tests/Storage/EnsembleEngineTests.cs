using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>Source: own computation by the fine engine. Means of the day, steps up to ten days.</summary>
public class EnsembleEngineTests(ITestOutputHelper output)
{
    private static readonly int[] Quarters = [.. Enumerable.Range(1, 60).Select(quarter => (int)(quarter * 91.25))];

    private static readonly SinusoidClimate Attic = new(15, 8, 5, -1.8, 0.5, 0.12, 1.0);

    public static TheoryData<int> Seeds => [.. Enumerable.Range(101, 12)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Daily_means_stay_with_the_fine_engine(int seed)
    {
        var drawn = DrawnCase.From(seed);
        Compare($"{seed}", drawn.Model, drawn.Start, drawn.Climate, Quarters);
    }

    [Theory]
    [InlineData(0.4, 400)]
    [InlineData(0.02, 400)]
    [InlineData(0.01, 1)]
    [InlineData(0.01, 0.3)]
    [InlineData(0.01, 0.1)]
    [InlineData(0.2, 0.1)]
    [InlineData(0.01, 0.03)]
    public void A_breathing_tin_stays_with_the_fine_engine(double pressureDays, double filmDays)
    {
        var model = Jar(3e-4, Viscous(3e-4, pressureDays));
        model = model with { Paths = [Film(3e-4, filmDays) with { Viscous = model.Viscous, Water = model.Paths[0].Water }] };
        Assert.True(model.Breathes);
        Compare($"breathing {pressureDays} {filmDays}", model, Start(model, 0.62), Attic, Quarters);
    }

    [Theory]
    [InlineData(1.5)]
    [InlineData(5)]
    [InlineData(60)]
    [InlineData(2000)]
    public void A_jar_under_vacuum_fills_as_the_fine_engine_says(double pressureDays)
    {
        var model = Jar(3e-4, Viscous(3e-4, pressureDays));
        Assert.False(model.Breathes);
        var start = PackageState.Sealed(model, model.Leaf.MoistureAt(new(0.6)), 288.15, Pressure.FromKilopascals(30));
        Compare($"vacuum {pressureDays}", model, start, Attic, [5, 20, 60, .. Quarters]);
    }

    [Theory]
    [InlineData(0.2)]
    [InlineData(2.0)]
    [InlineData(60.0)]
    public void A_pouch_between_slack_and_taut_stays_with_the_fine_engine(double days)
    {
        var film = Film(5e-5, days);
        PackageModel model = new(
            new(0.05), new OswinIsotherm(0.12, 0.6, 2500), new Headspace.Flexible(new(1e-5), new(1.5e-4)), [film],
            new(1e-12 * 50 / 86400, 293.15, 2, 0.9, UptakeBasis.PerPascal), RoomAir.Ordinary);
        var start = PackageState.Sealed(model, model.Leaf.MoistureAt(new(0.65)), 288.15, new(101325), new(5e-5));
        Compare($"pouch {days}", model, start, Attic, Quarters);
    }

    [Fact]
    public void An_evacuated_pouch_goes_slack_as_the_fine_engine_says()
    {
        PackageModel model = new(
            new(0.05), new OswinIsotherm(0.12, 0.6, 2500), new Headspace.Flexible(new(1.5e-5), new(1.5e-4)), [Film(1.5e-5, 300)],
            new(0, 293.15, 2, 0.9, UptakeBasis.PerMole), RoomAir.Ordinary);
        var start = PackageState.Sealed(model, model.Leaf.MoistureAt(new(0.62)), 288.15, Pressure.FromKilopascals(8));
        Compare("evacuated pouch", model, start, Attic, Quarters);
    }

    private static PackageModel Jar(double volume, double viscous) => new(
        new(0.05), new OswinIsotherm(0.12, 0.6, 2500), new Headspace.Rigid(new(volume)), [Film(volume, 400) with { Viscous = viscous }],
        new(5e-12 * 50 / 86400, 293.15, 2, 0.9, UptakeBasis.PerPascal), RoomAir.Ordinary);

    private static PackageState Start(PackageModel model, double activity) =>
        PackageState.Sealed(model, model.Leaf.MoistureAt(new(activity)), 288.15, new(101325));

    /// <summary>A film whose oxygen has this time constant in days, with usual ratios to the other species.</summary>
    private static ExchangePath Film(double volume, double days)
    {
        var oxygen = volume / (PhysicalConstants.GasConstant * 296.15 * days * 86400);
        return new("film", new(oxygen * 200, 35_000), new(oxygen, 33_000), new(4 * oxygen, 30_000), new(0.3 * oxygen, 40_000));
    }

    private static double Viscous(double volume, double days) => volume / (PhysicalConstants.GasConstant * 296.15 * days * 86400);

    private void Compare(string name, PackageModel model, PackageState start, IPlaceClimate climate, int[] days)
    {
        var (ends, distance) = Distance(model, start, climate, days);
        output.WriteLine($"{name} {distance} {ends}");
        distance.AssertWithinTheModelsAccuracy();
    }

    private static (string Ends, RowDistance Distance) Distance(PackageModel model, PackageState start, IPlaceClimate climate, int[] days)
    {
        var fast = DailyMeans.Fast(model, start, ClimateTable.Daily(climate, days[^1] + 2), days);
        var fine = DailyMeans.Fine(model, start, climate, days);
        return ($"fine end {fine[^1]} fast end {fast[^1]}", RowDistance.Between(fine, fast));
    }
}
