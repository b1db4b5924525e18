using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Leaf;

/// <summary>
/// FIT CHECKS, not evidence: the constants were derived from these very points (Kim 2004 at 13 % moisture, Mutasa 1990 at activity 0.75 and 0.85, both read as wet basis).
/// </summary>
public sealed class LeafAnchorTests
{
    private static readonly OswinIsotherm FlueCured = new(0.1232, 0.748, SorptionShift.TypicalHeat);
    private static readonly OswinIsotherm Burley = new(0.1141, 0.589, SorptionShift.TypicalHeat);
    private static readonly GabIsotherm FlueCuredGab = new(0.0719, 10, 0.994, SorptionShift.TypicalHeat);
    private static readonly GabIsotherm BurleyGab = new(0.0699, 10, 0.924, SorptionShift.TypicalHeat);

    public static TheoryData<Isotherm, double> Kim => new()
    {
        { FlueCured, 57.5 },
        { FlueCuredGab, 57.5 },
        { Burley, 61.5 },
        { BurleyGab, 61.5 },
    };

    /// <summary>Kim et al. 2004: 13 % moisture at 22 °C (between the 5 and 40 °C printed) balances 57.5 %RH (flue-cured, US) and 61.5 %RH (burley); ±3 points.</summary>
    [Theory]
    [MemberData(nameof(Kim))]
    public void Fits_Kim2004_at_13_percent(Isotherm isotherm, double humidityPercent) =>
        Assert.Equal(humidityPercent, 100 * isotherm.ActivityAt(Moisture.FromWetBasisPercent(13)).Fraction, 3.0);

    /// <summary>Mutasa, Seal and Magan 1990: burley 18 and 24 % at activity 0.75 and 0.85; ±1.5 points.</summary>
    [Theory]
    [InlineData(0.75, 18)]
    [InlineData(0.85, 24)]
    public void Fits_Mutasa1990_burley(double activity, double wetBasisPercent)
    {
        Assert.Equal(wetBasisPercent, Burley.MoistureAt(new(activity)).WetBasisPercent, 1.5);
        Assert.Equal(wetBasisPercent, BurleyGab.MoistureAt(new(activity)).WetBasisPercent, 1.5);
    }

    /// <summary>Same source: Virginia 22 and 31 %; the band reaches 4 and 8 points down, where the figures would be dry basis.</summary>
    [Theory]
    [InlineData(0.75, 22, 4)]
    [InlineData(0.85, 31, 8)]
    public void Fits_Mutasa1990_virginia(double activity, double wetBasisPercent, double below)
    {
        Assert.InRange(FlueCured.MoistureAt(new(activity)).WetBasisPercent, wetBasisPercent - below, wetBasisPercent + 1.5);
        Assert.InRange(FlueCuredGab.MoistureAt(new(activity)).WetBasisPercent, wetBasisPercent - below, wetBasisPercent + 1.5);
    }

    /// <summary>FIT CHECK of the derivation page: how far the two Oswin curves miss the three points each was derived from, in percent of X (rounded to 0.1).</summary>
    [Theory]
    [InlineData(0.575, 13, 3.4, false)]
    [InlineData(0.75, 22, -0.7, false)]
    [InlineData(0.85, 31, 0.4, false)]
    [InlineData(0.615, 13, 0.6, true)]
    [InlineData(0.75, 18, -0.7, true)]
    [InlineData(0.85, 24, 0.4, true)]
    public void Misses_of_the_fit_are_as_documented(double activity, double wetBasisPercent, double missPercent, bool burley)
    {
        var point = Moisture.FromWetBasisPercent(wetBasisPercent).DryBasis;
        Assert.Equal(missPercent, 100 * (((burley ? Burley : FlueCured).MoistureAt(new(activity)).DryBasis / point) - 1), 0.06);
    }

    /// <summary>Jin et al. 1981, sign only: above activity 0.50 flue-cured leaf holds more than burley.</summary>
    [Theory]
    [InlineData(0.55)]
    [InlineData(0.70)]
    [InlineData(0.85)]
    public void Flue_cured_holds_more_than_burley_above_one_half(double activity) =>
        Assert.True(FlueCured.MoistureAt(new(activity)).DryBasis > Burley.MoistureAt(new(activity)).DryBasis);

    /// <summary>
    /// KnownDeviation: below activity 0.50 Jin et al. 1981 saw burley hold more. The Oswin pair was fitted from 0.50 up and crosses only near 0.38,
    /// so between the two it has the order wrong. Kept so that a better fit shows up here.
    /// </summary>
    [Fact]
    public void KnownDeviation_order_of_leaf_just_below_one_half()
    {
        Assert.True(FlueCured.MoistureAt(new(0.45)).DryBasis > Burley.MoistureAt(new(0.45)).DryBasis);
        Assert.True(FlueCured.MoistureAt(new(0.30)).DryBasis < Burley.MoistureAt(new(0.30)).DryBasis);
    }

    /// <summary>Derived, by Clausius and Clapeyron from Kim 2004: about +0.2 points of humidity per °C at 60 % in a sealed jar.</summary>
    [Fact]
    public void Sealed_jar_rises_about_a_fifth_of_a_point_per_degree()
    {
        var moisture = FlueCured.MoistureAt(new(0.60));
        var warm = SorptionShift.ActivityAt(FlueCured, moisture, Temperature.FromCelsius(23)).Fraction;
        var cool = SorptionShift.ActivityAt(FlueCured, moisture, Temperature.FromCelsius(21)).Fraction;
        Assert.Equal(0.2, 100 * (warm - cool) / 2, 0.02);
        Assert.Equal(0.60, SorptionShift.ActivityAt(FlueCured, moisture, Temperature.FromCelsius(22)).Fraction, 1e-12);
    }

    /// <summary>Derived: q from 49–56 … 58–65 %RH of Kim 2004 between 5 and 40 °C, R ln(a2/a1)/(1/T1 − 1/T2); flue-cured (US) 2522, burley 2358, oriental 2037 J/mol.</summary>
    [Theory]
    [InlineData(54, 61, 2522)]
    [InlineData(58, 65, 2358)]
    [InlineData(58, 64, 2037)]
    public void Shift_carries_Kim2004_from_5_to_40(double cold, double warm, double heat)
    {
        var ratio = SorptionShift.Factor(heat, Temperature.FromCelsius(40)) / SorptionShift.Factor(heat, Temperature.FromCelsius(5));
        Assert.Equal(warm / cold, ratio, 1e-3);
    }
}
