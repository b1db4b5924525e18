using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Climate;

public sealed class HygrometerTests
{
    /// <summary>Source: OIML R 121 (1996) Table 1: exact at its columns.</summary>
    [Theory]
    [InlineData("NaCl", 20, 75.5, 0.2)]
    [InlineData("NaCl", 5, 75.7, 0.3)]
    [InlineData("MgCl2", 20, 33.1, 0.2)]
    [InlineData("MgCl2", 40, 31.6, 0.2)]
    [InlineData("K2CO3", 30, 43.2, 0.5)]
    [InlineData("K2CO3", 10, 43.1, 0.4)]
    [InlineData("NaBr", 20, 59.1, 0.5)]
    [InlineData("KCl", 25, 84.2, 0.3)]
    [InlineData("K2SO4", 25, 97.3, 0.5)]
    [InlineData("LiCl", 25, 11.3, 0.3)]
    [InlineData("LiCl", 40, 11.2, 0.3)]
    public void Matches_OimlR121_Table1(string salt, double celsius, double percent, double uncertainty)
    {
        var point = SaturatedSalts.At(salt, Temperature.FromCelsius(celsius));
        Assert.Equal(percent, point.Humidity.Percent, 1e-9);
        Assert.Equal(uncertainty, point.Uncertainty!.Value.Percent, 1e-9);
    }

    /// <summary>Derived: halfway between the columns of 20 and 25 °C.</summary>
    [Fact]
    public void Interpolates_between_the_columns() => Assert.Equal(75.4, SaturatedSalts.At("nacl", Temperature.FromCelsius(22.5)).Humidity.Percent, 1e-9);

    /// <summary>Source: constants after Wexler in the CRC Handbook: Mg(NO₃)₂ 52.9 % at 25 °C, NH₄NO₃ 65.0 % at 20 °C; 0.1 of arithmetic.</summary>
    [Theory]
    [InlineData("Mg(NO3)2", 25, 52.9)]
    [InlineData("NH4NO3", 20, 65.0)]
    public void Matches_the_Crc_constants(string salt, double celsius, double percent) =>
        Assert.Equal(percent, SaturatedSalts.At(salt, Temperature.FromCelsius(celsius)).Humidity.Percent, 0.1);

    /// <summary>The two sources: OIML and the CRC constants agree within the CRC's ±2 % (NaCl 69.20·exp(25/T), KCl 49.38·exp(159/T), MgCl2 29.26·exp(34/T)).</summary>
    [Theory]
    [InlineData("NaCl", 69.20, 25)]
    [InlineData("KCl", 49.38, 159)]
    [InlineData("MgCl2", 29.26, 34)]
    public void Oiml_and_Crc_agree(string salt, double a, double b)
    {
        for (var celsius = 10; celsius <= 30; celsius += 5)
        {
            var crc = a * Math.Exp(b / (celsius + 273.15));
            Assert.Equal(crc, SaturatedSalts.At(salt, Temperature.FromCelsius(celsius)).Humidity.Percent, crc * 0.02);
        }
    }

    /// <summary>The polynomials below 5 °C meet the table's first column within the 0.15 points by which the two sources differ.</summary>
    [Theory]
    [InlineData("MgCl2")]
    [InlineData("K2CO3")]
    [InlineData("NaCl")]
    [InlineData("KCl")]
    [InlineData("K2SO4")]
    public void Cold_polynomials_meet_the_table(string salt)
    {
        var below = SaturatedSalts.At(salt, Temperature.FromCelsius(4.999));
        Assert.Null(below.Uncertainty);
        Assert.Equal(SaturatedSalts.At(salt, Temperature.FromCelsius(5)).Humidity.Percent, below.Humidity.Percent, 0.15);
    }

    [Theory]
    [InlineData("NaCl", -0.1)]
    [InlineData("NaCl", 40.1)]
    [InlineData("LiCl", 19.9)]
    [InlineData("NaBr", 4.9)]
    [InlineData("K2CO3", 31)]
    [InlineData("NaCl", double.NaN)]
    [InlineData("sugar", 20)]
    public void Refuses_what_is_no_reference(string salt, double celsius) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SaturatedSalts.At(salt, Temperature.FromCelsius(celsius)));

    [Fact]
    public void Every_named_salt_has_its_whole_range() => Assert.All(SaturatedSalts.Names, salt =>
    {
        var (lowest, highest) = SaturatedSalts.RangeOf(salt);
        for (var celsius = lowest.Celsius; celsius <= highest.Celsius + 1e-9; celsius += 0.5)
            Assert.InRange(SaturatedSalts.At(salt, Temperature.FromCelsius(celsius)).Humidity.Percent, 10, 99);
    });

    /// <summary>Arithmetic: reference 75.5 % shown as 72.0 % is +3.5.</summary>
    [Fact]
    public void One_point_is_an_offset()
    {
        var correction = HygrometerCorrection.From(Percent(75.5), Percent(72));
        Assert.Equal(1, correction.Gain);
        Assert.Equal(3.5, 100 * correction.Offset, 1e-9);
        Assert.Equal(63.5, correction.Correct(Percent(60)).Percent, 1e-9);
    }

    /// <summary>Arithmetic: 33.1 and 75.5 % shown as 36.0 and 73.0 %: gain 1.145946, offset −8.154054, and 60 becomes 60.6027.</summary>
    [Theory]
    [InlineData(33.1, 36.0, 75.5, 73.0)]
    [InlineData(75.5, 73.0, 33.1, 36.0)]
    public void Two_points_are_a_line(double truth1, double shown1, double truth2, double shown2)
    {
        var correction = HygrometerCorrection.From(Percent(truth1), Percent(shown1), Percent(truth2), Percent(shown2));
        Assert.Equal(1.145946, correction.Gain, 1e-6);
        Assert.Equal(-8.154054, 100 * correction.Offset, 1e-6);
        Assert.Equal(60.6027, correction.Correct(Percent(60)).Percent, 1e-4);
        Assert.Equal(truth1, correction.Correct(Percent(shown1)).Percent, 1e-9);
        Assert.Equal(truth2, correction.Correct(Percent(shown2)).Percent, 1e-9);
    }

    [Fact]
    public void A_corrected_humidity_stays_within_its_bounds()
    {
        Assert.Equal(100, HygrometerCorrection.From(Percent(75), Percent(70)).Correct(Percent(99)).Percent);
        Assert.Equal(0, HygrometerCorrection.From(Percent(33), Percent(38)).Correct(Percent(2)).Percent);
    }

    [Theory]
    [InlineData(33, 40, 50, 59)]
    [InlineData(33, 30, 75, 55)]
    [InlineData(33, 30, 50, 70)]
    [InlineData(75, 30, 33, 75)]
    [InlineData(101, 30, 33, 75)]
    [InlineData(33, double.NaN, 75, 75)]
    public void Refuses_points_that_tell_nothing(double truth1, double shown1, double truth2, double shown2) => Assert.Throws<ArgumentOutOfRangeException>(
        () => HygrometerCorrection.From(Percent(truth1), Percent(shown1), Percent(truth2), Percent(shown2)));

    private static RelativeHumidity Percent(double percent) => RelativeHumidity.FromPercent(percent);
}
