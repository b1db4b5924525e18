using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Air;

public sealed class SaturationPressureTests
{
    /// <summary>
    /// Source: ASHRAE Handbook Fundamentals 2017, chapter 1, as carried by the tests of PsychroLib 2.5.0 (MIT), which allow 300 ppm
    /// and, at −60 °C, half a unit of the last printed digit doubled.
    /// </summary>
    [Theory]
    [InlineData(-20, 103.24)]
    [InlineData(-5, 401.74)]
    public void Matches_Ashrae2017_Ch1_Table3_over_ice(double celsius, double pascal) =>
        Assert.InRange(SaturationPressure.OverIce(Temperature.FromCelsius(celsius)).Pascals, pascal * (1 - 3e-4), pascal * (1 + 3e-4));

    [Theory]
    [InlineData(5, 872.6)]
    [InlineData(25, 3169.7)]
    [InlineData(50, 12351.3)]
    [InlineData(100, 101418.0)]
    [InlineData(150, 476101.4)]
    public void Matches_Ashrae2017_Ch1_Table3_over_water(double celsius, double pascal) =>
        Assert.InRange(SaturationPressure.OverWater(Temperature.FromCelsius(celsius)).Pascals, pascal * (1 - 3e-4), pascal * (1 + 3e-4));

    [Fact]
    public void Matches_Ashrae2017_Ch1_Table3_at_minus_60() =>
        Assert.InRange(SaturationPressure.OverIce(Temperature.FromCelsius(-60)).Pascals, 1.07, 1.09);

    /// <summary>
    /// Wagner and Pruss's equation, another fit to other data (coefficients as published by IAPWS), supercooled below 0 °C. The two sources agree to 300 ppm.
    /// </summary>
    [Fact]
    public void Agrees_with_WagnerPruss_from_minus_20_to_50()
    {
        for (var celsius = -20; celsius <= 50; celsius += 5)
        {
            var kelvin = celsius + 273.15;
            var v = 1 - (kelvin / 647.096);
            var expected = 22.064e6 * Math.Exp(647.096 / kelvin * ((-7.85951783 * v) + (1.84408259 * Math.Pow(v, 1.5)) - (11.7866497 * Math.Pow(v, 3))
                + (22.6807411 * Math.Pow(v, 3.5)) - (15.9618719 * Math.Pow(v, 4)) + (1.80122502 * Math.Pow(v, 7.5))));
            Assert.InRange(SaturationPressure.PascalOverWater(kelvin) / expected, 1 - 3e-4, 1 + 3e-4);
        }
    }

    /// <summary>
    /// KnownDeviation: below 0 °C the water equation is an extrapolation. Murphy and Koop's equation 10 for supercooled water (coefficients from memory)
    /// shows how far it errs; the bounds are those that the documentation states.
    /// </summary>
    [Theory]
    [InlineData(-20, 0.0011)]
    [InlineData(-40, 0.008)]
    [InlineData(-60, 0.05)]
    public void KnownDeviation_of_supercooled_water_from_MurphyKoop2005(double celsius, double bound)
    {
        var t = celsius + 273.15;
        var log = 54.842763 - (6763.22 / t) - (4.210 * Math.Log(t)) + (0.000367 * t)
            + (Math.Tanh(0.0415 * (t - 218.8)) * (53.878 - (1331.22 / t) - (9.44523 * Math.Log(t)) + (0.014025 * t)));
        Assert.InRange((SaturationPressure.PascalOverWater(t) / Math.Exp(log)) - 1, bound / 2, bound);
    }

    [Fact]
    public void Water_and_ice_meet_at_the_triple_point() =>
        Assert.Equal(SaturationPressure.PascalOverWater(273.16), SaturationPressure.PascalOverIce(273.16), 611.657 * 1e-6);

    [Fact]
    public void Supercooled_water_lies_above_ice_and_both_rise()
    {
        var last = (Water: 0.0, Ice: 0.0);
        for (var celsius = -100.0; celsius <= 0; celsius++)
        {
            var temperature = Temperature.FromCelsius(celsius);
            var now = (Water: SaturationPressure.OverWater(temperature).Pascals, Ice: SaturationPressure.OverIce(temperature).Pascals);
            Assert.True(now.Water > now.Ice && now.Water > last.Water && now.Ice > last.Ice);
            last = now;
        }
    }

    [Theory]
    [InlineData(233.15)]
    [InlineData(273.16)]
    [InlineData(330)]
    public void Log_slopes_are_the_derivatives(double kelvin)
    {
        const double step = 1e-3;
        Assert.Equal(
            (Math.Log(SaturationPressure.PascalOverWater(kelvin + step)) - Math.Log(SaturationPressure.PascalOverWater(kelvin - step))) / (2 * step),
            SaturationPressure.LogSlopeOverWater(kelvin), 1e-8);
        Assert.Equal(
            (Math.Log(SaturationPressure.PascalOverIce(kelvin + step)) - Math.Log(SaturationPressure.PascalOverIce(kelvin - step))) / (2 * step),
            SaturationPressure.LogSlopeOverIce(kelvin), 1e-8);
    }

    [Theory]
    [InlineData(-100.01)]
    [InlineData(200.01)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Refuses_what_lies_outside(double celsius)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SaturationPressure.OverWater(Temperature.FromCelsius(celsius)));
        Assert.Throws<ArgumentOutOfRangeException>(() => SaturationPressure.OverIce(Temperature.FromCelsius(celsius)));
    }

    [Fact]
    public void Refuses_ice_above_the_triple_point() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SaturationPressure.OverIce(Temperature.FromCelsius(0.02)));
}
