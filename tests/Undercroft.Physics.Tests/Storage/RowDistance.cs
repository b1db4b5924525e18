using Undercroft.Physics.Storage;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>The largest differences between two courses of one package.</summary>
/// <param name="Moisture">Percentage points on wet basis.</param>
/// <param name="Oxygen">kPa.</param>
/// <param name="CarbonDioxide">kPa.</param>
/// <param name="Total">kPa.</param>
public readonly record struct RowDistance(double Moisture, double Oxygen, double CarbonDioxide, double Total)
{
    public static RowDistance Between(IReadOnlyList<StorageRow> one, IReadOnlyList<StorageRow> other)
    {
        Assert.Equal(one.Count, other.Count);
        RowDistance worst = default;
        for (var i = 0; i < one.Count; i++)
        {
            Assert.Equal(one[i].Day, other[i].Day, 1e-9);
            worst = new(
                Math.Max(worst.Moisture, Math.Abs(one[i].Moisture.WetBasisPercent - other[i].Moisture.WetBasisPercent)),
                Math.Max(worst.Oxygen, Math.Abs(one[i].Oxygen.Pascals - other[i].Oxygen.Pascals) / 1000),
                Math.Max(worst.CarbonDioxide, Math.Abs(one[i].CarbonDioxide.Pascals - other[i].CarbonDioxide.Pascals) / 1000),
                Math.Max(worst.Total, Math.Abs(one[i].Total.Pascals - other[i].Total.Pascals) / 1000));
            Assert.False(double.IsNaN(worst.Moisture + worst.Oxygen + worst.CarbonDioxide + worst.Total));
        }

        return worst;
    }

    /// <summary>Within what the storage model asks of an integrator.</summary>
    public void AssertWithinTheModelsAccuracy()
    {
        Assert.True(Moisture <= 0.05, ToString());
        Assert.True(Oxygen <= 0.1, ToString());
        Assert.True(CarbonDioxide <= 0.1, ToString());
        Assert.True(Total <= 0.2, ToString());
    }
}
