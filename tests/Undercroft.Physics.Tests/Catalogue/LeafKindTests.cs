using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Catalogue;

public class LeafKindTests
{
    // Fit check, no evidence: points that the curves were fitted to. [Kim2004]: 13 % at the humidity in balance, ± 3 points.
    [Theory]
    [InlineData("flue-cured", 57.5)]
    [InlineData("burley", 61.5)]
    [InlineData("oriental", 61.0)]
    [InlineData("expanded", 59.5)]
    [InlineData("reconstituted", 58.0)]
    [InlineData("stem", 52.5)]
    public void Gives_Kim2004_points_it_was_fitted_to(string code, double humidity)
    {
        var kind = LeafKinds.Find(code)!;
        Assert.Equal(humidity, kind.Isotherm.ActivityAt(Moisture.FromWetBasisPercent(13)).AsEquilibriumHumidity.Percent, 3.0);
        Assert.True(kind.Evidence.Fitted);
    }

    // Fit check, no evidence: [Mutasa1990], read as wet basis. The bands towards dry are the same points read as dry basis.
    [Theory]
    [InlineData("burley", 0.75, 18, 1.5, 1.5)]
    [InlineData("burley", 0.85, 24, 1.5, 1.5)]
    [InlineData("flue-cured", 0.75, 22, 4, 1.5)]
    [InlineData("flue-cured", 0.85, 31, 8, 1.5)]
    public void Gives_Mutasa1990_points_it_was_fitted_to(string code, double activity, double percent, double below, double above) =>
        Assert.InRange(LeafKinds.Find(code)!.Isotherm.MoistureAt(new(activity)).WetBasisPercent, percent - below, percent + above);

    // [Kim2004], humidity in balance with 13 % at 5 and 40 °C. Used for the heats of sorption, so a fit check: the ratio must come back to 1 %.
    [Theory]
    [InlineData("flue-cured", 54, 61)]
    [InlineData("burley", 58, 65)]
    [InlineData("oriental", 58, 64)]
    public void Gives_Kim2004_span_over_temperature(string code, double at5, double at40)
    {
        double Humidity(double celsius) =>
            100 * SorptionShift.ActivityAt(LeafKinds.Find(code)!.Isotherm, Moisture.FromWetBasisPercent(13), Temperature.FromCelsius(celsius)).Fraction;
        Assert.Equal(at40 / at5, Humidity(40) / Humidity(5), at40 / at5 * 0.01);
    }

    [Fact]
    public void Humectant_holds_more_water_at_the_same_activity()
    {
        foreach (var activity in new[] { 0.5, 0.6, 0.7 })
        {
            double Percent(string code) => LeafKinds.Find(code)!.Isotherm.MoistureAt(new(activity)).WetBasisPercent;
            Assert.True(Percent("aromatic") > Percent("cavendish") && Percent("cavendish") > Percent("mixture"));
        }
    }

    [Fact]
    public void Trade_names_are_found_and_what_is_borrowed_says_so()
    {
        Assert.Equal("flue-cured", LeafKinds.Find("Virginia")!.Code);
        Assert.Equal("mixture", LeafKinds.Find("unknown")!.Code);
        Assert.Null(LeafKinds.Find("cabbage"));
        Assert.Equal("burley", LeafKinds.Nearest("burly")[0]);
        Assert.All(LeafKinds.All, kind => Assert.NotEqual(Provenance.Published, kind.Evidence.Provenance));
        Assert.All(new[] { "dark", "smoke-cured", "cavendish", "aromatic" }, code => Assert.Equal(Provenance.Assumption, LeafKinds.Find(code)!.Evidence.Provenance));
        Assert.All(LeafKinds.All, kind => Assert.InRange(kind.ScaleLogSd, 0.1, 0.3));
    }

    // [Min1993]: cut tobacco packs at 200 kg/m³.
    [Fact]
    public void Cut_tobacco_of_Min1993_lies_within_the_cuts()
    {
        var ribbon = Cuts.Find("ribbon")!;
        Assert.InRange(200, ribbon.Low, ribbon.High);
        Assert.All(Cuts.All, cut => Assert.True(0 < cut.Low && cut.Low < cut.Typical && cut.Typical < cut.High));
    }

    // Common practice: grams in a jar, whole numbers as the trade's table prints them.
    [Theory]
    [InlineData("ribbon", 118.3, 22, 26, 31)]
    [InlineData("ribbon", 236.6, 44, 53, 62)]
    [InlineData("ribbon", 473.2, 88, 106, 123)]
    [InlineData("flake", 236.6, 88, 110, 132)]
    [InlineData("plug", 473.2, 264, 330, 418)]
    [InlineData("broken-flake", 946.4, 246, 308, 396)]
    public void Jars_hold_the_grams_of_practice(string code, double millilitres, double low, double typical, double high)
    {
        var cut = Cuts.Find(code)!;
        var capacity = Volume.FromMillilitres(millilitres);
        Assert.Equal(typical, cut.TypicalIn(capacity).Grams, 0.6);
        Assert.Equal(low, cut.RangeIn(capacity).Low.Grams, 0.6);
        Assert.Equal(high, cut.RangeIn(capacity).High.Grams, 0.6);
    }

    [Fact]
    public void Rooms_are_guesses_and_wide()
    {
        Assert.Equal("cellar", RoomKinds.Nearest("celar")[0]);
        Assert.NotNull(RoomKinds.Find("unknown"));
        Assert.All(RoomKinds.All, room =>
        {
            Assert.Equal(Provenance.Assumption, room.Evidence.Provenance);
            Assert.True(room.MeanCelsius.Sd >= 1 && room.MeanHumidity.Sd >= 5);
            Assert.InRange(room.MeanHumidity.Middle + Math.Abs(room.AnnualHumiditySwing.Middle), 20, 90);
        });
    }
}
