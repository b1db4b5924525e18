namespace Undercroft.Physics.Storage;

/// <summary>What the air around a package is made of; its pressure comes from the climate of the place.</summary>
/// <param name="Oxygen">Mole fraction.</param>
/// <param name="CarbonDioxide">Mole fraction.</param>
/// <param name="Nitrogen">Mole fraction, argon included.</param>
/// <param name="Moist">True where the fractions are of the dry part, (P − e); false where they are of the whole pressure.</param>
public readonly record struct RoomAir(double Oxygen, double CarbonDioxide, double Nitrogen, bool Moist)
{
    /// <summary>Ordinary air: of the dry part 20.95 % oxygen, 0.042 % carbon dioxide, the rest, 79.008 %, nitrogen and argon: fractions that do not add up to one would blow a vent.</summary>
    public static RoomAir Ordinary => new(0.2095, 0.00042, 0.79008, Moist: true);
}
