using Undercroft.Physics.Climate.Exposures;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Climate;

public sealed class InsectAndColdTests
{
    /// <summary>Source: Tobacco Science 1976, 20:165: eggs of L. serricorne hatch 1.0–1.1 % at 15.6 °C and 57.6–59.1 % at 18.3 °C: the band must part the two.</summary>
    [Fact]
    public void Egg_hatching_of_1976_parts_the_bands()
    {
        Assert.Equal(InsectBand.CouldDevelop, InsectDevelopment.BandAt(Temperature.FromCelsius(15.6)));
        Assert.Equal(InsectBand.Develops, InsectDevelopment.BandAt(Temperature.FromCelsius(18.3)));
    }

    /// <summary>Source: Purdue E-239: larvae are dormant below 60 °F (15.6 °C), and eggs take up to 22 d at 20 °C: a whole cycle there is longer than its egg.</summary>
    [Fact]
    public void Purdue_E239_facts_agree_with_the_line()
    {
        Assert.Equal(InsectBand.Dormant, InsectDevelopment.BandAt(Temperature.FromFahrenheit(58)));
        Assert.True(InsectDevelopment.CycleDays(Temperature.FromCelsius(20)) > 22);
        Assert.True(InsectDevelopment.CycleDays(Temperature.FromCelsius(35)) > 6);
    }

    [Fact]
    public void Below_the_threshold_nothing_ends() => Assert.Equal(double.PositiveInfinity, InsectDevelopment.CycleDays(Temperature.FromCelsius(14)));

    /// <summary>Single sine, own computation (regression); the mean method would give 3.0 for the first.</summary>
    [Theory]
    [InlineData(10, 26, 15, 4.2277)]
    [InlineData(16, 24, 15, 5.0)]
    [InlineData(12, 14, 15, 0)]
    public void Degree_days_keep_their_computed_values(double low, double high, double threshold, double expected) =>
        Assert.Equal(expected, InsectDevelopment.DegreeDays(low, high, threshold), 1e-4);

    /// <summary>
    /// Source: Collins et al., larvae in diapause die within 1 d at −20, 3 d at −15, 22 d at −10 °C; eggs within 7 h at −10 °C. The rule must never ask for less than the hardiest stage,
    /// and what lies between two points must lie between their days.
    /// </summary>
    [Fact]
    public void Cold_mortality_facts_are_never_undercut()
    {
        Assert.True(ColdKill.DaysAt(Temperature.FromCelsius(-10)) >= 22 - 1e-6);
        Assert.True(ColdKill.DaysAt(Temperature.FromCelsius(-10)) > 7.0 / 24);
        Assert.InRange(ColdKill.DaysAt(Temperature.FromCelsius(-17.6))!.Value, 1, 3);
        Assert.InRange(ColdKill.DaysAt(Temperature.FromCelsius(-12))!.Value, 3, 22);
        Assert.Null(ColdKill.DaysAt(Temperature.FromCelsius(-5)));
        Assert.True(ColdKill.DaysAt(Temperature.FromCelsius(-40)) >= 1);
    }

    /// <summary>Source: Bergh 2003, ~50 h below −17.6 °C killed larvae of seven museum species: what the rule holds at that core, once doubled as a plan does, is no shorter.</summary>
    [Fact]
    public void Bergh2003_is_not_undercut_by_a_plan() => Assert.True(2 * 24 * ColdKill.DaysAt(Temperature.FromCelsius(-17.6)) >= 50);

    /// <summary>Source: Incropera, Table 5.1, first-term coefficients for Bi = 0.1, 1 and 10; from memory.</summary>
    [Theory]
    [InlineData(0.1, 0.3111, 1.0161)]
    [InlineData(1, 0.8603, 1.1191)]
    [InlineData(10, 1.4289, 1.2620)]
    public void Matches_Incropera_Table5_1_plane(double biot, double zeta, double c)
    {
        var found = CoreCooling.Plane(biot);
        Assert.Equal(zeta, found.Zeta, 1e-4);
        Assert.Equal(c, found.C, 2e-4);
    }

    /// <summary>The same table, infinite cylinder; from memory.</summary>
    [Theory]
    [InlineData(0.1, 0.4417, 1.0246)]
    [InlineData(1, 1.2558, 1.2071)]
    [InlineData(10, 2.1795, 1.5677)]
    public void Matches_Incropera_Table5_1_cylinder(double biot, double zeta, double c)
    {
        var found = CoreCooling.Cylinder(biot);
        Assert.Equal(zeta, found.Zeta, 1e-4);
        Assert.Equal(c, found.C, 2e-4);
    }

    /// <summary>A small Biot number is a lump: θ = exp(−hAt/(mc)), within 3 % at Bi = 0.025.</summary>
    [Fact]
    public void A_small_pack_cools_as_a_lump()
    {
        PackShape pack = new(Length.FromMillimetres(10), null, Length.FromMillimetres(10), Mass.FromGrams(0.25), 0.13);
        const double H = 0.3;
        var hours = CoreCooling.Hours(pack, Temperature.FromCelsius(20), Temperature.FromCelsius(-20), Temperature.FromCelsius(-15), H);
        var area = (Math.PI * 0.01 * 0.01) + (2 * Math.PI / 4 * 0.01 * 0.01);
        var lump = 0.00025 * ((1340 * 0.87) + (4190 * 0.13)) / (H * area) * Math.Log(40.0 / 5) / 3600;
        Assert.Equal(lump, hours, 0.03 * lump);
    }

    [Fact]
    public void Bigger_and_denser_packs_take_longer()
    {
        double Hours(double across, double grams) => CoreCooling.Hours(
            new(Length.FromMillimetres(across), null, Length.FromMillimetres(120), Mass.FromGrams(grams), 0.14), Temperature.FromCelsius(20), Temperature.FromCelsius(-20), Temperature.FromCelsius(-19));
        Assert.True(Hours(80, 100) < Hours(80, 200));
        Assert.True(Hours(80, 100) < Hours(160, 400));
        Assert.InRange(Hours(80, 100), 1, 12); // a jar: hours, not days
    }

    [Fact]
    public void A_core_never_reaches_the_air_itself() => Assert.Throws<ArgumentOutOfRangeException>(() => CoreCooling.Hours(
        new(Length.FromMillimetres(80), null, Length.FromMillimetres(120), Mass.FromGrams(100), 0.14), Temperature.FromCelsius(20), Temperature.FromCelsius(-18), Temperature.FromCelsius(-18)));
}
