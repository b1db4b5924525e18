using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;
using Undercroft.Shell.Web;

namespace Undercroft.Keeping.Showing;

/// <summary>Which packages to see. All parts combine; each stands in the address, so that a view can be kept as a bookmark.</summary>
/// <param name="Text">Words of name, leaf, cut, container, place, note or ID; all of them must be found.</param>
/// <param name="Leaf">Code of a leaf kind, or <c>unknown</c>.</param>
/// <param name="Place">ID of a place; what stands in places inside it counts.</param>
/// <param name="Age">Leaf at least so many years old, for sure.</param>
/// <param name="State">open, closed, act, look, unweighed, gone, all; else what is in the cellar.</param>
/// <param name="Lot">ID of a lot.</param>
public sealed record PackageFilter(string? Text = null, string? Leaf = null, string? Place = null, string? Age = null, string? State = null, string? Lot = null)
{
    /// <summary>States for a choice.</summary>
    public static IReadOnlyList<(string Code, string Word)> States { get; } =
    [
        ("act", "something is amiss"), ("look", "a look is due"), ("open", "open"), ("closed", "closed"), ("unweighed", "weight not known"), ("gone", "gone"), ("all", "all, gone ones too"),
    ];

    /// <summary>Ages for a choice.</summary>
    public static IReadOnlyList<(string Code, string Word)> Ages { get; } = [("1", "1 year or more"), ("3", "3 years or more"), ("5", "5 years or more"), ("10", "10 years or more"), ("20", "20 years or more"), ("unknown", "age not known")];

    /// <summary>Parts that are said, by name.</summary>
    public IEnumerable<(string Name, string Value)> Said => new[] { ("Text", Text), ("Leaf", Leaf), ("Place", Place), ("Age", Age), ("State", State), ("Lot", Lot) }
        .Where(part => !string.IsNullOrWhiteSpace(part.Item2)).Select(part => (part.Item1, part.Item2!.Trim()));

    /// <summary>The address of the view.</summary>
    /// <param name="page">From 1.</param>
    public string Address(int page = 1)
    {
        string[] parts = [.. Said.Select(part => $"{part.Name}={Uri.EscapeDataString(part.Value)}"), .. page > 1 ? new[] { "Page=" + page.ToString(CultureInfo.InvariantCulture) } : []];
        return "/packages" + (parts.Length > 0 ? "?" + string.Join('&', parts) : "");
    }

    /// <summary>The packages, by name, then by age.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="today">For ages and looks that are due.</param>
    /// <param name="states">How packages stand, as far as it was told before; null tells it anew.</param>
    public IReadOnlyList<Package> Of(Cellar cellar, DateOnly today, ShelfStates? states = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        states ??= new(cellar, today);
        var words = (Text ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return
        [
            .. cellar.Packages.Values
                .Where(package => InState(package, states) && OfLeaf(cellar, package) && AtPlace(cellar, package) && OfAge(cellar, package, today) && OfLot(package) && Words(cellar, package, words))
                .Select(package => (Title: PackageWords.Title(cellar, package), Package: package))
                .OrderBy(pair => pair.Title, NameOrder.Instance).ThenBy(pair => pair.Package.Since).ThenBy(pair => pair.Package.Id.ToString(), StringComparer.Ordinal)
                .Select(pair => pair.Package),
        ];
    }

    private bool InState(Package package, ShelfStates states) => State switch
    {
        "act" => package.IsHere && states.Of(package).Standing == Standing.Act,
        "look" => package.IsHere && states.Of(package).Standing is Standing.Act or Standing.Look,
        "open" => package is { IsHere: true, IsOpen: true },
        "closed" => package is { IsHere: true, IsOpen: false },
        "unweighed" => package.IsHere && !package.BookNet.IsKnown,
        "gone" => !package.IsHere,
        "all" => true,
        _ => package.IsHere,
    };

    private bool OfLeaf(Cellar cellar, Package package) => string.IsNullOrWhiteSpace(Leaf)
        || (cellar.BlendOf(package).Leaf is var leaf && (Leaf == "unknown" ? leaf.Count == 0 : leaf.Any(share => share.Kind == Leaf)));

    private bool AtPlace(Cellar cellar, Package package) => string.IsNullOrWhiteSpace(Place)
        || (Place == "unknown" ? package.Place is null : cellar.Outwards(package.Place).Any(place => place.Id.ToString() == Place));

    private bool OfAge(Cellar cellar, Package package, DateOnly today)
    {
        if (string.IsNullOrWhiteSpace(Age))
            return true;
        var lot = cellar.Lots[package.Lot];
        var since = lot.Made.IsKnown ? lot.Made : package.Sealed;
        if (Age == "unknown")
            return !since.IsKnown;
        return since.IsKnown && double.TryParse(Age, NumberStyles.Float, CultureInfo.InvariantCulture, out var years)
            && (Ledger.Dates.Age.On(since, today).AtLeast ?? 0) >= years * 365.2425;
    }

    private bool OfLot(Package package) => string.IsNullOrWhiteSpace(Lot) || package.Lot.ToString() == Lot;

    private static bool Words(Cellar cellar, Package package, string[] words)
    {
        if (words.Length == 0)
            return true;
        var blend = cellar.BlendOf(package);
        string[] texts =
        [
            PackageWords.Title(cellar, package), .. blend.Leaf.Select(share => $"{share.Kind} {LeafKinds.Find(share.Kind)?.Name}"), blend.Cut ?? "", PackageWords.Container(cellar, package),
            package.Container.Kind ?? "", PackageWords.Place(cellar, package), package.Id.ToString(), package.Lot.ToString(),
        ];
        return words.All(word => texts.Any(text => text.Contains(word, StringComparison.OrdinalIgnoreCase)));
    }
}
