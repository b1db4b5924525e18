namespace Undercroft.Physics.Climate.Exposures;

/// <summary>What stands between a lamp or window and the leaf.</summary>
public enum LightCover
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>Clear glass: only the reflection of its two faces is lost.</summary>
    ClearGlass,

    /// <summary>Amber or other tinted glass that keeps to the pharmacopoeia's limit.</summary>
    TintedGlass,

    /// <summary>A closed opaque box, tin or cupboard.</summary>
    ClosedBox,
}

/// <summary>Light that reaches the leaf in a year.</summary>
/// <remarks>
/// <para><b>Equation</b> dose = illuminance · hours; clear glass passes (1 − R)/(1 + R) with R = [(n − 1)/(n + 1)]², n = 1.52; a closed box passes nothing.</para>
/// <para><b>Source</b> reciprocity as in [ErcoLight] (50 lx for 10 h is 250 lx for 2 h); reflection by Fresnel's formula; tinted glass: at most 10 % anywhere from 290 to 450 nm, [UspGlass].</para>
/// <para><b>Valid</b> lux weighs light as the eye does. The tinted limit speaks of ultraviolet and blue: it bounds the harmful part, never the lux.</para>
/// <para><b>Error</b> sunlight and lamps of the same lux differ by a factor of several in ultraviolet; what light does to leaf has no published number.</para>
/// </remarks>
public static class LightDose
{
    /// <summary>The most that tinted glass lets through anywhere from 290 to 450 nm.</summary>
    public const double TintedLimit = 0.10;

    private const double GlassIndex = 1.52;

    /// <summary>lx·h.</summary>
    /// <param name="lux">While it is lit.</param>
    /// <param name="hours">Lit.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public static double LuxHours(double lux, double hours) => lux >= 0 && hours >= 0 && double.IsFinite(lux * hours)
        ? lux * hours
        : throw new ArgumentOutOfRangeException(nameof(lux), lux, "Lux and hours are finite and not negative.");

    /// <summary>The largest share of ultraviolet and blue, 290 to 450 nm, that can pass a cover.</summary>
    public static double MostBlue(LightCover cover) => cover switch
    {
        LightCover.None => 1,
        LightCover.ClearGlass => ClearGlass,
        LightCover.TintedGlass => TintedLimit,
        LightCover.ClosedBox => 0,
        _ => throw new ArgumentOutOfRangeException(nameof(cover), cover, "Not a cover."),
    };

    /// <summary>Share that passes clear soda-lime glass by reflection alone.</summary>
    public static double ClearGlass
    {
        get
        {
            var reflected = Math.Pow((GlassIndex - 1) / (GlassIndex + 1), 2);
            return (1 - reflected) / (1 + reflected);
        }
    }
}
