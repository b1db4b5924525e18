namespace Undercroft.Physics.Barrier;

/// <summary>Light through glass.</summary>
/// <remarks>
/// <para><b>Equation</b> both faces reflect R = [(n − 1)/(n + 1)]², a clear pane passes (1 − R)/(1 + R); inside, τ₂ = τ₁^(d₂/d₁).</para>
/// <para><b>Source</b> Fresnel at right angles and Beer–Lambert; standard. n = 1.52 of soda-lime glass, from memory.</para>
/// <para><b>Valid</b> Visible light on clear glass; a colour at one wavelength. Where clear glass begins to stop ultraviolet, 300 to 340 nm, depends on its iron.</para>
/// <para><b>Error</b> 1 % for clear glass; the thickness law takes the surface loss apart.</para>
/// </remarks>
public static class Glass
{
    /// <summary>Of soda-lime glass, from memory.</summary>
    public const double RefractiveIndex = 1.52;

    /// <summary>Share that one face reflects.</summary>
    public static double Reflected => Math.Pow((RefractiveIndex - 1) / (RefractiveIndex + 1), 2);

    /// <summary>Share that a clear pane passes.</summary>
    public static double ClearTransmission => (1 - Reflected) / (1 + Reflected);

    /// <summary>What a thickness passes inside, from what another does.</summary>
    /// <param name="transmitted">Of the known thickness, above 0 to 1.</param>
    /// <param name="knownMillimetres">Above zero.</param>
    /// <param name="millimetres">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share outside (0, 1], or a thickness not above zero.</exception>
    public static double Through(double transmitted, double knownMillimetres, double millimetres) => transmitted is > 0 and <= 1
        ? Math.Pow(transmitted, Positive.Number(millimetres) / Positive.Number(knownMillimetres))
        : throw new ArgumentOutOfRangeException(nameof(transmitted), transmitted, "A share lies above 0 and up to 1.");
}
