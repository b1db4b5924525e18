using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Catalogue;

/// <summary>
/// Holding times of practice (common practice, no source) against sound specimens of the catalogue. Fitted rows only show that the fit was done;
/// check rows were used for nothing. Read as: usual contents of mixed leaf from 18 to 13 % at 20 °C and 45 %.
/// </summary>
public class PracticeRowTests
{
    public static TheoryData<string> FittedRows => Codes(PracticeUse.Fitted);

    public static TheoryData<string> FittedFailureRows => Codes(PracticeUse.FittedFailure);

    [Fact]
    public void Rows_say_which_are_fits_and_which_are_checks()
    {
        Assert.Equal(["bag-zip", "pouch-leather", "tin-opened"], FittedRows.Select(row => row.Data).Order(StringComparer.Ordinal));
        Assert.Equal(["clamp-500-rubber", "tin-rectangular-50", "tin-slip-wrapped"], FittedFailureRows.Select(row => row.Data).Order(StringComparer.Ordinal));
        Assert.Equal(7, PracticeRows.All.Count(row => row.Use == PracticeUse.Check));
    }

    // Fit check, no evidence: the fitted constant brings the geometric middle of its own row within 1 %.
    [Theory]
    [MemberData(nameof(FittedRows))]
    public void Fitted_closures_give_their_own_row(string code)
    {
        var row = Row(code);
        Assert.Equal(Math.Sqrt(row.LowDays * row.HighDays!.Value), Days(code)!.Value, 0.01 * Days(code)!.Value);
        Assert.Contains(Kind(code).Paths, path => path.Evidence.Fitted);
    }

    // Fit check, no evidence: half of them have let go within the row.
    [Theory]
    [MemberData(nameof(FittedFailureRows))]
    public void Fitted_failure_rates_give_their_own_row(string code)
    {
        var row = Row(code);
        var failure = Kind(code).Failure;
        var halfGone = Math.Log((1 - failure.DefectiveAtSealing) / 0.5) / failure.HazardPerYear * 365.25;
        Assert.InRange(halfGone, row.LowDays, row.HighDays!.Value);
        Assert.True(failure.Evidence.Fitted);
    }

    [Fact]
    public void Nothing_else_claims_or_hides_a_fit()
    {
        var fitted = ContainerKinds.All.Where(kind => kind.Failure.Evidence.Fitted || kind.Paths.Any(path => path.Evidence.Fitted)).Select(kind => kind.Code);
        Assert.Equal(["bag-bulk", "bag-sandwich", "bag-zip", "clamp-1000-rubber", "clamp-500-rubber", "pouch-leather", "tin-opened", "tin-rectangular-50", "tin-slip-wrapped"],
            fitted.Order(StringComparer.Ordinal));
    }

    // Check rows that hold within a factor of two, which is what rows without leaf, mass, room or limit allow.
    [Theory]
    [InlineData("bag-sandwich")]
    [InlineData("bag-bulk")]
    [InlineData("pouch-metallised")]
    [InlineData("jar-473")]
    public void Check_rows_that_hold(string code)
    {
        var row = Row(code);
        Assert.Equal(PracticeUse.Check, row.Use);
        Assert.InRange(Days(code)!.Value, row.LowDays / 2, (row.HighDays ?? double.PositiveInfinity) * 2);
    }

    // Known deviation: the vacuum pouch comes out at ten months, practice says two years (edges crisp at two to three). The row does not say how much leaf, in which room and
    // down to what; the same pouch takes over two years to 12.5 % in a room of 55 %.
    [Fact]
    public void Known_deviation_vacuum_pouch_dries_sooner_than_practice_says()
    {
        var days = Days("pouch-vacuum")!.Value;
        Assert.True(days < Row("pouch-vacuum").LowDays / 2);
        Assert.InRange(days, 200, 400);
        Assert.True(Days("pouch-vacuum", roomPercent: 55, toPercent: 12.5)! > Row("pouch-vacuum").LowDays);
    }

    // Known deviation: sound foil and sound double seams hold for centuries by their walls alone. The "10 to 30 years" and "10 to 20 years" of practice are about specimens that
    // fail, and the failure mixture carries that: in twenty years a third of foil pouches and a tenth of such tins.
    [Theory]
    [InlineData("pouch-foil", 0.25, 0.45)]
    [InlineData("tin-pull-50", 0.05, 0.15)]
    public void Known_deviation_sound_foil_and_double_seams_outlast_practice(string code, double low, double high)
    {
        Assert.True(Days(code)! > Row(code).HighDays!.Value * 2);
        var failure = Kind(code).Failure;
        Assert.InRange(1 - ((1 - failure.DefectiveAtSealing) * Math.Exp(-failure.HazardPerYear * 20)), low, high);
    }

    // Derived beside the practice row: the zip passes about five times what the film of its bag passes.
    [Fact]
    public void The_zip_passes_some_five_times_its_film()
    {
        var at = Temperature.FromCelsius(20);
        var bag = Kind("bag-zip");
        var zip = ArrheniusFactor.At(at, bag.Paths.Single(path => path.Median.Name == "zip").Median.Water);
        var film = ArrheniusFactor.At(at, bag.Paths.Single(path => path.Median.Name == "film").Median.Water);
        Assert.InRange(zip / film, 4, 6);
    }

    internal static double? Days(string code, double roomPercent = PracticeRows.RoomPercent, double toPercent = PracticeRows.ToPercent)
    {
        var kind = Kind(code);
        var grams = kind.UsualContents?.Grams ?? Cuts.Find("ribbon")!.TypicalIn(kind.Capacity).Grams;
        var at = Temperature.FromCelsius(PracticeRows.Celsius);
        return HoldingTime.Days(
            LeafKinds.Find("mixture")!.Isotherm,
            Mass.FromGrams(grams * (1 - (PracticeRows.FromPercent / 100))),
            Moisture.FromWetBasisPercent(PracticeRows.FromPercent),
            Moisture.FromWetBasisPercent(toPercent),
            HoldingTime.WaterConductance(kind.Paths, at),
            at,
            RelativeHumidity.FromPercent(roomPercent));
    }

    private static ContainerKind Kind(string code) => ContainerKinds.Find(code)!;

    private static PracticeRow Row(string code) => PracticeRows.All.Single(row => row.KindCode == code);

    private static TheoryData<string> Codes(PracticeUse use) => new(PracticeRows.All.Where(row => row.Use == use).Select(row => row.KindCode));
}
