using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>[ResinMakerMxd6]: films whose oxygen barrier does not depend on humidity, printed beside nylon and EVOH, whose does (<see cref="HumidityDependence"/>). cm³/(m²·day·atm) of 20 µm at 23 °C.</summary>
public static class ResinMakerMxd6
{
    /// <summary>The same at 60, 80 and 90 % humidity.</summary>
    public static IReadOnlyList<MaterialValue> Values { get; } =
    [
        Row("pet", "polyester, oriented", 80, 0.3),
        Row("opp", "polypropylene, oriented", 2500, 0.3),
        Row("pa6-pvdc", "oriented nylon 6, coated with PVDC, counted as one layer", 10, 0.7),
        Row("opp-pvdc", "oriented polypropylene, coated with PVDC, counted as one layer", 14, 0.7),
    ];

    private static MaterialValue Row(string code, string name, double rate, double logSd)
    {
        var value = new Permeability(Permeance.FromCm3PerM2DayAtm(rate).MolPerM2SPa * HumidityDependence.PrintedThickness.Metres);
        return new(code, name, Permeant.Oxygen, value, value, Temperature.FromCelsius(23), "23 °C, the same at 60, 80 and 90 % RH", logSd, new(Provenance.Published, "ResinMakerMxd6", "film of 20 µm, times its thickness"));
    }
}
