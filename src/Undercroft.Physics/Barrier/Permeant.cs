using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>What passes a wall: the four gases that the storage model follows.</summary>
public enum Permeant
{
    /// <summary>Water vapour.</summary>
    Water,

    /// <summary>Oxygen.</summary>
    Oxygen,

    /// <summary>Carbon dioxide.</summary>
    CarbonDioxide,

    /// <summary>Nitrogen, argon included.</summary>
    Nitrogen,
}

/// <summary>Molar constants of the permeants.</summary>
public static class Molar
{
    /// <summary>Gas volume per mole at 0 °C and 101 325 Pa, m³/mol: the "cm³(STP)" of permeability tables.</summary>
    public const double StandardVolume = PhysicalConstants.GasConstant * 273.15 / 101325.0;

    /// <summary>Molar mass, kg/mol.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not one of the four.</exception>
    public static double MassOf(Permeant permeant) => permeant switch
    {
        Permeant.Water => PhysicalConstants.MolarMassOfWater,
        Permeant.Oxygen => PhysicalConstants.MolarMassOfOxygen,
        Permeant.CarbonDioxide => 44.009e-3,
        Permeant.Nitrogen => 28.014e-3,
        _ => throw new ArgumentOutOfRangeException(nameof(permeant), permeant, "Unknown permeant."),
    };
}
