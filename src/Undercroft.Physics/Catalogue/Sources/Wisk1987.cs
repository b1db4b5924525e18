using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>[Wisk1987]: crowns with a vinyl (plastisol) liner let in 0.002 ml of oxygen a day, and as much nitrogen; none was seen with other liners or through double seams.</summary>
public static class Wisk1987
{
    /// <summary>ml of oxygen a day from room air into almost none.</summary>
    public const double MillilitresPerDay = 0.002;

    /// <summary>Of a crown of 26 mm.</summary>
    public static Length CrownPerimeter => Length.FromMillimetres(82);

    /// <summary>Conductance of one crown, mol/(s·Pa) at 23 °C.</summary>
    public static double CrownConductance =>
        MillilitresPerDay * 1e-6 * PhysicalConstants.StandardAtmosphere / (PhysicalConstants.GasConstant * Conductance.ReferenceKelvin) / 86400
        / (PhysicalConstants.OxygenInDryAir * PhysicalConstants.StandardAtmosphere);

    /// <summary>The same compound around a longer rim, in proportion to the perimeter, mol/(s·Pa).</summary>
    public static double ConductanceOfRim(Length perimeter) =>
        CrownConductance * (perimeter.Metres > 0 && double.IsFinite(perimeter.Metres)
            ? perimeter.Metres
            : throw new ArgumentOutOfRangeException(nameof(perimeter), perimeter.Metres, "Must be finite and above zero.")) / CrownPerimeter.Metres;
}
