using System.Globalization;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Catalogue;

/// <summary>Nylon and EVOH let more oxygen through the damper they are. What counts is the humidity at that layer, which the layers beside it decide and neither the leaf nor the room alone.</summary>
internal static class LayerClimate
{
    private const double Inside = 0.65; // leaf
    private const double Outside = 0.45; // a room
    private const string Unit = "cm³/(m²·day·atm) of 20 µm";
    private static readonly double[] Printed = [60, 80, 90];

    /// <summary>Of a material; nothing where its barrier does not depend on humidity.</summary>
    internal static IEnumerable<KindValue> Of(string material) => material switch
    {
        "pa6" => [.. ByHumidity(HumidityDependence.Nylon6), .. OfPouch()],
        "evoh" => [.. ByHumidity(HumidityDependence.Evoh32), .. ByHumidity(HumidityDependence.Evoh44), .. OfBuried()],
        _ => [],
    };

    /// <summary>Nylon of 20 µm outside, polyethylene of 70 µm inside: a vacuum pouch.</summary>
    internal static IEnumerable<KindValue> OfPouch() => At("the nylon of a pouch, polyethylene inside", HumidityDependence.Nylon6, 1, ("ldpe", 70), ("pa6", 20));

    /// <summary>EVOH of 5 µm between polyethylene of 35 µm on either side.</summary>
    private static IEnumerable<KindValue> OfBuried() => At("EVOH in the middle of polyethylene", HumidityDependence.Evoh32, 1, ("ldpe", 35), ("evoh", 5), ("ldpe", 35));

    private static IEnumerable<KindValue> ByHumidity(HumidityDependence film) => Printed.Select(percent => KindValue.Of(
        string.Create(CultureInfo.InvariantCulture, $"oxygen of {film.Name} at {percent:0} % humidity of the layer, 23 °C"), film.RateAt(RelativeHumidity.FromPercent(percent)), Unit, null,
        new(Provenance.Published, "ResinMakerMxd6", "printed; between the points ln of the rate is linear in humidity, which is our own")));

    private static IEnumerable<KindValue> At(string where, HumidityDependence film, int layer, params (string Material, double Micrometres)[] stack)
    {
        var water = stack.Select(part => Materials.Find(part.Material, Permeant.Water)!.Middle.Through(Length.FromMicrometres(part.Micrometres))).ToArray();
        var humidity = LayerHumidity.Of(Inside, Outside, water)[layer];
        var from = new Evidence(Provenance.Derived, "", string.Create(CultureInfo.InvariantCulture,
            $"leaf at {100 * Inside:0} %, room at {100 * Outside:0} %; {string.Join(", ", stack.Select(part => $"{part.Material} {part.Micrometres:0} µm"))} from the inside, water of [FitnessU12]"));
        yield return KindValue.Of($"humidity at {where}", 100 * humidity, "%", null, from);
        yield return KindValue.Of($"oxygen of {film.Name} at that humidity, 23 °C", film.RateAt(new(humidity)), Unit, null, from);
        yield return KindValue.Of($"the same, were it as damp as the leaf", film.RateAt(new(Inside)), Unit, null, from);
    }
}
