using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Leaf;

/// <summary>Water that brings leaf from one moisture to another.</summary>
/// <remarks>
/// <para><b>Equation</b> Δm = m (w₂ − w₁)/(1 − w₂) on wet basis, that is m_dry (X₂ − X₁).</para>
/// <para><b>Source</b> the definition of moisture: the dry mass stays.</para>
/// <para><b>Valid</b> any moisture below 100 %.</para>
/// <para><b>Error</b> none of its own; oven moisture counts other volatiles as water.</para>
/// </remarks>
public static class WaterToAdd
{
    /// <summary>Positive to add, negative to lose.</summary>
    /// <param name="leaf">Mass with its water, above zero.</param>
    /// <param name="from">Moisture now.</param>
    /// <param name="to">Moisture wanted.</param>
    /// <exception cref="ArgumentOutOfRangeException">Mass not above zero, or a moisture negative or not finite.</exception>
    public static Mass Of(Mass leaf, Moisture from, Moisture to)
    {
        if (leaf.Kilograms is not (> 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(leaf), leaf.Kilograms, "A mass of leaf is above zero.");
        return leaf * ((Checked(to) - Checked(from)) / (1 + from.DryBasis));
    }

    private static double Checked(Moisture moisture) => moisture.DryBasis is >= 0 and < double.PositiveInfinity
        ? moisture.DryBasis
        : throw new ArgumentOutOfRangeException(nameof(moisture), moisture.DryBasis, "Moisture on dry basis is not negative and finite.");
}
