using Undercroft.Forecasts.Beliefs;
using Undercroft.Importing.Cells;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Vessel = Undercroft.Importing.Cells.Vessel;

namespace Undercroft.Importing.Entering;

/// <summary>A container's words become a kind of the catalogue where the words and the size fit one; the words are kept in any case.</summary>
/// <remarks>What no word says is not chosen: the ring of a clamp jar, the closure of a tin; where the sort alone is said, so is its family. Sizes are matched with common practice, no source.</remarks>
internal static class ContainerCodes
{
    private static readonly double[] JarSizes = [118, 237, 355, 473, 946];

    private const int ShortestName = 4;

    /// <summary>The container of a row's packages.</summary>
    /// <param name="cellar">Knows the keeper's own kinds.</param>
    /// <param name="row">The row.</param>
    /// <param name="group">Which of its packages.</param>
    public static Container Of(Cellar cellar, RowFacts row, PackageGroup group)
    {
        var tare = row.TareGrams is { Value: > 0 } said ? StatedMass.Exactly(Mass.FromGrams(said.Value), SaidBy.Weighed) : StatedMass.Unknown;
        if ((group.Sort ?? row.Container?.Value) is not { } vessel)
            return new Container(Tare: tare);
        var words = Folding.Fold(vessel.Words);
        var kind = Own(cellar, words) ?? (Code(vessel, words, group.Each?.Grams) is { } guessed ? ContainerKinds.Find(guessed) : null);
        var code = kind?.Code ?? (VesselWords.SayNoMore(vessel) ? FamilyOf(vessel.Kind) : null);
        var own = vessel.Ml is > 0 and var ml && (kind is null || Math.Abs((kind.Capacity.Millilitres / ml) - 1) > 0.01)
            ? StatedVolume.Exactly(Volume.FromMillilitres(ml), SaidBy.Label)
            : StatedVolume.Unknown;
        return new Container(code, vessel.Words.Length > 0 ? vessel.Words : null, own, tare);
    }

    // A kind that the keeper described, by its code or its name; the catalogue's codes count as written, too.
    private static ContainerKind? Own(Cellar cellar, string words)
    {
        foreach (var (code, own) in cellar.OwnContainers)
        {
            var name = Folding.Fold(own.Name);
            if (words == Folding.Fold(code) || words == name || (name.Length >= ShortestName && $" {words} ".Contains($" {name} ", StringComparison.Ordinal)))
                return KnownKinds.Find(cellar, code);
        }

        return words.Contains('-', StringComparison.Ordinal) ? ContainerKinds.Find(words) : null;
    }

    private static string? Code(Vessel vessel, string words, double? grams) => vessel.Kind switch
    {
        VesselKind.Jar or VesselKind.Unsaid when vessel.Ml is { } ml && (vessel.Kind == VesselKind.Jar || NamedJarSize(words)) => Jar(ml),
        VesselKind.ClampJar when vessel.Ml is { } ml => Clamp(ml, words),
        VesselKind.Tin => Tin(words, grams),
        VesselKind.Pouch or VesselKind.Bag => Film(vessel, words),
        _ => null,
    };

    /// <summary>A sort without a size or a closure.</summary>
    private static string? FamilyOf(VesselKind kind) => kind switch
    {
        VesselKind.Jar => "jar",
        VesselKind.ClampJar => "clamp",
        VesselKind.Tin => "tin",
        VesselKind.Pouch => "pouch",
        VesselKind.Bag => "bag",
        _ => null,
    };

    private static bool NamedJarSize(string words) => words.Contains("pint", StringComparison.Ordinal) || words.Contains("quart", StringComparison.Ordinal);

    // The nearest size within a fifth; its own volume goes with it.
    private static string? Jar(double ml)
    {
        var nearest = JarSizes.MinBy(size => Math.Abs(Math.Log(size / ml)));
        return Math.Abs(Math.Log(nearest / ml)) < 0.2 ? $"jar-{nearest:0}" : null;
    }

    private static string? Clamp(double ml, string words)
    {
        var ring = words.Contains("silicon", StringComparison.Ordinal) || words.Contains("silikon", StringComparison.Ordinal) ? "silicone"
            : words.Contains("rubber", StringComparison.Ordinal) || words.Contains("gummi", StringComparison.Ordinal) ? "rubber" : null;
        var size = ml is > 400 and < 620 ? 500 : ml is > 800 and < 1200 ? 1000 : 0;
        return ring is null || size == 0 ? null : $"clamp-{size}-{ring}";
    }

    private static string? Tin(string words, double? grams)
    {
        bool Says(string word) => words.Contains(word, StringComparison.Ordinal);
        if (Says("paper"))
            return "tin-paper";
        if (Says("unlined"))
            return "tin-unlined";
        if (Says("slip"))
            return Says("wrap") || Says("film") ? "tin-slip-wrapped" : "tin-slip";
        if (Says("rectang") || Says("square") || Says("eckig"))
            return grams is > 40 and < 60 ? "tin-rectangular-50" : null;
        return grams switch
        {
            >= 55 and <= 60 => "tin-friction-57",
            >= 40 and < 55 => "tin-pull-50",
            >= 85 and <= 115 => "tin-pull-100",
            _ => null,
        };
    }

    private static string? Film(Vessel vessel, string words)
    {
        bool Says(string word) => words.Contains(word, StringComparison.Ordinal);
        if (Says("leather"))
            return "pouch-leather";
        if (vessel.Foil)
            return Says("metalli") ? "pouch-metallised" : "pouch-foil";
        if (vessel.Vacuum)
            return "pouch-vacuum";
        if (Says("sandwich"))
            return "bag-sandwich";
        if (vessel.Zip)
            return "bag-zip";
        return Says("bulk") ? "bag-bulk" : null;
    }
}
