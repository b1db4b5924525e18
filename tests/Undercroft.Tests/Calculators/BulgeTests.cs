using Xunit;

namespace Undercroft.Tests.Calculators;

/// <summary>Pressure on a lid, part by part.</summary>
public sealed class BulgeTests
{
    [Theory]
    [InlineData("--from 20C --to 40C", "heatKPa", 6.91, 0.01)] // derived: 101.325·20/293.15
    [InlineData("--from 20C --to 35C --activity 0.6", "gaugeKPa", 7.0862, 0.002)] // derived: dry 5.1846 and vapour
    [InlineData("--from 20C --to 20C --to-altitude 1500m", "altitudeKPa", 16.8, 0.3)] // trade: +17 kPa at 1500 m
    [InlineData("--from 20C --to 20C --to-altitude 2400m", "altitudeKPa", 26, 0.5)] // trade: +26 kPa at 2400 m
    [InlineData("--from 20C --to 20C --vacuum 15inHg", "gaugeKPa", -50.8, 0.05)] // conventional inch of mercury
    [InlineData("--from 25C --to 25C --gas 10mg --headspace 100ml", "gaugeKPa", 5.63, 0.02)] // derived
    [InlineData("--from 25C --to 25C --gas 180mg --headspace 100ml", "gaugeKPa", 101.4, 0.5)] // derived: an atmosphere takes some 180 mg
    [InlineData("--from 25C --to 25C --headspace 100ml", "gasForTenKPaMg", 17.75, 0.05)]
    public void Parts_match_what_was_worked_out_apart(string words, string name, double value, double within) =>
        Assert.Equal(value, Calc.Number("bulge " + words, name), within);

    // trade: 10 kPa are 50 N on a lid of 80 mm.
    [Fact]
    public void Force_on_a_lid()
    {
        var found = Calc.Json("bulge --from 20C --to 20C --gas 17.9mg --headspace 100ml --lid 80mm");
        Assert.Equal(found["gaugeKPa"].GetDouble() * 1000 * Math.PI * 0.04 * 0.04, found["lidForceN"].GetDouble(), 1e-6);
        Assert.Equal(50, found["lidForceN"].GetDouble() / found["gaugeKPa"].GetDouble() * 10, 0.5);
    }

    [Fact]
    public void The_parts_add_up()
    {
        var found = Calc.Json("bulge --from 22C --to 31C --from-altitude 120m --to-altitude 900m --vacuum 30kPa --activity 0.62 --gas 7mg --headspace 210ml");
        Assert.Equal(found["heatKPa"].GetDouble() + found["altitudeKPa"].GetDouble() + found["vacuumKPa"].GetDouble() + found["gasKPa"].GetDouble(), found["gaugeKPa"].GetDouble(), 1e-6);
        Assert.Equal(System.Text.Json.JsonValueKind.Null, found["lidForceN"].ValueKind);
    }

    [Theory]
    [InlineData("--from 20C --to 60C --to-altitude 2400m", true)]
    [InlineData("--from 20C --to 20C --vacuum 50kPa", true)]
    [InlineData("--from 20C --to 22C", false)]
    public void A_caution_stands_where_pressure_can_hurt(string words, bool warned) =>
        Assert.Equal(warned, Calc.Run("bulge " + words).Out.Contains("Caution:", StringComparison.Ordinal));

    [Theory]
    [InlineData("110mg", "5mg", 62.5, "tight")]
    [InlineData("1000mg", "0mg", 595.238095, "well-closed")]
    [InlineData("10g", "0mg", 5952.38095, "open")]
    public void Tightness_of_a_container_by_weighing(string gain, string control, double rate, string word)
    {
        var found = Calc.Json($"tightness --volume 120ml --gain {gain} --control {control} --days 14");
        Assert.Equal(rate, found["waterMgPerDayL"].GetDouble(), 1e-5);
        Assert.Equal(word, found["class"].GetString());
    }
}
