using CsCheck;
using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Air;

public sealed class DewPointTests
{
    /// <summary>Source: round trips of the tests of PsychroLib 2.5.0 (MIT), which allow 0.001 K; here the inversion is held to its own 1e-9.</summary>
    [Theory]
    [InlineData(-20)]
    [InlineData(5)]
    [InlineData(50)]
    public void Returns_the_temperature_of_saturation(double celsius)
    {
        var temperature = Temperature.FromCelsius(celsius);
        Assert.Equal(temperature.Kelvin, DewPoint.OverWater(SaturationPressure.OverWater(temperature)).Kelvin, temperature.Kelvin * 1e-9);
    }

    /// <summary>
    /// Magnus formula with Sonntag's constants 17.62 and 243.12 (an independent short form): dew points differ by less than 0.03 K,
    /// the tolerance across formulas that the comparison of eight of them suggests.
    /// </summary>
    [Theory]
    [InlineData(20, 0.50)]
    [InlineData(25, 0.60)]
    [InlineData(30, 0.80)]
    [InlineData(10, 0.80)]
    [InlineData(22, 0.65)]
    public void Agrees_with_the_Magnus_form_of_Sonntag(double celsius, double humidity)
    {
        var g = Math.Log(humidity) + (17.62 * celsius / (243.12 + celsius));
        var expected = 243.12 * g / (17.62 - g);
        var vapour = SaturationPressure.OverWater(Temperature.FromCelsius(celsius)) * humidity;
        Assert.Equal(expected, DewPoint.OverWater(vapour).Celsius, 0.03);
    }

    [Fact]
    public void Inverts_saturation_over_water_everywhere() => Gen.Double[-100, 200].Holds(
        celsius =>
        {
            var temperature = Temperature.FromCelsius(celsius);
            return Math.Abs(DewPoint.OverWater(SaturationPressure.OverWater(temperature)).Kelvin - temperature.Kelvin) <= 1e-9 * temperature.Kelvin;
        });

    [Fact]
    public void Inverts_saturation_over_ice_everywhere() => Gen.Double[-100, 0.01].Holds(
        celsius =>
        {
            var temperature = new Temperature(Math.Min(273.16, celsius + 273.15));
            return Math.Abs(DewPoint.OverIce(SaturationPressure.OverIce(temperature)).Kelvin - temperature.Kelvin) <= 1e-9 * temperature.Kelvin;
        });

    [Fact]
    public void Frost_point_lies_above_dew_point_below_zero()
    {
        var vapour = new Pressure(200);
        Assert.True(DewPoint.OverIce(vapour) > DewPoint.OverWater(vapour));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(2e6)]
    public void Refuses_a_pressure_without_dew_point(double pascals)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => DewPoint.OverWater(new(pascals)));
        Assert.Throws<ArgumentOutOfRangeException>(() => DewPoint.OverIce(new(pascals)));
    }

    [Fact]
    public void Refuses_a_frost_point_above_the_triple_point() => Assert.Throws<ArgumentOutOfRangeException>(() => DewPoint.OverIce(new(700)));
}
