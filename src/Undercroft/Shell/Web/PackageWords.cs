using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

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
    public static string Container(Cellar cellar, Package package)
    {
        ArgumentNullException.ThrowIfNull(package);
        return Container(cellar, package.Container) ?? "container not known";
    }

    /// <summary>A container by the name of its kind, else in the words that were said; null where nothing was.</summary>
    public static string? Container(Cellar cellar, Container container)
    {
        ArgumentNullException.ThrowIfNull(container);
        return container.Kind is { } code ? KindName(cellar, code) : container.Text;
    }

    /// <summary>A container kind, or a sort of them, by its name.</summary>
    public static string KindName(Cellar cellar, string code) => KnownKinds.Find(cellar, code)?.Name ?? ContainerFamily.Find(code)?.Name ?? code;

    /// <summary>A cut in plain words; null where nobody said.</summary>
    public static string? Cut(string? cut) => cut is not null && Cuts.Find(cut) is { } known ? known.Code.Replace('-', ' ') : cut;

    /// <summary>Where it stands.</summary>
    public static string Place(Cellar cellar, Package package)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        return cellar.PathOf(package.Place) ?? "place not known";
    }

    /// <summary>A mass as exactly as it is known.</summary>
    public static string Mass(StatedMass mass, bool imperial = false) => mass is { Low: { } low, High: { } high } ? Range(low, high, imperial) : "not known";

    /// <summary>A mass between two, in grams (kilograms from ten) or ounces (pounds from ten).</summary>
    public static string Range(Mass low, Mass high, bool imperial = false)
    {
        var (factor, unit) = imperial
            ? high.Ounces >= 160 ? (1 / 16.0, "lb") : (1.0, "oz")
            : high.Grams >= 10_000 ? (1e-3, "kg") : (1.0, "g");
        var (from, to) = imperial ? (low.Ounces * factor, high.Ounces * factor) : (low.Grams * factor, high.Grams * factor);
        return $"{AmountText.Range(from, to, unit == "g" ? high.Grams >= 1000 ? 0 : 1 : 2)} {unit}";
    }

    /// <summary>Container kinds for a choice.</summary>
    public static IReadOnlyList<(string Code, string Word)> ContainerChoices { get; } = [.. ContainerKinds.All.Select(kind => (kind.Code, kind.Name))];

    /// <summary>Sorts of containers for whoever does not know which kind it is.</summary>
    public static IReadOnlyList<(string Code, string Word)> FamilyChoices { get; } = [.. ContainerFamily.All.Select(family => (family.Code, family.Name))];

    /// <summary>The same with the keeper's own kinds.</summary>
    public static IReadOnlyList<(string Code, string Word)> ContainersOf(Cellar cellar) => [.. KnownKinds.All(cellar).Select(kind => (kind.Code, kind.Name))];

    /// <summary>Leaf kinds for a choice.</summary>
    public static IReadOnlyList<(string Code, string Word)> LeafChoices { get; } = [.. LeafKinds.All.Select(kind => (kind.Code, kind.Name))];

    /// <summary>Room kinds for a choice.</summary>
    public static IReadOnlyList<(string Code, string Word)> RoomChoices { get; } = [.. RoomKinds.All.Select(kind => (kind.Code, kind.Name))];
}
