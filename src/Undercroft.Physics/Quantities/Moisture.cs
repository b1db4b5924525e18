namespace Undercroft.Physics.Quantities;

/// <summary>Water content of leaf.</summary>
/// <param name="DryBasis">kg of water per kg of dry mass (X).</param>
/// <remarks>
/// People and the trade speak of wet basis, water over total mass, in percent: <see cref="WetBasisPercent"/>.
/// The sum that the model solves is written on dry basis, since the dry mass does not change.
/// </remarks>
public readonly record struct Moisture(double DryBasis)
{
    /// <summary>Water over total mass, 0 to 1.</summary>
    public double WetBasis => DryBasis / (1 + DryBasis);

    /// <summary>Water over total mass in percent.</summary>
    public double WetBasisPercent => 100 * WetBasis;

    /// <summary>From water over total mass.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not in [0, 1): leaf that is all water is no leaf.</exception>
    public static Moisture FromWetBasis(double fraction) => fraction is >= 0 and < 1
        ? new(fraction / (1 - fraction))
        : throw new ArgumentOutOfRangeException(nameof(fraction), fraction, "Moisture on wet basis lies from 0 up to, but not including, 1.");

    /// <summary>From water over total mass in percent.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not in [0, 100).</exception>
    public static Moisture FromWetBasisPercent(double percent) => FromWetBasis(percent / 100);
}
