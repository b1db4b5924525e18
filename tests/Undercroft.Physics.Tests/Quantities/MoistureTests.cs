using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Quantities;

public sealed class MoistureTests
{
    /// <summary>By definition, X = w/(1 − w); printed to 0.01.</summary>
    [Theory]
    [InlineData(13, 14.94)]
    [InlineData(14, 16.28)]
    [InlineData(18, 21.95)]
    [InlineData(20, 25.00)]
    public void Wet_and_dry_basis(double wetPercent, double dryPercent)
    {
        var moisture = Moisture.FromWetBasisPercent(wetPercent);
        Assert.Equal(dryPercent, 100 * moisture.DryBasis, 0.01);
        Assert.Equal(wetPercent, moisture.WetBasisPercent, 1e-12);
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(100)]
    [InlineData(double.NaN)]
    public void Refuses_leaf_that_is_all_water(double wetPercent) => Assert.Throws<ArgumentOutOfRangeException>(() => Moisture.FromWetBasisPercent(wetPercent));
}
