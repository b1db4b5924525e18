using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate.Years;

/// <summary>Temperature of undisturbed ground below a surface that follows the year: what a cellar leans on.</summary>
/// <remarks>
/// <para><b>Equation</b> T(z, t) = Tm − A exp(−z √(π/(aτ))) cos[(2π/τ)(t − t₀ − (z/2) √(τ/(πa)))], τ = 365 d.</para>
/// <para><b>Source</b> [KusudaAchenbach1965] in the form that [EnergyPlus] carries.</para>
/// <para><b>Valid</b> flat open ground of one kind, no running water, no house above it: under a heated house the ground is warmer.</para>
/// <para><b>Error</b> diffusivity of soils runs from 2e-7 (dry) to 1e-6 m²/s (rock, wet sand): the damping depth then from 1.4 to 3.2 m.</para>
/// </remarks>
public static class GroundTemperature
{
    /// <summary>Diffusivity where nobody knows the soil, m²/s: moist loam, from memory.</summary>
    public const double UsualDiffusivity = 6e-7;

    private const double Year = 365 * 86400.0;

    /// <summary>Share of the surface's yearly swing that is left at a depth.</summary>
    public static double Damping(Length depth, double diffusivity = UsualDiffusivity) => Math.Exp(-Checked(depth).Metres * Math.Sqrt(Math.PI / (Positive(diffusivity) * Year)));

    /// <summary>Days by which the year comes later at a depth.</summary>
    public static double LagDays(Length depth, double diffusivity = UsualDiffusivity) =>
        Checked(depth).Metres / 2 * Math.Sqrt(Year / (Math.PI * Positive(diffusivity))) / 86400;

    /// <summary>The temperature at a depth and time.</summary>
    /// <param name="mean">Of the surface over the year.</param>
    /// <param name="swing">Half of warmest minus coldest at the surface, K.</param>
    /// <param name="depth">Not negative.</param>
    /// <param name="day">Of the year.</param>
    /// <param name="coldestDay">Of the surface.</param>
    /// <param name="diffusivity">m²/s.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative depth, a diffusivity not above zero, or a time that is not finite.</exception>
    public static Temperature At(Temperature mean, double swing, Length depth, double day, double coldestDay, double diffusivity = UsualDiffusivity) => double.IsFinite(day + coldestDay + swing)
        ? new(mean.Kelvin - (swing * Damping(depth, diffusivity) * Math.Cos(Math.Tau / 365 * (day - coldestDay - LagDays(depth, diffusivity)))))
        : throw new ArgumentOutOfRangeException(nameof(day), day, "Day, coldest day and swing are finite.");

    private static Length Checked(Length depth) => depth.Metres is >= 0 and < double.PositiveInfinity
        ? depth
        : throw new ArgumentOutOfRangeException(nameof(depth), depth.Metres, "A depth is not negative.");

    private static double Positive(double diffusivity) => diffusivity is > 0 and < double.PositiveInfinity
        ? diffusivity
        : throw new ArgumentOutOfRangeException(nameof(diffusivity), diffusivity, "A diffusivity is above zero.");
}
