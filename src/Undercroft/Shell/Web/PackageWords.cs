using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Shell.Web;

/// <summary>What a package is called on a page.</summary>
public static class PackageWords
{
    /// <summary>Its blend by name, else by leaf, else that nobody knows.</summary>
    public static string Title(Cellar cellar, Package package)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var blend = cellar.BlendOf(package);
        return blend.Name
            ?? (blend.Leaf.Count > 0 ? string.Join(", ", blend.Leaf.Select(share => LeafKinds.Find(share.Kind)?.Name ?? share.Kind)) : "Leaf, not known which");
    }

    /// <summary>What it is packed in.</summary>
    public static string Container(Package package)
    {
        ArgumentNullException.ThrowIfNull(package);
        return (package.Container.Kind is { } code ? ContainerKinds.Find(code)?.Name ?? code : package.Container.Text) ?? "container not known";
    }

    /// <summary>Where it stands.</summary>
    public static string Place(Cellar cellar, Package package)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        return cellar.PathOf(package.Place) ?? "place not known";
    }

    /// <summary>A mass in grams, as exactly as it is known.</summary>
    public static string Mass(StatedMass mass)
    {
        if (mass is not { Low: { } low, High: { } high })
            return "not known";
        var (from, to) = (low.Grams.ToString("0.#", CultureInfo.InvariantCulture), high.Grams.ToString("0.#", CultureInfo.InvariantCulture));
        return from == to ? from + " g" : $"{from}–{to} g";
    }

    /// <summary>Container kinds for a choice.</summary>
    public static IReadOnlyList<(string Code, string Word)> ContainerChoices { get; } = [.. ContainerKinds.All.Select(kind => (kind.Code, kind.Name))];

    /// <summary>Leaf kinds for a choice.</summary>
    public static IReadOnlyList<(string Code, string Word)> LeafChoices { get; } = [.. LeafKinds.All.Select(kind => (kind.Code, kind.Name))];

    /// <summary>Room kinds for a choice.</summary>
    public static IReadOnlyList<(string Code, string Word)> RoomChoices { get; } = [.. RoomKinds.All.Select(kind => (kind.Code, kind.Name))];
}
