using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>[StretchFilmSheet]: wax–polyolefin stretch film of 127 µm, unstretched. Thickness and stretch were read; the transmission rates are from memory.</summary>
public static class StretchFilmSheet
{
    /// <summary>127 µm.</summary>
    public static Length Thickness => Length.FromMicrometres(127);

    /// <summary>cm³/(m²·day·atm), 23 °C, 50 % humidity.</summary>
    public const double Oxygen = 150;

    /// <summary>cm³/(m²·day·atm), 23 °C, dry.</summary>
    public const double CarbonDioxide = 1200;

    /// <summary>g/(m²·day), 38 °C, 90 %.</summary>
    public const double Water = 0.9;
}
