using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger;

public sealed partial record Cellar
{
    /// <summary>The package that was meant.</summary>
    /// <param name="typed">Its ID as typed or scanned.</param>
    /// <exception cref="Refusal">There is none; the message names the nearest ones.</exception>
    public Package FindPackage(string typed)
    {
        if (ShortId.TryParse(typed, out var id, out var why) && Packages.TryGetValue(new PackageId(id), out var package))
            return package;
        if (why.Length == 0)
            why = Lots.ContainsKey(new LotId(id)) ? $"{id} is a lot, not a package." : Places.ContainsKey(new PlaceId(id)) ? $"{id} is a place, not a package." : $"No package is called {id}.";
        throw Unknown(typed, why, Nearest.To(ShortId.Plain(typed), Packages.Keys.Select(known => known.ToString())));
    }

    /// <summary>The lot that was meant, by its own ID or that of one of its packages.</summary>
    /// <param name="typed">An ID as typed or scanned.</param>
    /// <exception cref="Refusal">There is none; the message names the nearest ones.</exception>
    public Lot FindLot(string typed)
    {
        if (ShortId.TryParse(typed, out var id, out var why))
        {
            if (Lots.TryGetValue(new LotId(id), out var lot))
                return lot;
            if (Packages.TryGetValue(new PackageId(id), out var package))
                return Lots[package.Lot];
            why = $"No lot is called {id}.";
        }

        throw Unknown(typed, why, Nearest.To(ShortId.Plain(typed), Lots.Keys.Select(known => known.ToString())));
    }

    /// <summary>The place that was meant, by ID, by name or by path such as <c>House/Cellar/Shelf 2</c>.</summary>
    /// <param name="typed">As typed.</param>
    /// <exception cref="Refusal">There is none, or several places have that name; the message says which.</exception>
    public Place FindPlace(string typed)
    {
        if (TryFindPlace(typed) is { } place)
            return place;
        throw Unknown(typed, $"No place is called '{typed}'.", Nearest.To(typed, Places.Values.Select(known => known.Name)));
    }

    /// <summary>The place that was meant, or null where there is none.</summary>
    /// <param name="typed">ID, name, or path with <c>/</c>, <c>›</c> or <c>&gt;</c> between the names.</param>
    /// <exception cref="Refusal">Several places have that name.</exception>
    public Place? TryFindPlace(string typed)
    {
        string[] names = [.. (typed ?? "").Split('/', '›', '>').Select(name => name.Trim()).Where(name => name.Length > 0)];
        Place[] found = [.. Places.Values.Where(place => names.Length > 0 && EndsWith(place, names))];
        if (found.Length > 1)
        {
            Place[] whole = [.. found.Where(place => Outwards(place.Id).Count() == names.Length)];
            found = whole.Length == 1 ? whole : throw new Refusal($"Several places are called '{typed}': {string.Join("; ", found.Select(place => $"{PathOf(place.Id)} ({place.Id})"))}. Use the ID or the whole path.");
        }

        if (found.Length == 1)
            return found[0];
        return ShortId.TryParse(typed, out var id, out _) && Places.TryGetValue(new PlaceId(id), out var byId) ? byId : null;
    }

    private static Refusal Unknown(string typed, string why, IReadOnlyList<string> nearest) =>
        new(nearest.Count == 0 ? $"{why} There is none yet: add one first." : $"{why} Nearest: {string.Join(", ", nearest)}.", RefusalKind.Unknown, typed);

    private bool EndsWith(Place place, string[] names)
    {
        Place[] outwards = [.. Outwards(place.Id)];
        return outwards.Length >= names.Length && names.Reverse().Zip(outwards).All(pair => string.Equals(pair.First, pair.Second.Name, StringComparison.OrdinalIgnoreCase));
    }
}
