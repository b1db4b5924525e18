using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Air;

/// <summary>Force of a pressure difference on a round lid.</summary>
/// <remarks>
/// <para><b>Equation</b> F = Δp·π·d²/4.</para>
/// <para><b>Source</b> Definition of pressure.</para>
/// <para><b>Valid</b> A flat lid; d across the seal, not the rim.</para>
/// <para><b>Error</b> That of the diameter, twice over.</para>
/// </remarks>
public static class LidForce
{
    /// <summary>In newtons; outwards above zero.</summary>
    /// <param name="difference">Inside less outside.</param>
    /// <param name="diameter">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A diameter not above zero, or a difference that is not finite.</exception>
    public static double Newtons(Pressure difference, Length diameter)
    {
        if (diameter.Metres is not (> 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(diameter), diameter.Metres, "A diameter is above zero.");
        return double.IsFinite(difference.Pascals)
            ? difference.Pascals * Math.PI * diameter.Metres * diameter.Metres / 4
            : throw new ArgumentOutOfRangeException(nameof(difference), difference.Pascals, "A difference of pressure is finite.");
    }
}
