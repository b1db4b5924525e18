namespace Undercroft.Physics.Quantities;

/// <summary>Constants that more than one formula needs, in SI units.</summary>
public static class PhysicalConstants
{
    /// <summary>R, J/(mol·K): exact in the SI of 2019, here with the ten digits that the model is stated in.</summary>
    public const double GasConstant = 8.314462618;

    /// <summary>Molar mass of water, kg/mol.</summary>
    public const double MolarMassOfWater = 0.01801528;

    /// <summary>Molar mass of oxygen O₂, kg/mol.</summary>
    public const double MolarMassOfOxygen = 0.0319988;

    /// <summary>Molar mass of glycerol C₃H₈O₃, kg/mol.</summary>
    public const double MolarMassOfGlycerol = 0.0920938;

    /// <summary>The standard atmosphere, Pa; exact.</summary>
    public const double StandardAtmosphere = 101325;

    /// <summary>Mole fraction of oxygen in dry air, as the storage model states it.</summary>
    public const double OxygenInDryAir = 0.2095;
}
