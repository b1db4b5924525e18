namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>[SupplierSheets]: finished laminates as packaging suppliers print them, flat and unflexed; conditions often incomplete. Oxygen cm³/(m²·day·atm), water g/(m²·day) at 38 °C, 90 %.</summary>
public static class SupplierSheets
{
    /// <summary>Metallised polyester 12 µm / adhesive / polyethylene 50 µm: oxygen.</summary>
    public const double MetallisedLaminateOxygen = 0.6;

    /// <summary>The same: water.</summary>
    public const double MetallisedLaminateWater = 0.4;

    /// <summary>Polyester/foil/polyethylene: "below" this much oxygen.</summary>
    public const double FoilLaminateOxygen = 0.006;

    /// <summary>Polyester/foil/polyethylene: "below" this much water.</summary>
    public const double FoilLaminateWater = 0.01;

    /// <summary>What 240 flexes on a test machine did to oxide-coated polyester laminates: oxygen 1.8 to 4.9, and 0.4 to 4.5.</summary>
    public static (double Low, double High) FlexingMultiplies => (4.9 / 1.8, 4.5 / 0.4);
}
