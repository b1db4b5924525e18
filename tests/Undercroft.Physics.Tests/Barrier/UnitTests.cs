using CsCheck;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Barrier;

public class UnitTests
{
    // Exact constants: 22 413.97 cm³/mol, 86 400 s, 101 325 Pa.
    [Fact]
    public void One_cubic_centimetre_a_day_is_what_the_definitions_give()
    {
        Assert.Equal(5.0963e-15, Permeance.FromCm3PerM2DayAtm(1).MolPerM2SPa, 5e-20);
        Assert.Equal(5.1638e-15, Permeance.FromCm3PerM2DayBar(1).MolPerM2SPa, 5e-20);
    }

    // [BarrerUnits] prints 3.35e-16 mol·m/(m²·s·Pa); the other three are exact conversions of the definition.
    [Fact]
    public void Matches_printed_Barrer()
    {
        Assert.Equal(3.35e-16, Permeability.FromBarrer(1).MolMPerM2SPa, 0.005e-16);
        Assert.Equal(65.66, Permeability.FromBarrer(1).Cm3MillimetrePerM2DayAtm, 0.01);
        Assert.Equal(166.8, Permeability.FromBarrer(1).Cm3MilPer100In2DayAtm, 0.05);
        Assert.Equal(0.75, Permeability.FromBarrer(1).Cm3CmPerCm2SPa13, 0.001);
    }

    // [UdUnits]: US perm at 0 °C 5.72135e-11, metric perm 8.68127e-11 kg/(Pa·s·m²).
    [Fact]
    public void Matches_UdUnits_perms()
    {
        Assert.Equal(5.72135e-11, Permeance.FromUsPerm(1).WaterKilogramsPerM2SPa, 0.00001e-11);
        Assert.Equal(8.68127e-11, Permeance.FromMetricPerm(1).WaterKilogramsPerM2SPa, 0.00001e-11);
    }

    // The vapour-pressure differences of common test climates, from an independent saturation pressure: 300 ppm of that, and half a digit printed.
    [Theory]
    [InlineData(38, 90, 1.940e-9)]
    [InlineData(37.8, 90, 1.961e-9)]
    [InlineData(23, 85, 4.846e-9)]
    [InlineData(25, 75, 4.870e-9)]
    [InlineData(40, 75, 2.090e-9)]
    public void A_gram_a_day_in_a_test_climate(double celsius, double percent, double gramsPerM2SPa) =>
        Assert.Equal(gramsPerM2SPa, Permeance.FromGramsPerM2Day(1, WaterTest.Of(celsius, percent)).WaterKilogramsPerM2SPa * 1e3, (gramsPerM2SPa * 3e-4) + 0.0005e-9);

    // 0.05 g/(100 in²·day) at 100 °F is the limit of "hermetically sealed" seed containers [NevadaSeed], 0.775 g/(m²·day).
    // Rates at 38 °C and 90 %: polyethylene 50 µm from [FitnessU12], metallised polyester and foil from [SupplierSheets].
    [Fact]
    public void Seed_box_limit_splits_films_as_expected()
    {
        var limit = Permeance.FromGramsPer100In2Day(0.05, WaterTest.TropicalFahrenheit);
        Assert.Equal(0.775, limit.GramsPerM2Day(WaterTest.TropicalFahrenheit), 0.0005);
        Assert.True(Permeability.FromGramMicrometrePerM2Day(560, WaterTest.Tropical).Through(Length.FromMicrometres(50)) > limit * 10);
        Assert.Equal(limit.MolPerM2SPa, Permeance.FromGramsPer100In2Day(0.05, WaterTest.Tropical).MolPerM2SPa, limit.MolPerM2SPa * 0.02);
        Assert.True(Permeance.FromGramsPer100In2Day(0.002, WaterTest.Tropical) < limit * 0.1);
    }

    // [FitnessU12] against handbook values from memory, 90 Barrer at 25 °C with 33.5 kJ/mol: 158 against 180 Barrer, 20 % allowed.
    [Fact]
    public void Polyethylene_of_two_tables_agrees_within_their_scatter()
    {
        var read = Permeability.FromGramMicrometrePerM2Day(560, WaterTest.Tropical).InBarrer;
        var remembered = 90 * ArrheniusFactor.Between(Temperature.FromCelsius(38), Temperature.FromCelsius(25), 33.5e3);
        Assert.Equal(180, read, 1.0);
        Assert.Equal(158, remembered, 1.0);
        Assert.Equal(1, read / remembered, 0.2);
    }

    [Fact]
    public void Every_conversion_reads_back()
    {
        var test = WaterTest.Of(23, 85);
        Func<double, double>[] pairs =
        [
            x => Permeance.FromCm3PerM2DayAtm(x).Cm3PerM2DayAtm,
            x => Permeance.FromCm3PerM2DayBar(x).Cm3PerM2DayBar,
            x => Permeance.FromCm3Per100In2DayAtm(x).Cm3Per100In2DayAtm,
            x => Permeance.FromGramsPerM2Day(x, test).GramsPerM2Day(test),
            x => Permeance.FromGramsPer100In2Day(x, test).GramsPer100In2Day(test),
            x => Permeance.FromUsPerm(x).UsPerm,
            x => Permeance.FromMetricPerm(x).MetricPerm,
            x => Permeability.FromBarrer(x).InBarrer,
            x => Permeability.FromCm3MicrometrePerM2DayBar(x).Cm3MicrometrePerM2DayBar,
            x => Permeability.FromCm3MilPer100In2DayAtm(x).Cm3MilPer100In2DayAtm,
            x => Permeability.FromCm3MillimetrePerM2DayAtm(x).Cm3MillimetrePerM2DayAtm,
            x => Permeability.FromCm3CmPerCm2SPa13(x).Cm3CmPerCm2SPa13,
            x => Permeability.FromGramMicrometrePerM2Day(x, test).GramMicrometrePerM2Day(test),
            x => Permeability.FromGramMilPer100In2Day(x, test).GramMilPer100In2Day(test),
        ];
        foreach (var thereAndBack in pairs)
            Gen.Double[-9, 6].Select(power => Math.Pow(10, power)).Holds(x => Math.Abs((thereAndBack(x) / x) - 1) < 1e-12);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(-1)]
    public void Bad_numbers_are_refused(double bad)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Permeance.FromCm3PerM2DayAtm(bad));
        Assert.Throws<ArgumentOutOfRangeException>(() => Permeance.FromGramsPerM2Day(bad, WaterTest.Tropical));
        Assert.Throws<ArgumentOutOfRangeException>(() => Permeability.FromBarrer(bad));
        Assert.Throws<ArgumentOutOfRangeException>(() => Permeability.FromBarrer(1).Through(new Length(bad)));
        Assert.Throws<ArgumentOutOfRangeException>(() => WaterTest.Of(23, bad < 0 ? bad : 101).Difference);
    }
}
