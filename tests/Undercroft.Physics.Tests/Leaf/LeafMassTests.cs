using CsCheck;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Leaf;

public sealed class LeafMassTests
{
    /// <summary>Arithmetic: 50 g at 10 % hold 45 g dry; at 14 % that is 45/0.86 = 52.3256 g.</summary>
    [Theory]
    [InlineData(50, 10, 14, 2.325581395)]
    [InlineData(100, 20, 12, -9.090909091)]
    [InlineData(50, 13, 13, 0)]
    public void Water_that_keeps_the_dry_mass(double grams, double from, double to, double water) => Assert.Equal(
        water, WaterToAdd.Of(Mass.FromGrams(grams), Moisture.FromWetBasisPercent(from), Moisture.FromWetBasisPercent(to)).Grams, 1e-8);

    [Fact]
    public void Dry_mass_is_kept() => Gen.Select(Gen.Double[0.1, 5000], Gen.Double[0, 60], Gen.Double[0, 60]).Holds(
        (grams, from, to) =>
        {
            var water = WaterToAdd.Of(Mass.FromGrams(grams), Moisture.FromWetBasisPercent(from), Moisture.FromWetBasisPercent(to)).Grams;
            return Math.Abs(((grams + water) * (1 - (to / 100))) - (grams * (1 - (from / 100)))) <= 1e-12 * grams;
        });

    /// <summary>Arithmetic, given a dry density of 1.45 g/cm³ (from memory): 100 g at 13 % fill 73 ml, so a 473 ml jar keeps 400 ml of gas; 1 %.</summary>
    [Fact]
    public void Leaf_fills_its_solid_volume() =>
        Assert.Equal(400, 473 - LeafVolume.Of(Mass.FromGrams(100), Moisture.FromWetBasisPercent(13)).Millilitres, 4.0);

    [Fact]
    public void Refuses_impossible_masses()
    {
        var moisture = Moisture.FromWetBasisPercent(13);
        Assert.Throws<ArgumentOutOfRangeException>(() => WaterToAdd.Of(new(0), moisture, moisture));
        Assert.Throws<ArgumentOutOfRangeException>(() => WaterToAdd.Of(new(double.NaN), moisture, moisture));
        Assert.Throws<ArgumentOutOfRangeException>(() => WaterToAdd.Of(new(1), moisture, new(-0.1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => LeafVolume.Of(new(-1), moisture));
        Assert.Throws<ArgumentOutOfRangeException>(() => LeafVolume.Of(new(1), new(double.NaN)));
    }
}
