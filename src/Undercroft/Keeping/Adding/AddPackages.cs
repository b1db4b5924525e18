using Undercroft.Forecasts.Places;
using Undercroft.Keeping.Handling;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;
using Undercroft.Shell;

namespace Undercroft.Keeping.Adding;

/// <summary>What somebody says of packages that stand on the shelf; every part may be missing.</summary>
/// <param name="Blend">Its name.</param>
/// <param name="Leaf">Leaf kinds, such as <c>burley</c> or <c>flue-cured 70%, burley 30%</c>.</param>
/// <param name="Cut">Ribbon, flake, plug …</param>
/// <param name="Net">Leaf in each package.</param>
/// <param name="Gross">Each package whole, at sealing.</param>
/// <param name="Tare">Each package empty.</param>
/// <param name="Moisture">Wet basis at sealing.</param>
/// <param name="Container">Code of a container kind.</param>
/// <param name="Count">How many alike.</param>
/// <param name="Made">When the leaf was made or tinned.</param>
/// <param name="Sealed">When the packages were closed.</param>
/// <param name="Opened">True where they stand open now.</param>
/// <param name="Place">Where; a place that is not known yet is made.</param>
/// <param name="Paid">For all of them.</param>
/// <param name="Note">In words.</param>
/// <param name="SaidBy">Who says so: label, receipt, weighed, memory, guess.</param>
/// <param name="All">Leaf in all of them together, shared out evenly; instead of <paramref name="Net"/>.</param>
public sealed record AddRequest(
    string? Blend = null, string? Leaf = null, string? Cut = null, string? Net = null, string? Gross = null, string? Tare = null,
    string? Moisture = null, string? Container = null, int Count = 1, string? Made = null, string? Sealed = null, bool Opened = false,
    string? Place = null, string? Paid = null, string? Note = null, string? SaidBy = null, string? All = null)
{
    /// <summary>True where nothing at all was said: a blank row of a form.</summary>
    public bool IsBlank => this with { Count = 1, Container = null, SaidBy = null, Opened = false } == new AddRequest() && string.IsNullOrWhiteSpace(Container);
}

/// <summary>What was added.</summary>
/// <param name="Ids">The new packages.</param>
/// <param name="Event">The line that added them.</param>
/// <param name="NewPlace">The path of a place that was made for them, or null.</param>
/// <param name="After">The cellar with them.</param>
/// <param name="Doubts">What is surprising about them.</param>
public sealed record Added(IReadOnlyList<PackageId> Ids, CellarEvent Event, string? NewPlace, Cellar After, IReadOnlyList<string> Doubts);

/// <summary>Adds packages of one lot.</summary>
public static class AddPackages
{
    /// <summary>More than this at once is a slip of the finger (assumption).</summary>
    public const int MostAtOnce = 500;

    private const int DeepestPath = 8;

    /// <summary>Reads the request, checks it, writes it.</summary>
    /// <exception cref="Refusal">A part that cannot be read or cannot be; nothing is written.</exception>
    public static async ValueTask<Added> To(ICellars cellars, AddRequest request, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        IReadOnlyList<PackageId> ids = [];
        PlaceId? newPlace = null;
        var change = await cellars.ChangeAsync(cellar =>
        {
            var events = Decide(cellar, request, presentOf(cellar));
            ids = [.. events.Select(line => line.Fact).OfType<Fact.PackagesAdded>().SelectMany(fact => fact.Packages)];
            newPlace = events.Select(line => line.Fact).OfType<Fact.PlaceAdded>().LastOrDefault()?.Place;
            return events;
        });
        await cellars.LearnAsync(change.After);
        var added = change.Events.Single(line => line.Fact is Fact.PackagesAdded);
        return new(ids, added, change.After.PathOf(newPlace), change.After, [.. ids.SelectMany(id => Recording.NewDoubts(change, id)).Distinct()]);
    }

    /// <summary>The lines that a request comes to: a place where it is new, the lot, the packages.</summary>
    public static IReadOnlyList<CellarEvent> Decide(Cellar cellar, AddRequest request, Present present)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(present);
        if (request.Count is < 1 or > MostAtOnce)
            throw new Refusal($"A count of {request.Count} cannot be added: give 1 to {MostAtOnce}.");
        var by = string.IsNullOrWhiteSpace(request.SaidBy) ? SaidBy.Unstated : Words.Of<SaidBy>(request.SaidBy);
        List<CellarEvent> lines = [];
        var fresh = new Queue<ShortId>(cellar.NextIds(request.Count + 1 + DeepestPath));
        var lot = new LotId(fresh.Dequeue());
        PackageId[] packages = [.. Enumerable.Range(0, request.Count).Select(_ => new PackageId(fresh.Dequeue()))];
        var place = PlaceOf(cellar, request.Place, present, fresh, lines);
        var made = Past(request.Made, present);
        var added = new Fact.PackagesAdded(
            lot,
            packages,
            ContainerOf(cellar, request.Container, request.Tare, by),
            NetOf(request, by),
            StatedMass.Parse(request.Gross, by == SaidBy.Unstated ? SaidBy.Weighed : by),
            StatedFraction.Parse(request.Moisture, by),
            Past(request.Sealed, present),
            place,
            Text(request.Note),
            request.Opened);
        var blend = new Blend(Text(request.Blend), LeafOf(request.Leaf, by), Text(request.Cut));
        lines.Add(CellarEvent.New(new Fact.LotAdded(lot, blend, made, Paid: Money.Parse(request.Paid, by)), UnevenDate.Unknown, present.Now));
        var last = CellarEvent.New(added, UnevenDate.Unknown, present.Now);
        CellarEvent[] all = [.. lines.Select(line => line with { Cause = last.Id }), last]; // undoing the packages undoes what came with them
        return Recording.Checked(cellar, all);
    }

    private static StatedMass NetOf(AddRequest request, SaidBy by)
    {
        if (string.IsNullOrWhiteSpace(request.All))
            return StatedMass.Parse(request.Net, by);
        return string.IsNullOrWhiteSpace(request.Net)
            ? Split.Shared(StatedMass.Parse(request.All, by), request.Count)
            : throw new Refusal("Leaf in each and leaf in all of them were both said: say one of the two.");
    }

    /// <summary>A container by its code; unknown stays unknown.</summary>
    /// <exception cref="Refusal">A code that the catalogue lacks, with the nearest ones.</exception>
    public static Container ContainerOf(Cellar cellar, string? code, string? tare, SaidBy by)
    {
        var own = StatedMass.Parse(tare, by == SaidBy.Unstated ? SaidBy.Weighed : by);
        if (string.IsNullOrWhiteSpace(code) || code.Trim() is "unknown" or "?" or "??")
            return new Container(Tare: own);
        return new Container(ContainerFamily.Find(code)?.Code ?? Kinds.Container(cellar, code).Code, Tare: own);
    }

    /// <summary>Leaf kinds with their shares: "burley", "flue-cured 70%, burley 30%", "flue-cured + oriental".</summary>
    public static IReadOnlyList<LeafShare> LeafOf(string? text, SaidBy by)
    {
        if (string.IsNullOrWhiteSpace(text))
            return [];
        List<LeafShare> shares = [];
        foreach (var part in text.Split([',', '+', '/', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var gap = part.LastIndexOf(' ');
            var share = part.EndsWith('%') && gap > 0 ? part[(gap + 1)..] : null;
            shares.Add(new LeafShare(Kinds.Leaf(share is null ? part : part[..gap].Trim()).Code, StatedFraction.Parse(share, by)));
        }

        return shares;
    }

    /// <summary>The place of a path such as "closet / top shelf"; the part of it that is not known yet is added to <paramref name="lines"/>.</summary>
    private static PlaceId? PlaceOf(Cellar cellar, string? path, Present present, Queue<ShortId> fresh, List<CellarEvent> lines)
    {
        if (Text(path) is not { } named)
            return null;
        if (cellar.TryFindPlace(named) is { } known)
            return known.Id;
        var names = named.Split(['/', '›', '>'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        PlaceId? place = null;
        if (names.Length > DeepestPath)
            throw new Refusal($"'{named}' is nested deeper than {DeepestPath} places. Use fewer.");
        for (var depth = 1; depth <= names.Length; depth++)
        {
            if (lines.Count == 0 && cellar.TryFindPlace(string.Join('/', names[..depth])) is { } there)
            {
                place = there.Id;
                continue;
            }

            var made = new PlaceId(fresh.Dequeue());
            lines.Add(CellarEvent.New(new Fact.PlaceAdded(made, names[depth - 1], place), UnevenDate.Unknown, present.Now));
            place = made;
        }

        return place;
    }

    private static UnevenDate Past(string? said, Present present) => Text(said) is { } text ? present.When(text) : UnevenDate.Unknown;

    private static string? Text(string? words) => string.IsNullOrWhiteSpace(words) ? null : words.Trim();
}
