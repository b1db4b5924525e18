using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Air;

/// <summary>Pressure of the standard atmosphere by altitude.</summary>
/// <remarks>
/// <para><b>Equation</b> p = 101 325 Pa · (1 − 2.25577e-5 z)^5.2559, z in m.</para>
/// <para><b>Source</b> equation 3 of [Ashrae2017].</para>
/// <para><b>Valid</b> −5000 … 11 000 m.</para>
/// <para><b>Error</b> of the fit below 1 Pa; the weather moves the real pressure by ±3 %.</para>
/// </remarks>
public static class StandardAtmosphere
{
    /// <summary>The lowest altitude accepted.</summary>
    public static readonly Length Lowest = new(-5000);

    /// <summary>The highest altitude accepted.</summary>
    public static readonly Length Highest = new(11000);

    /// <summary>Pressure at an altitude above sea level.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not from −5000 to 11 000 m.</exception>
    public static Pressure At(Length altitude) => altitude >= Lowest && altitude <= Highest
        ? new(PhysicalConstants.StandardAtmosphere * Math.Pow(1 - (2.25577e-5 * altitude.Metres), 5.2559))
        : throw new ArgumentOutOfRangeException(nameof(altitude), altitude.Metres, "The standard atmosphere is known from −5000 to 11 000 m.");
}
