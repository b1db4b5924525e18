using Xunit;

namespace Undercroft.Tests.Calculators;

/// <summary>Names, exit codes and refusals, which scripts rely on.</summary>
public sealed class CalcFormTests
{
    public static TheoryData<string, string[]> Calls => new()
    {
        { "air --temperature 25C --humidity 60%", ["saturationPressurePa", "vapourPressurePa", "dewPointC", "wetBulbC", "absoluteHumidityGPerM3", "mixingRatioGPerKg", "pressurePa"] },
        { "warm-air --from 0C/90% --to 20C", ["humidityPct", "condenses", "dewPointC"] },
        { "mkt --temperature 20C*2 --temperature 2C*4", ["meanKineticTemperatureC", "meanC"] },
        { "water --mass 50g --from 10% --to 14%", ["waterG", "finalMassG"] },
        { "isotherm --leaf burley --humidity 75%", ["moistureWetBasisPct", "moistureDryBasisPct", "humidityPct"] },
        { "humectant --glycerol 50%", ["humidityPct"] },
        { "film --water 0.9 --test 38C/90% --area 300cm2 --temperature 20C --inside 65% --outside 45%", ["permeanceKgPerM2SPa", "waterMgPerDay"] },
        { "film --oxygen 150 --test 23C/0% --area 300cm2 --temperature 20C", ["permeanceMolPerM2SPa", "oxygenMlPerDay"] },
        { "laminate --layer 140 --layer 3560", ["transmission"] },
        { "strip --diameter 80mm --turns 2 --stretch 2", ["lengthMm"] },
        { "headspace --container 473ml --leaf 100g --moisture 13%", ["gasMl", "oxygenMl", "oxygenMg"] },
        { "pressure --from 20C --to 40C", ["gaugeKPa"] },
        { "bulge --from 20C --to 35C", ["heatKPa", "altitudeKPa", "vacuumKPa", "gasKPa", "gaugeKPa", "absoluteKPa", "lidForceN", "gasForTenKPaMg"] },
        { "tightness --volume 120ml --gain 110mg --days 14", ["waterMgPerDayL", "class"] },
        { "salt --salt NaCl --temperature 20C", ["humidityPct", "uncertaintyPct"] },
        { "hygrometer --point 33.1%=36.0% --reading 60%", ["correctedPct", "gain", "offsetPct"] },
        { "pinhole --diameter 10um --length 0.2mm --temperature 25C", ["oxygenMlPerDay", "regime"] },
    };

    [Theory]
    [MemberData(nameof(Calls))]
    public void Json_has_exactly_its_names(string words, string[] names) => Assert.Equal(names, Calc.Json(words).Keys);

    [Theory]
    [MemberData(nameof(Calls))]
    public void A_person_gets_a_verdict_first(string words, string[] names)
    {
        var (exit, text, error) = Calc.Run(words);
        Assert.Equal(0, exit);
        Assert.Equal("", error);
        Assert.DoesNotContain("{", text, StringComparison.Ordinal);
        Assert.True(text.Split('\n')[0].Length > 10 && names.Length > 0);
    }

    [Theory]
    [InlineData("air --temperature 25 --humidity 60%", "Accepted units")]
    [InlineData("air --temperature 25C --humidity 60", "Accepted units")]
    [InlineData("air --temperature 25C --humidity 101%", "0 to 100 %")]
    [InlineData("air --temperature 25C --humidity -1%", "0 to 100 %")]
    [InlineData("air --temperature -300C --humidity 50%", "absolute zero")]
    [InlineData("air --temperature 150C --humidity 50%", "−60 to 100 °C")]
    [InlineData("air --temperature 90C --humidity 60% --altitude 8000m", "boils")]
    [InlineData("air --temperature 20C --humidity 60% --altitude 20000m", "standard atmosphere")]
    [InlineData("air --temperature 20C --humidity 60% --pressure 0Pa", "above zero")]
    [InlineData("warm-air --from 0C --to 20C", "such as 38C/90%")]
    [InlineData("mkt --temperature 20C*0", "above zero")]
    [InlineData("mkt --temperature 20C*-1", "above zero")]
    [InlineData("mkt --temperature 20C*2*3", "such as 20C*2")]
    [InlineData("mkt --file no-such-log.csv", "There is no file")]
    [InlineData("water --mass 50g --from 100% --to 14%", "100 %")]
    [InlineData("water --mass -5g --from 10% --to 14%", "above zero")]
    [InlineData("isotherm --leaf burly --humidity 75%", "burley")]
    [InlineData("isotherm --leaf burley --humidity 100%", "below 100 %")]
    [InlineData("isotherm --leaf burley --humidity 99.9% --temperature -10C", "lower humidity")]
    [InlineData("isotherm --leaf burley --moisture 100%", "100 %")]
    [InlineData("humectant --glycerol 101%", "0 to 100 %")]
    [InlineData("film --water 0 --test 38C/90% --area 300cm2 --temperature 20C --inside 65% --outside 45%", "above zero")]
    [InlineData("film --water 0.9 --test 38C/0% --area 300cm2 --temperature 20C --inside 65% --outside 45%", "moist side")]
    [InlineData("film --water 1,5 --test 38C/90% --area 300cm2 --temperature 20C --inside 65% --outside 45%", "decimal point")]
    [InlineData("film --oxygen 150 --test 23C/0% --area 1,500cm2 --temperature 20C", "1500")]
    [InlineData("laminate --layer 140 --layer -1", "above zero")]
    [InlineData("strip --diameter 80mm --turns 2 --stretch 9", "tears")]
    [InlineData("strip --sides 110mm --turns 2 --stretch 2", "110mmx80mm")]
    [InlineData("headspace --container 50ml --leaf 100g --moisture 13%", "more than the container")]
    [InlineData("pressure --from 20C --to 40C --activity 6", "0 to 1")]
    [InlineData("bulge --from 20C --to 35C --vacuum 20", "Accepted units")]
    [InlineData("bulge --from 20C --to 35C --vacuum -5kPa", "not negative")]
    [InlineData("bulge --from 20C --to 35C --vacuum 101.3kPa --activity 0.6", "can be pulled")]
    [InlineData("bulge --from 20C --to 35C --gas 10mg", "--headspace")]
    [InlineData("bulge --from 20C --to 350C", "−60 to 100 °C")]
    [InlineData("tightness --volume 120ml --gain 110mg --days 0", "above zero")]
    [InlineData("tightness --volume 0ml --gain 110mg --days 14", "above zero")]
    [InlineData("salt --salt sugar --temperature 20C", "NaCl")]
    [InlineData("salt --salt LiCl --temperature 10C", "20 to 40 °C")]
    [InlineData("salt --salt NaCl --temperature 60C", "0 to 40 °C")]
    [InlineData("hygrometer --point 75.5%=72% --point 70%=68% --reading 60%", "20 % apart")]
    [InlineData("hygrometer --point 33%=60% --point 75.5%=85% --reading 60%", "gain")]
    [InlineData("hygrometer --point 33%=36% --point 75%=73% --point 50%=50% --reading 60%", "one or two")]
    [InlineData("hygrometer --point 75.5% --reading 60%", "75.5%=73.0%")]
    [InlineData("pinhole --diameter 0um --length 0.2mm --temperature 25C", "above zero")]
    public void Refuses_what_is_impossible_and_says_what_to_do(string words, string told) =>
        Assert.Contains(told, Calc.Refused(words, 1), StringComparison.Ordinal);

    [Theory]
    [InlineData("")]
    [InlineData("nothing")]
    [InlineData("air --temperature 25C")]
    [InlineData("air --temperature 25C --humidity 60% --over steam")]
    [InlineData("air --temperature 25C --humidity 60% --pressure 95461Pa --altitude 500m")]
    [InlineData("mkt")]
    [InlineData("mkt --temperature 20C --file x.csv")]
    [InlineData("isotherm --leaf burley")]
    [InlineData("isotherm --leaf burley --humidity 75% --moisture 18%")]
    [InlineData("film --test 38C/90% --area 300cm2 --temperature 20C")]
    [InlineData("film --water 0.9 --oxygen 150 --test 38C/90% --area 300cm2 --temperature 20C")]
    [InlineData("film --water 0.9 --test 38C/90% --area 300cm2 --temperature 20C --inside 65%")]
    [InlineData("film --oxygen 150 --test 23C/0% --area 300cm2 --temperature 20C --inside 65%")]
    [InlineData("strip --turns 2 --stretch 2")]
    [InlineData("strip --diameter 80mm --sides 110mmx80mm --turns 2 --stretch 2")]
    [InlineData("hygrometer --reading 60%")]
    public void Wrong_usage_exits_2(string words) => Calc.Refused(words, 2);
}
