using Undercroft.Physics.Barrier;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>[Moyls1998]: nine commercial polyethylene films from 0 to 23.2 °C, mean energies.</summary>
public static class Moyls1998
{
    /// <summary>8.73, 7.77 and 6.22 kcal/mol. Nitrogen is taken as oxygen.</summary>
    public static IReadOnlyList<MaterialEnergy> Energies { get; } =
    [
        new("ldpe", Permeant.Oxygen, 8.73e3 * ArrheniusFactor.JoulesPerCalorie, Read("mean of nine films, 0 to 23.2 °C")),
        new("ldpe", Permeant.CarbonDioxide, 7.77e3 * ArrheniusFactor.JoulesPerCalorie, Read("mean of nine films, 0 to 23.2 °C")),
        new("ldpe", Permeant.Water, 6.22e3 * ArrheniusFactor.JoulesPerCalorie, Read("of permeance, mean of nine films, 0 to 23.2 °C")),
        new("ldpe", Permeant.Nitrogen, 8.73e3 * ArrheniusFactor.JoulesPerCalorie, new(Provenance.Assumption, "", "taken as for oxygen")),
    ];

    /// <summary>Carbon dioxide over oxygen at 23.2 °C, mean of the films.</summary>
    public const double CarbonDioxideOverOxygen = 5.26;

    private static Evidence Read(string remark) => new(Provenance.Published, "Moyls1998", remark);
}
