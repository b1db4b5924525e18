using System.Globalization;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Catalogue;

/// <summary>Everything that the catalogue says of a film, and of a plain material by every source.</summary>
internal static class FilmPage
{
    private static readonly Permeant[] Permeants = [Permeant.Water, Permeant.Oxygen, Permeant.CarbonDioxide, Permeant.Nitrogen];

    public static KindPage Of(FilmKind film) => new(
        KindList.FilmKinds, film.Code, film.Name, DescribeKind.AtHome(film), null, null, null,
        [
            .. Permeants.SelectMany(permeant => Values(film, permeant)),
            .. film == Films.NylonPolyethylene ? LayerClimate.OfPouch() : [],
        ]);

    public static KindPage OfMaterial(string code)
    {
        var values = Materials.All.Where(value => value.Material == code).ToArray();
        var energies = Materials.Energies.Where(energy => energy.Material == code);
        var sources = values.Select(value => value.Evidence.Source).Distinct().Count();
        return new(
            KindList.MaterialKinds, code, values[0].Name, $"{sources} {(sources == 1 ? "source" : "sources")}, of which {values.Count(value => value.Evidence.Provenance == Provenance.Published)} of {values.Length} values published", null, null, null,
            [.. values.SelectMany(Values), .. LayerClimate.Of(code), .. energies.Select(energy => KindValue.Of($"{Word(energy.Permeant)}, activation energy", energy.JoulesPerMole / 1e3, "kJ/mol", null, energy.Evidence))]);
    }

    private static IEnumerable<KindValue> Values(FilmKind film, Permeant permeant)
    {
        var value = film.For(permeant);
        var spread = string.Create(CultureInfo.InvariantCulture, $"factor {Math.Exp(film.Spread.Own):0.00} own, {Math.Exp(film.Spread.Shared):0.00} shared");
        yield return KindValue.Of($"{Word(permeant)}, at {value.Test.Celsius.ToString("0.#", CultureInfo.InvariantCulture)} °C", value.Permeance.MolPerM2SPa, "mol/(m²·s·Pa)", spread, value.Evidence);
        yield return KindValue.Of($"{Word(permeant)}, activation energy", value.ActivationEnergy / 1e3, "kJ/mol", null, value.Evidence);
    }

    private static IEnumerable<KindValue> Values(MaterialValue value)
    {
        var spread = string.Create(CultureInfo.InvariantCulture, $"factor {Math.Exp(value.LogSd):0.0} between tables");
        if (value.Low == value.High)
        {
            yield return KindValue.Of($"{Word(value.Permeant)}, {value.Condition}", value.Low.MolMPerM2SPa, "mol·m/(m²·s·Pa)", spread, value.Evidence);
            yield break;
        }

        yield return KindValue.Of($"{Word(value.Permeant)}, {value.Condition}, low end", value.Low.MolMPerM2SPa, "mol·m/(m²·s·Pa)", spread, value.Evidence);
        yield return KindValue.Of($"{Word(value.Permeant)}, {value.Condition}, high end", value.High.MolMPerM2SPa, "mol·m/(m²·s·Pa)", spread, value.Evidence);
    }

    private static string Word(Permeant permeant) => permeant switch
    {
        Permeant.Water => "water",
        Permeant.Oxygen => "oxygen",
        Permeant.CarbonDioxide => "carbon dioxide",
        Permeant.Nitrogen => "nitrogen",
        _ => throw new ArgumentOutOfRangeException(nameof(permeant), permeant, "Unknown permeant."),
    };
}
