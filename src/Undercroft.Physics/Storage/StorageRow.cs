using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Storage;

/// <summary>A package at one moment.</summary>
/// <param name="Day">Days from the start.</param>
/// <param name="Moisture">Of the leaf.</param>
/// <param name="Activity">Of the leaf at its temperature then.</param>
/// <param name="Oxygen">Partial pressure.</param>
/// <param name="CarbonDioxide">Partial pressure.</param>
/// <param name="Nitrogen">Partial pressure, argon included.</param>
/// <param name="Total">With the vapour of the leaf.</param>
public readonly record struct StorageRow(
    double Day, Moisture Moisture, WaterActivity Activity, Pressure Oxygen, Pressure CarbonDioxide, Pressure Nitrogen, Pressure Total);
