using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Leaf;

/// <summary>Volume that leaf and its water fill, pores not counted.</summary>
/// <remarks>
/// <para><b>Equation</b> V = m ((1 − w)/ρ_dry + w/ρ_water); the gas space of a container is the rest, pores included.</para>
/// <para><b>Source</b> volumes add; ρ_dry = 1450 kg/m³ from memory (1400–1500).</para>
/// <para><b>Valid</b> storage: time enough for gas to reach every pore.</para>
/// <para><b>Error</b> 4 % of the leaf's volume, by its density.</para>
/// </remarks>
public static class LeafVolume
{
    /// <summary>Density of dry leaf without pores, kg/m³; from memory.</summary>
    public const double DryDensity = 1450;

    /// <summary>Density of the water in it, kg/m³.</summary>
    public const double WaterDensity = 1000;

    /// <summary>Volume of leaf of a given mass, water included.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Mass or moisture negative or not finite.</exception>
    public static Volume Of(Mass leaf, Moisture moisture)
    {
        if (leaf.Kilograms is not (>= 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(leaf), leaf.Kilograms, "A mass is not negative.");
        if (moisture.DryBasis is not (>= 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(moisture), moisture.DryBasis, "Moisture on dry basis is not negative and finite.");
        var wet = moisture.WetBasis;
        return new(leaf.Kilograms * (((1 - wet) / DryDensity) + (wet / WaterDensity)));
    }
}
