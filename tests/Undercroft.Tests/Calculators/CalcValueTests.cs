using Xunit;

namespace Undercroft.Tests.Calculators;

/// <summary>Figures of the calculators, each against what its remark names.</summary>
public sealed class CalcValueTests
{
    /// <summary>Own computation with Hyland and Wexler at 101 325 Pa (regression; across formulas dew points differ by 0.03 K, absolute humidity by 0.5 %).</summary>
    [Theory]
    [InlineData(20, 50, 1169.40, 9.272, 8.644, 7.2617)]
    [InlineData(25, 60, 1901.53, 16.701, 13.820, 11.8950)]
    [InlineData(30, 80, 3396.82, 26.169, 24.280, 21.5733)]
    [InlineData(15, 70, 1193.81, 9.579, 8.977, 7.4151)]
    public void Air_keeps_its_computed_values(double celsius, double percent, double pascal, double dew, double gram, double ratio)
    {
        var found = Calc.Json(FormattableString.Invariant($"air --temperature {celsius}C --humidity {percent}%"));
        Assert.Equal(pascal, found["vapourPressurePa"].GetDouble(), 0.01);
        Assert.Equal(dew, found["dewPointC"].GetDouble(), 0.001);
        Assert.Equal(gram, found["absoluteHumidityGPerM3"].GetDouble(), gram * 2e-4);
        Assert.Equal(ratio, found["mixingRatioGPerKg"].GetDouble(), 0.001);
        Assert.Equal(101325, found["pressurePa"].GetDouble());
    }

    /// <summary>Source: tests of PsychroLib 2.5.0 (MIT): saturated at 25 °C and 500 m, 0.0213604 kg/kg for 3169.7 Pa at 95 461 Pa; 300 ppm of the vapour pressure.</summary>
    [Theory]
    [InlineData("--altitude 500m")]
    [InlineData("--pressure 95461Pa")]
    [InlineData("--pressure 954.61hPa")]
    public void Air_of_500_metres_matches_PsychroLib(string where) =>
        Assert.Equal(21.3603998, Calc.Number($"air --temperature 25C --humidity 100% {where}", "mixingRatioGPerKg"), 21.36 * 4e-4);

    /// <summary>Source: ASHRAE 2017 chapter 1 table 3 over ice, 300 ppm; and an iced wet bulb of −5 °C in air of −1 °C (PsychroLib 2.5.0, MIT).</summary>
    [Fact]
    public void Air_over_ice_matches_Ashrae2017()
    {
        Assert.Equal(103.24, Calc.Number("air --temperature -20C --humidity 50% --over ice", "saturationPressurePa"), 103.24 * 3e-4);
        Assert.Equal(872.6, Calc.Number("air --temperature 5C --humidity 50% --over ice", "saturationPressurePa"), 872.6 * 3e-4);
        var vapour = 95461 * 0.00120399819933844 / (0.621945 + 0.00120399819933844);
        var humidity = 100 * vapour / Calc.Number("air --temperature -1C --humidity 50% --over ice", "saturationPressurePa");
        Assert.Equal(-5, Calc.Number(FormattableString.Invariant($"air --temperature -1C --humidity {humidity}% --pressure 95461Pa --over ice"), "wetBulbC"), 0.01);
    }

    [Fact]
    public void Perfectly_dry_air_has_no_dew_point()
    {
        Assert.Equal(System.Text.Json.JsonValueKind.Null, Calc.Json("air --temperature 25C --humidity 0%")["dewPointC"].ValueKind);
        Assert.Equal(System.Text.Json.JsonValueKind.Null, Calc.Json("warm-air --from 25C/0% --to 5C")["dewPointC"].ValueKind);
    }

    /// <summary>Sources: an engineering page prints about 23 % for 0 °C, 90 % brought to 20 °C (±1); a table on ice prints 3, 6, 8, 11 % for 20 °F brought to 70 °F (±0.5). The others are derived.</summary>
    [Theory]
    [InlineData("0C/90%", "20C", "water", 23, 1.0, false)]
    [InlineData("20F/20%", "70F", "ice", 3, 0.5, false)]
    [InlineData("20F/40%", "70F", "ice", 6, 0.5, false)]
    [InlineData("20F/60%", "70F", "ice", 8, 0.5, false)]
    [InlineData("20F/80%", "70F", "ice", 11, 0.5, false)]
    [InlineData("10C/80%", "18C", "water", 47.59, 0.01, false)]
    [InlineData("30C/60%", "15C", "water", 149.4, 0.05, true)]
    [InlineData("20C/100%", "20C", "water", 100, 1e-6, false)]
    public void Warmed_air(string from, string to, string over, double percent, double tolerance, bool condenses)
    {
        var found = Calc.Json($"warm-air --from {from} --to {to} --over {over}");
        Assert.Equal(percent, found["humidityPct"].GetDouble(), tolerance);
        Assert.Equal(condenses, found["condenses"].GetBoolean());
    }

    /// <summary>Source: worked example of a maker of monitoring systems, 15.7 °C; weights scale out.</summary>
    [Theory]
    [InlineData("--temperature 20C*2 --temperature 2C*4 --temperature 25C*1")]
    [InlineData("--temperature 25C*0.5 --temperature 68F*1 --temperature 2C*2")]
    public void Mean_kinetic_temperature_matches_its_published_example(string words)
    {
        var found = Calc.Json("mkt " + words);
        Assert.Equal(15.7, found["meanKineticTemperatureC"].GetDouble(), 0.05);
        Assert.Equal((40 + 8 + 25) / 7.0, found["meanC"].GetDouble(), 1e-6);
    }

    [Fact]
    public void Temperatures_without_weights_count_alike() => Assert.Equal(26.2599, Calc.Number("mkt --temperature 20C --temperature 30C", "meanKineticTemperatureC"), 1e-4);

    [Theory]
    [InlineData("50g", "10%", "14%", 2.3255814, 52.3255814)]
    [InlineData("2oz", "20%", "12%", -5.15445875, 51.5445875)]
    public void Water_keeps_the_dry_mass(string mass, string from, string to, double water, double final)
    {
        var found = Calc.Json($"water --mass {mass} --from {from} --to {to}");
        Assert.Equal(water, found["waterG"].GetDouble(), 1e-6);
        Assert.Equal(final, found["finalMassG"].GetDouble(), 1e-6);
    }

    /// <summary>FIT CHECKS: Mutasa 1990 (burley 18 % at 75 %, ±1.5) and Kim 2004 (13 % at 61.5 and 57.5 %RH, ±3), to which the curves were fitted.</summary>
    [Fact]
    public void Isotherms_fit_their_anchors()
    {
        Assert.Equal(18, Calc.Number("isotherm --leaf burley --humidity 75%", "moistureWetBasisPct"), 1.5);
        Assert.Equal(61.5, Calc.Number("isotherm --leaf burley --moisture 13%", "humidityPct"), 3.0);
        Assert.Equal(57.5, Calc.Number("isotherm --leaf flue-cured --moisture 13%", "humidityPct"), 3.0);
        Assert.Equal(61, Calc.Number("isotherm --leaf oriental --moisture 13%", "humidityPct"), 3.0);
    }

    [Fact]
    public void An_isotherm_reads_back_at_any_temperature()
    {
        foreach (var leaf in new[] { "flue-cured", "burley", "mixture", "aromatic" })
        {
            foreach (var celsius in new[] { 5, 22, 35 })
            {
                var there = Calc.Json(FormattableString.Invariant($"isotherm --leaf {leaf} --humidity 62% --temperature {celsius}C"));
                var back = Calc.Json(FormattableString.Invariant($"isotherm --leaf {leaf} --moisture {there["moistureWetBasisPct"].GetDouble()}% --temperature {celsius}C"));
                Assert.Equal(62, back["humidityPct"].GetDouble(), 1e-5);
                Assert.Equal(there["moistureDryBasisPct"].GetDouble(), back["moistureDryBasisPct"].GetDouble(), 1e-5);
            }
        }
    }

    /// <summary>Derived: leaf of fixed moisture rises by about 0.2 points of humidity per °C at 60 %.</summary>
    [Fact]
    public void Warmth_raises_the_humidity_of_leaf()
    {
        var cool = Calc.Number("isotherm --leaf mixture --moisture 13.5% --temperature 20C", "humidityPct");
        var warm = Calc.Number("isotherm --leaf mixture --moisture 13.5% --temperature 30C", "humidityPct");
        Assert.Equal(0.2, (warm - cool) / 10, 0.03);
    }

    /// <summary>Source: K = 1.16 of table 3, Int. J. Dentistry 2010; 81.1 ± 0.2.</summary>
    [Fact]
    public void Half_glycerol() => Assert.Equal(81.1, Calc.Number("humectant --glycerol 50%", "humidityPct"), 0.2);

    /// <summary>Arithmetic from the stated example: 0.9 g at 38 °C and 90 % on 300 cm², 20 °C, 65 to 45 %, 33.5 kJ/mol: 0.955 mg a day. Without energy, by the ratio of vapour pressures alone, 2.116.</summary>
    [Theory]
    [InlineData("--inside 65% --outside 45% --activation 33.5", 0.955, 0.0006)]
    [InlineData("--inside 45% --outside 65% --activation 33.5", -0.955, 0.0006)]
    [InlineData("--inside 65% --outside 45%", 2.116, 0.002)]
    [InlineData("--inside 50% --outside 50%", 0, 0)]
    public void Water_through_a_film(string climate, double milligrams, double tolerance) => Assert.Equal(
        milligrams, Calc.Number($"film --water 0.9 --test 38C/90% --area 300cm2 --temperature 20C {climate}", "waterMgPerDay"), tolerance);

    /// <summary>Source: conversions with exact constants, 1 cm³(STP)/(m²·day·atm) = 5.0963e-15 mol/(m²·s·Pa) and 1 g/(m²·day) at 38/90 = 1.940e-9 g/(m²·s·Pa); last printed digit.</summary>
    [Fact]
    public void Permeances_match_the_conversion_table()
    {
        Assert.Equal(5.0963e-15, Calc.Number("film --oxygen 1 --test 20C/0% --area 1m2 --temperature 20C", "permeanceMolPerM2SPa"), 0.0001e-15);
        Assert.Equal(1.940e-12, Calc.Number("film --water 1 --test 38C/90% --area 1m2 --temperature 38C --inside 90% --outside 0%", "permeanceKgPerM2SPa"), 0.001e-12);
        Assert.Equal(1000, Calc.Number("film --water 1 --test 38C/90% --area 1m2 --temperature 38C --inside 90% --outside 0%", "waterMgPerDay"), 1e-6);
    }

    /// <summary>Arithmetic: 150 cm³ at 0 °C on 300 cm² against 0.2095 atm are 0.94275 ml at 0 °C, 1.01178 at 20 °C.</summary>
    [Theory]
    [InlineData("20C", "", 1.011776)]
    [InlineData("20C", "--oxygen-inside 20.95%", 0)]
    [InlineData("0C", "", 0.94275)]
    public void Oxygen_through_a_film(string at, string inside, double millilitres) => Assert.Equal(
        millilitres, Calc.Number($"film --oxygen 150 --test 23C/0% --area 300cm2 --temperature {at} {inside}", "oxygenMlPerDay"), 1e-5);

    /// <summary>Source: Moyls et al. 1998, oxygen through polyethylene films 8.73 kcal/mol: 3.52 times from 0 to 23.2 °C; 1 %.</summary>
    [Fact]
    public void Activation_matches_Moyls1998()
    {
        double At(string celsius) => Calc.Number($"film --oxygen 150 --test 23.2C/0% --area 300cm2 --temperature {celsius} --activation 36.52632", "permeanceMolPerM2SPa");
        Assert.Equal(3.52, At("23.2C") / At("0C"), 0.0352);
    }

    /// <summary>Derived from layer data by the series law.</summary>
    [Theory]
    [InlineData("--layer 140 --layer 3560", 134.7)]
    [InlineData("--layer 100 --layer 2543", 96.2)]
    [InlineData("--layer 30 --layer 30 --layer 30", 10)]
    public void Layers_in_series(string layers, double transmission) => Assert.Equal(transmission, Calc.Number("laminate " + layers, "transmission"), 0.05);

    /// <summary>Geometry: once round, times turns, over stretch, plus the unstretched end.</summary>
    [Theory]
    [InlineData("--diameter 80mm --turns 2 --stretch 2", 271.3274)]
    [InlineData("--diameter 80mm --turns 2 --stretch 2 --overlap 0mm", 251.3274)]
    [InlineData("--sides 110mmx80mm --turns 3 --stretch 2.5", 476)]
    [InlineData("--sides 4inx3in --turns 1 --stretch 1 --overlap 1in", 381)]
    public void Strips(string words, double millimetres) => Assert.Equal(millimetres, Calc.Number("strip " + words, "lengthMm"), 1e-3);

    /// <summary>Arithmetic given 1.45 g/cm³ (from memory): 400.0 ml, 83.8 ml, 110.7 mg.</summary>
    [Theory]
    [InlineData("")]
    [InlineData("--temperature 22C")]
    public void Headspace_of_a_jar(string at)
    {
        var found = Calc.Json("headspace --container 473ml --leaf 100g --moisture 13% " + at);
        Assert.Equal(400.0, found["gasMl"].GetDouble(), 0.05);
        Assert.Equal(83.8, found["oxygenMl"].GetDouble(), 0.05);
        Assert.Equal(110.7, found["oxygenMg"].GetDouble(), 0.05);
    }

    /// <summary>Sources: a sealed box of dry air closed at 0 °C and 1013.25 mbar reaches 1235.94 mbar at 60 °C, worked with whole kelvin (0.02 %). Others: own computation of the gas law with vapour.</summary>
    [Theory]
    [InlineData("--from 0C --to 60C", 22.269, 0.03)]
    [InlineData("--from 20C --to 35C", 5.1846, 0.0001)]
    [InlineData("--from 20C --to 35C --activity 0.6", 7.0862, 0.001)]
    [InlineData("--from 20C --to 5C --activity 60%", -5.9926, 0.001)]
    [InlineData("--from 20C --to 20C --to-altitude 500m", 5.864, 0.001)]
    [InlineData("--from 20C --to 20C --from-altitude 500m", -5.864, 0.001)]
    public void Pressure_of_a_closed_vessel(string words, double kilopascal, double tolerance) =>
        Assert.Equal(kilopascal, Calc.Number("pressure " + words, "gaugeKPa"), tolerance);

    /// <summary>Source: OIML R 121 (1996) Table 1.</summary>
    [Theory]
    [InlineData("NaCl", "20C", 75.5, 0.2)]
    [InlineData("MgCl2", "25C", 32.8, 0.2)]
    [InlineData("k2co3", "77F", 43.2, 0.4)]
    [InlineData("KCl", "15C", 85.9, 0.4)]
    [InlineData("LiCl", "30C", 11.3, 0.3)]
    public void Salts(string salt, string at, double percent, double uncertainty)
    {
        var found = Calc.Json($"salt --salt {salt} --temperature {at}");
        Assert.Equal(percent, found["humidityPct"].GetDouble(), 1e-6);
        Assert.Equal(uncertainty, found["uncertaintyPct"].GetDouble(), 1e-6);
    }

    [Fact]
    public void Hygrometers()
    {
        var two = Calc.Json("hygrometer --point 33.1%=36.0% --point 75.5%=73.0% --reading 60%");
        Assert.Equal(60.6027, two["correctedPct"].GetDouble(), 1e-4);
        Assert.Equal(1.145946, two["gain"].GetDouble(), 1e-6);
        Assert.Equal(-8.154054, two["offsetPct"].GetDouble(), 1e-6);
        var one = Calc.Json("hygrometer --point 75.5%=72.0% --reading 60%");
        Assert.Equal(63.5, one["correctedPct"].GetDouble(), 1e-9);
        Assert.Equal(1, one["gain"].GetDouble());
        Assert.Equal(3.5, one["offsetPct"].GetDouble(), 1e-9);
    }

    /// <summary>Arithmetic: D A Δy/(L + πd/4) in volume, D = 2.05e-5 m²/s (from memory) joined with (d/3)·444 m/s (FitNESS unit 4.6) by their reciprocals; 0.1 % for the rounded speed.</summary>
    [Theory]
    [InlineData("10um", "0.2mm", "continuum")]
    [InlineData("1um", "190um", "transition")]
    [InlineData("5nm", "190um", "molecular")]
    public void Pinholes(string diameter, string length, string regime)
    {
        var found = Calc.Json($"pinhole --diameter {diameter} --length {length} --temperature 25C");
        Assert.Equal(regime, found["regime"].GetString());
        var (d, l) = (Metres(diameter), Metres(length));
        var diffusivity = 1 / ((1 / 2.05e-5) + (3 / (d * 444.0)));
        var expected = diffusivity * 0.2095 * Math.PI * d * d / 4 / (l + (Math.PI * d / 4)) * 86400 * 1e6;
        Assert.Equal(expected, found["oxygenMlPerDay"].GetDouble(), expected * 1e-3);
    }

    private static double Metres(string text) => Undercroft.Physics.Quantities.QuantityText.OfLength.Read(text);
}
