using CsCheck;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Quantities;

public sealed class QuantityTextTests
{
    private static readonly Dictionary<string, QuantityText> Dimensions = new()
    {
        ["mass"] = QuantityText.OfMass,
        ["volume"] = QuantityText.OfVolume,
        ["length"] = QuantityText.OfLength,
        ["area"] = QuantityText.OfArea,
        ["pressure"] = QuantityText.OfPressure,
        ["temperature"] = QuantityText.OfTemperature,
        ["percent"] = QuantityText.OfPercent,
    };

    public static TheoryData<string, string> EveryUnit
    {
        get
        {
            var data = new TheoryData<string, string>();
            foreach (var (name, dimension) in Dimensions)
            {
                foreach (var unit in dimension.Units)
                    data.Add(name, unit);
            }

            return data;
        }
    }

    /// <summary>Factors are exact by definition (international yard and pound, US gallon of 231 cubic inches), inHg is conventional.</summary>
    [Theory]
    [InlineData("mass", "50g", 0.05)]
    [InlineData("mass", "2oz", 0.05669904625)]
    [InlineData("mass", "1lb", 0.45359237)]
    [InlineData("mass", "2 oz.", 0.05669904625)]
    [InlineData("mass", "0,5 kg", 0.5)]
    [InlineData("mass", "1500,5g", 1.5005)]
    [InlineData("mass", "0,125kg", 0.125)]
    [InlineData("mass", "1234,567g", 1.234567)]
    [InlineData("mass", ".5g", 0.0005)]
    [InlineData("mass", "1e3 mg", 0.001)]
    [InlineData("mass", "50\u00A0g", 0.05)]
    [InlineData("mass", "\u202F50\u202Fg ", 0.05)]
    [InlineData("mass", "\u22125g", -0.005)]
    [InlineData("volume", "473ml", 473e-6)]
    [InlineData("volume", "16 fl oz", 473.176473e-6)]
    [InlineData("volume", "16 fl. oz.", 473.176473e-6)]
    [InlineData("volume", "16floz", 473.176473e-6)]
    [InlineData("volume", "1L", 1e-3)]
    [InlineData("length", "80mm", 0.08)]
    [InlineData("length", "3.15in", 0.08001)]
    [InlineData("length", "10\u03BCm", 1e-5)]
    [InlineData("length", "1500m", 1500)]
    [InlineData("area", "300cm2", 0.03)]
    [InlineData("area", "300 cm²", 0.03)]
    [InlineData("pressure", "95461Pa", 95461)]
    [InlineData("pressure", "15inHg", 50795.835)]
    [InlineData("temperature", "20C", 293.15)]
    [InlineData("temperature", "68F", 293.15)]
    [InlineData("temperature", "-40°F", 233.15)]
    [InlineData("temperature", "20 \u00BAC", 293.15)]
    [InlineData("temperature", "20\u2103", 293.15)]
    [InlineData("temperature", "68\u2109", 293.15)]
    [InlineData("temperature", "\u221240°C", 233.15)]
    [InlineData("percent", "65%", 0.65)]
    [InlineData("percent", "65 \uFF05", 0.65)]
    public void Reads_what_people_write(string dimension, string text, double si) => Assert.Equal(si, Dimensions[dimension].Read(text));

    [Theory]
    [InlineData("mass", "1,500g", "1500")]
    [InlineData("mass", "1,500g", "1.500")]
    [InlineData("mass", "-12,500 g", "-12500")]
    [InlineData("length", "2,000m", "2000")]
    [InlineData("mass", "50", "no unit")]
    [InlineData("mass", "50ml", "'ml' is not a unit of mass")]
    [InlineData("mass", "fifty g", "is not a mass")]
    [InlineData("mass", "", "is not a mass")]
    [InlineData("mass", "g", "is not a mass")]
    [InlineData("mass", "1 500 g", "is not a mass")]
    [InlineData("mass", "1,500,000g", "is not a mass")]
    [InlineData("mass", "1.5.5g", "is not a mass")]
    [InlineData("mass", "NaNg", "is not a mass")]
    [InlineData("mass", "1e999g", "beyond any size")]
    [InlineData("mass", "1e99999999999g", "beyond any size")]
    [InlineData("pressure", "1e308psi", "beyond any size")]
    [InlineData("mass", "\u0661\u0662g", "is not a mass")]
    [InlineData("temperature", "20", "no unit")]
    [InlineData("percent", "0.65", "no unit")]
    public void Refuses_what_could_mean_anything(string dimension, string text, string told)
    {
        Assert.Null(Dimensions[dimension].TryRead(text, out var why));
        Assert.Contains(told, why, StringComparison.Ordinal);
    }

    [Fact]
    public void Names_the_accepted_units_when_one_is_missing()
    {
        Assert.Null(QuantityText.OfMass.TryRead("50", out var why));
        Assert.All(QuantityText.OfMass.Units, unit => Assert.Contains(unit, why, StringComparison.Ordinal));
    }

    [Fact]
    public void Does_not_repeat_an_endless_text()
    {
        Assert.Null(QuantityText.OfMass.TryRead(new string('9', 100_000) + "g", out var why));
        Assert.True(why.Length < 300);
    }

    [Theory]
    [MemberData(nameof(EveryUnit))]
    public void Printing_reads_back_to_the_same_value(string dimension, string unit)
    {
        var text = Dimensions[dimension];
        Gen.Select(Gen.Double[-12, 9], Gen.Bool).Select((power, negative) => (negative ? -1 : 1) * Math.Pow(10, power)).Holds(
            si => text.Read(text.Print(si, unit)) == si);
    }

    [Theory]
    [MemberData(nameof(EveryUnit))]
    public void Round_numbers_print_as_they_were_written(string dimension, string unit)
    {
        var text = Dimensions[dimension];
        for (var tenths = -500; tenths <= 5000; tenths += 7)
        {
            var written = (tenths / 10m).ToString("0.#", System.Globalization.CultureInfo.InvariantCulture) + unit;
            Assert.Equal(written, text.Print(text.Read(written), unit));
        }
    }

    [Fact]
    public void A_value_carried_through_every_unit_does_not_drift()
    {
        foreach (var dimension in Dimensions.Values)
        {
            var si = dimension.Read("37.3" + dimension.Units.First());
            var carried = si;
            for (var turn = 0; turn < 20; turn++)
            {
                foreach (var unit in dimension.Units)
                    carried = dimension.Read(dimension.Print(carried, unit));
            }

            Assert.Equal(si, carried);
        }
    }

    [Fact]
    public void Never_throws_on_anything_written() => Gen.String.Holds(
        text =>
        {
            foreach (var dimension in Dimensions.Values)
            {
                if (dimension.TryRead(text, out var why) is null == (why.Length == 0))
                    return false;
            }

            return true;
        });

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.NegativeInfinity)]
    public void Refuses_to_print_what_is_no_number(double si) => Assert.Throws<ArgumentOutOfRangeException>(() => QuantityText.OfMass.Print(si, "g"));

    [Fact]
    public void Refuses_to_print_in_an_unknown_unit() => Assert.Throws<ArgumentException>(() => QuantityText.OfMass.Print(1, "ml"));
}
