using CsCheck;
using Undercroft.Physics.Leaf;
using Xunit;

namespace Undercroft.Physics.Tests.Leaf;

public sealed class NorrishTests
{
    /// <summary>Source: K = 1.16 of table 3, Int. J. Dentistry 2010, art. 981072; the arithmetic of Norrish's equation to 0.002.</summary>
    [Fact]
    public void Half_glycerol_has_activity_0_811() => Assert.Equal(0.811, NorrishSolution.ActivityAt(0.5).Fraction, 0.002);

    /// <summary>Derived from the same constant: grams of water held by a gram of glycerol. Tolerance: half a unit of the last digit.</summary>
    [Theory]
    [InlineData(0.50, 0.295)]
    [InlineData(0.60, 0.410)]
    [InlineData(0.65, 0.489)]
    [InlineData(0.70, 0.593)]
    [InlineData(0.75, 0.734)]
    public void Water_held_by_glycerol(double activity, double gramPerGram) => Assert.Equal(gramPerGram, NorrishSolution.WaterPerHumectant(new(activity)), 0.0006);

    /// <summary>K = 0 is Raoult's law. Propylene glycol, 76.095 g/mol: derived values, half a unit of the last digit.</summary>
    [Theory]
    [InlineData(0.50, 0.237)]
    [InlineData(0.65, 0.440)]
    [InlineData(0.75, 0.710)]
    public void Raoult_is_the_limit_without_interaction(double activity, double gramPerGram) =>
        Assert.Equal(gramPerGram, NorrishSolution.WaterPerHumectant(new(activity), 0, 0.076095), 0.0006);

    [Fact]
    public void Pure_water_and_pure_glycerol_are_the_ends()
    {
        Assert.Equal(1, NorrishSolution.ActivityAt(0).Fraction);
        Assert.Equal(0, NorrishSolution.ActivityAt(1).Fraction);
        Assert.Equal(0, NorrishSolution.WaterPerHumectant(new(0)));
    }

    [Fact]
    public void Inverse_returns_the_mole_fraction() => Gen.Select(Gen.Double[1e-6, 1], Gen.Double[0, 6.47]).Holds(
        (mole, k) => Math.Abs(NorrishSolution.MoleFractionOf(NorrishSolution.ActivityOf(mole, k), k) - mole) <= 1e-12);

    /// <summary>Derived from the generic mixture and Norrish: 5 % of glycerol at activity 0.65 lifts 15.1 to 16.2 % on wet basis; half a unit of the last digit.</summary>
    [Fact]
    public void Five_percent_glycerol_lifts_the_moisture_by_a_point()
    {
        var leaf = new OswinIsotherm(0.1185, 0.66, SorptionShift.TypicalHeat);
        Assert.Equal(15.1, leaf.MoistureAt(new(0.65)).WetBasisPercent, 0.05);
        Assert.Equal(16.2, HumectantIsotherm.WithGlycerol(leaf, 0.05).MoistureAt(new(0.65)).WetBasisPercent, 0.05);
    }

    [Theory]
    [InlineData(-0.01)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    public void Refuses_an_impossible_share(double share) => Assert.Throws<ArgumentOutOfRangeException>(() => NorrishSolution.ActivityAt(share));

    [Theory]
    [InlineData(-0.01)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void Refuses_an_activity_that_no_finite_solution_has(double activity) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => NorrishSolution.WaterPerHumectant(new(activity)));
}
