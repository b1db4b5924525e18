using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Storage;

/// <summary>The air around a package.</summary>
/// <param name="Pressure">Total pressure.</param>
/// <param name="Oxygen">Mole fraction.</param>
/// <param name="CarbonDioxide">Mole fraction.</param>
/// <param name="Nitrogen">Mole fraction, argon included.</param>
/// <param name="Moist">True where the fractions are of the dry part, (P − e); false where they are of the whole pressure.</param>
public readonly record struct RoomAir(Pressure Pressure, double Oxygen, double CarbonDioxide, double Nitrogen, bool Moist)
{
    /// <summary>Ordinary air at a given pressure: 20.95 % oxygen, 0.042 % carbon dioxide, the rest nitrogen and argon, of the dry part.</summary>
    public static RoomAir At(Pressure pressure) => new(pressure, 0.2095, 0.00042, 0.7901, Moist: true);
}
