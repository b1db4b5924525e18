using Undercroft.Shell.Web;
using Xunit;

namespace Undercroft.Tests.Serving;

/// <summary>The page's words in ounces and degrees Fahrenheit. Expected values worked by hand from 1 oz = 28.349523125 g, 1 psi = 6.894757 kPa, °F = 1.8 °C + 32.</summary>
public class OwnUnitsTests
{
    [Theory]
    [InlineData("acts like a steady 20 °C", "acts like a steady 68 °F")]
    [InlineData("the usual aim of 15 to 21 °C.", "the usual aim of 59 to 70 °F.")]
    [InlineData("−18 °C or colder", "0 °F or colder")]
    [InlineData("24.5 °C (22.0 to 27.0), humid", "76.1 °F (71.6 to 80.6), humid")]
    [InlineData("20.0 ± 2.5 °C, 55 ± 5 % humidity", "68 ± 4.5 °F, 55 ± 5 % humidity")]
    [InlineData("within 1 °C all the time", "within 1.8 °F all the time")]
    [InlineData("a day swings 3.0 K", "a day swings 5.4 °F")]
    [InlineData("it halves every 10 K", "it halves every 18 °F")]
    [InlineData("Add about 2.5 g of water (1.9 to 3.1 g)", "Add about 0.088 oz of water (0.067 to 0.11 oz)")]
    [InlineData("JAR: weighed, 512.3 g.", "JAR: weighed, 18.07 oz.")]
    [InlineData("12.5 kg by the book", "27.6 lb by the book")]
    [InlineData("1\u00a0234.5\u00a0g of it", "43.546\u00a0oz of it")]
    [InlineData("nothing to 0 g", "nothing to 0 oz")]
    [InlineData("~6g taken, at 20g..30g a week", "~0.21oz taken, at 0.71oz..1.1oz a week")]
    [InlineData("101.3 kPa outside", "14.69 psi outside")]
    [InlineData("up to −0.5 kPa", "up to −0.073 psi")]
    [InlineData("a container of 118 ml should hold", "a container of 3.99 fl oz should hold")]
    [InlineData("its dome was 3 mm high", "its dome was 0.12 in high")]
    [InlineData("takes 0.62 l of shelf", "takes 0.655 qt of shelf")]
    [InlineData("2 × double-seamed tin with pull-tab, 100 g, 200 g in all", "2 × double-seamed tin with pull-tab, 100 g, 7.05 oz in all")]
    [InlineData("glass jar 237 ml (8 fl oz) with flat lid and band, 20 g in it", "glass jar 237 ml (8 fl oz) with flat lid and band, 0.71 oz in it")]
    [InlineData("6457–6458 g of it", "227.8 oz of it")]
    public void Computed_sentences_are_turned(string metric, string imperial) => Assert.Equal(imperial, OwnUnits.Imperial(metric));

    [Theory]
    [InlineData("12 mg a day")]
    [InlineData("3 g/m³ of air; 5 g·m; mol/(s·Pa)")]
    [InlineData("a gram, a kilogram; 5 grams")]
    [InlineData("ABC20 g5")]
    public void Other_words_stay(string text) => Assert.Equal(text, OwnUnits.Imperial(text));

    [Theory]
    [InlineData("Such as 412.3g.", "Such as 14.54oz.")]
    [InlineData("Such as 612.3g or 21.6oz; the whole package, closed.", "Such as 612.3g or 21.6oz; the whole package, closed.")]
    [InlineData("20C or 68F", "20C or 68F")]
    [InlineData("about 20C", "about 68F")]
    [InlineData("Such as 50g, ~100g, 40g..60g.", "Such as 1.8oz, ~3.5oz, 1.4oz..2.1oz.")]
    [InlineData("Such as 486ml.", "Such as 16.4fl oz.")]
    [InlineData("Such as 4mm over the rim.", "Such as 0.16in over the rim.")]
    [InlineData("Such as 38C/90%.", "Such as 38C/90%.")]
    public void Examples_of_typing_are_turned_where_they_show_one_unit_only(string metric, string imperial) => Assert.Equal(imperial, OwnUnits.ImperialExample(metric));

    [Fact]
    public void A_chart_is_turned_with_its_lines_and_measurements()
    {
        var series = new BandSeries("Temperature", "°C", new(2026, 1, 1), [0, 7], [10, null], [20, 21], [30, 31], [new(-1, 15, "logged")], [new(21, "usual aim up to 21 °C")]);
        var turned = OwnUnits.Imperial(series);
        Assert.Equal(("°F", 50.0, (double?)null, 68.0), (turned.Unit, turned.P5[0]!.Value, turned.P5[1], turned.P50[0]!.Value));
        Assert.Equal((59.0, "usual aim up to 70 °F"), (turned.Measured[0].Value, turned.Limits[0].Name));
        Assert.Equal(69.8, turned.Limits[0].Value, 9);
        Assert.Same(series.Days, turned.Days);
        var humid = series with { Unit = "%" };
        Assert.Same(humid, OwnUnits.Imperial(humid));
    }

    [Theory]
    [InlineData("21.6", true, "21.6oz")]
    [InlineData("21,6", true, "21,6oz")]
    [InlineData("612 g", true, "612 g")]
    [InlineData("612", false, "612g")]
    [InlineData("~612", false, "~612")]
    [InlineData(null, true, null)]
    public void A_bare_number_on_a_scale_is_one_of_the_unit_beside_it(string? typed, bool imperial, string? meant) => Assert.Equal(meant, new Visit { Imperial = imperial }.Massed(typed));
}
