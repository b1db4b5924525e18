using CsCheck;
using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Air;

public sealed class MoistAirTests
{
    private static readonly Pressure Sea = new(101325);

    /// <summary>Source: tests of PsychroLib 2.5.0 (MIT), a value worked out in a spreadsheet; their tolerance, 1e-6.</summary>
    [Fact]
    public void Matches_PsychroLib_mixing_ratio() => Assert.Equal(0.0213603998047487, MixingRatio.Of(new(3169.7), new(95461)), 0.0213603998047487 * 1e-6);

    /// <summary>Source: ASHRAE 2017 chapter 1 table 2, saturated, as carried by the tests of PsychroLib 2.5.0 (MIT) with their tolerances: gases are not quite ideal.</summary>
    [Theory]
    [InlineData(-20, 0.0006373, 0.01)]
    [InlineData(-5, 0.0024863, 0.005)]
    [InlineData(5, 0.005425, 0.005)]
    [InlineData(25, 0.020173, 0.005)]
    [InlineData(50, 0.086863, 0.01)]
    public void Matches_Ashrae2017_Ch1_Table2(double celsius, double expected, double relative)
    {
        var temperature = Temperature.FromCelsius(celsius);
        var saturation = celsius < 0 ? SaturationPressure.OverIce(temperature) : SaturationPressure.OverWater(temperature);
        Assert.Equal(expected, MixingRatio.Of(saturation, Sea), expected * relative);
    }

    /// <summary>Source: tests of PsychroLib 2.5.0 (MIT), worked out in a spreadsheet: above freezing over water, below over ice; 300 ppm, and 0.001 K back from the value found, as there.</summary>
    [Theory]
    [InlineData(30, 25, false, 0.0192281274241096)]
    [InlineData(-1, -5, true, 0.00120399819933844)]
    public void Matches_PsychroLib_wet_bulb(double celsius, double wetCelsius, bool ice, double mixingRatio)
    {
        var (temperature, wet, total) = (Temperature.FromCelsius(celsius), Temperature.FromCelsius(wetCelsius), new Pressure(95461));
        var found = WetBulb.MixingRatioFor(temperature, wet, total, ice);
        Assert.Equal(mixingRatio, found, mixingRatio * 3e-4);
        var vapour = new Pressure(total.Pascals * found / (MixingRatio.MolarRatio + found));
        var back = ice ? WetBulb.OverIce(temperature, vapour, total) : WetBulb.OverWater(temperature, vapour, total);
        Assert.Equal(wetCelsius, back.Celsius, 0.001);
    }

    /// <summary>Source: example 1 of ASHRAE 2017 chapter 1 (40 °C with a wet bulb of 20 °C has 14 % of humidity), to the half unit of the printed percent.</summary>
    [Fact]
    public void Matches_Ashrae2017_Ch1_Example1()
    {
        var temperature = Temperature.FromCelsius(40);
        Assert.Equal(0.0065, WetBulb.MixingRatioFor(temperature, Temperature.FromCelsius(20), Sea, ice: false), 0.0001);
        var wet = WetBulb.OverWater(temperature, SaturationPressure.OverWater(temperature) * 0.14, Sea);
        Assert.Equal(20, wet.Celsius, 0.2);
    }

    [Fact]
    public void Wet_bulb_lies_between_dew_point_and_air() => Gen.Select(Gen.Double[-40, 60], Gen.Double[0.01, 1]).Holds(
        (celsius, humidity) =>
        {
            var temperature = Temperature.FromCelsius(celsius);
            var vapour = SaturationPressure.OverWater(temperature) * humidity;
            var wet = WetBulb.OverWater(temperature, vapour, Sea).Kelvin;
            return wet <= temperature.Kelvin * (1 + 1e-9) && wet >= DewPoint.OverWater(vapour).Kelvin * (1 - 1e-9);
        });

    [Fact]
    public void Wet_bulb_gives_its_mixing_ratio_back() => Gen.Select(Gen.Double[-40, 60], Gen.Double[0, 1], Gen.Double[60000, 105000], Gen.Bool).Holds(
        (celsius, share, pascals, ice) =>
        {
            var (temperature, total) = (Temperature.FromCelsius(celsius), new Pressure(pascals));
            var saturation = ice && temperature <= SaturationPressure.HighestOverIce ? SaturationPressure.OverIce(temperature) : SaturationPressure.OverWater(temperature);
            var vapour = saturation * share;
            var wet = ice ? WetBulb.OverIce(temperature, vapour, total) : WetBulb.OverWater(temperature, vapour, total);
            var back = WetBulb.MixingRatioFor(temperature, wet, total, ice && wet < SaturationPressure.HighestOverIce);
            return Math.Abs(back - MixingRatio.Of(vapour, total)) <= 1e-9;
        });

    [Fact]
    public void Saturated_air_has_its_own_temperature_as_wet_bulb()
    {
        var temperature = Temperature.FromCelsius(22);
        Assert.Equal(22, WetBulb.OverWater(temperature, SaturationPressure.OverWater(temperature), Sea).Celsius, 1e-9);
    }

    [Fact]
    public void Perfectly_dry_air_still_has_a_wet_bulb() =>
        Assert.InRange(WetBulb.OverWater(Temperature.FromCelsius(25), new(0), Sea).Celsius, 5, 12);

    [Fact]
    public void Refuses_more_vapour_than_saturation_or_pressure()
    {
        var temperature = Temperature.FromCelsius(20);
        Assert.Throws<ArgumentOutOfRangeException>(() => WetBulb.OverWater(temperature, new(2500), Sea));
        Assert.Throws<ArgumentOutOfRangeException>(() => WetBulb.OverWater(temperature, new(double.NaN), Sea));
        Assert.Throws<ArgumentOutOfRangeException>(() => MixingRatio.Of(new(101325), Sea));
        Assert.Throws<ArgumentOutOfRangeException>(() => MixingRatio.Of(new(-1), Sea));
        Assert.Throws<ArgumentOutOfRangeException>(() => AbsoluteHumidity.Of(new(-1), temperature));
        Assert.Throws<ArgumentOutOfRangeException>(() => AbsoluteHumidity.Of(new(1), new(0)));
    }

    /// <summary>The other form in use, 2.1668 e/T in g/m³ (e in Pa), to its last printed digit.</summary>
    [Theory]
    [InlineData(20, 0.50)]
    [InlineData(30, 0.80)]
    public void Absolute_humidity_agrees_with_the_short_form(double celsius, double humidity)
    {
        var temperature = Temperature.FromCelsius(celsius);
        var vapour = SaturationPressure.OverWater(temperature) * humidity;
        var expected = 2.1668 * vapour.Pascals / temperature.Kelvin;
        Assert.Equal(expected, 1000 * AbsoluteHumidity.Of(vapour, temperature), expected * 1e-4);
    }

    /// <summary>Sources: a table of heated winter air printed in whole percent (20 °F and 20/40/60/80 % become 3/6/8/11 % at 70 °F), which rests on ice; over water the same table reads 3/6/9/12 (derived); ±0.5.</summary>
    [Theory]
    [InlineData(20, 3)]
    [InlineData(40, 6)]
    [InlineData(60, 9)]
    [InlineData(80, 12)]
    public void Heated_winter_air_over_water(double percent, double expected) => Assert.Equal(
        expected,
        WarmedAir.HumidityAt(RelativeHumidity.FromPercent(percent), Temperature.FromFahrenheit(20), Temperature.FromFahrenheit(70)).Percent,
        0.5);

    /// <summary>Sources: an engineering page, 0 °C and 90 % become about 23 % at 20 °C; ±1. A maker's page, 0 °F and 50 % become about 3 % at 70 °F; ±0.5.</summary>
    [Fact]
    public void Heated_freezing_air()
    {
        Assert.Equal(23, WarmedAir.HumidityAt(new(0.90), Temperature.FromCelsius(0), Temperature.FromCelsius(20)).Percent, 1.0);
        Assert.Equal(3, WarmedAir.HumidityAt(new(0.50), Temperature.FromFahrenheit(0), Temperature.FromFahrenheit(70)).Percent, 0.5);
    }

    [Fact]
    public void Cooled_air_is_not_clipped() =>
        Assert.Equal(149.4, WarmedAir.HumidityAt(new(0.60), Temperature.FromCelsius(30), Temperature.FromCelsius(15)).Percent, 0.05);

    /// <summary>Source: an engineering page, 1013.25 mbar closed at 0 °C is 1235.94 at 60 °C and 864.79 at −40 °C, worked with 273, 333 and 233 K: 0.02 % for the missing 0.15 K.</summary>
    [Theory]
    [InlineData(60, 1235.94)]
    [InlineData(-40, 864.79)]
    public void Matches_the_sealed_box_example(double celsius, double hectopascal)
    {
        var found = ClosedVessel.PressureAt(new(101325), Temperature.FromCelsius(0), Temperature.FromCelsius(celsius), new(0)).Pascals / 100;
        Assert.Equal(hectopascal, found, hectopascal * 2e-4);
    }

    /// <summary>Own computation: closed at 20 °C over contents of activity 0.6; gauge at 35 °C 7086.2 Pa, at 5 °C −5992.6 Pa (regression, 1 Pa).</summary>
    [Theory]
    [InlineData(35, 7086.2)]
    [InlineData(5, -5992.6)]
    public void Contents_add_their_vapour(double celsius, double gauge) => Assert.Equal(
        gauge, (ClosedVessel.PressureAt(Sea, Temperature.FromCelsius(20), Temperature.FromCelsius(celsius), new(0.6)) - Sea).Pascals, 1.0);

    [Fact]
    public void A_vessel_at_constant_temperature_keeps_its_pressure() => Gen.Select(Gen.Double[-20, 60], Gen.Double[0, 1]).Holds(
        (celsius, activity) =>
        {
            var temperature = Temperature.FromCelsius(celsius);
            return Math.Abs(ClosedVessel.PressureAt(Sea, temperature, temperature, new(activity)).Pascals - Sea.Pascals) < 1e-9;
        });
}
