using Undercroft.Importing.Cells;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Importing.Entering;

/// <summary>Places by their path: known ones are found, new ones are made once.</summary>
internal sealed class PlaceBook(Cellar cellar, Func<ShortId> next)
{
    private readonly Dictionary<string, PlaceId> known = [];
    private readonly Dictionary<(PlaceId?, string), PlaceId> children = Children(cellar);

    /// <summary>An upper bound of the places that rows can bring.</summary>
    public static int Most(IReadOnlyList<RowFacts> rows) => rows.Where(row => row.Place is not null).Select(row => string.Join('\u0001', row.Place!.Value)).Distinct().Sum(path => path.Count(c => c == '\u0001') + 1);

    /// <summary>The place at the end of a path.</summary>
    public PlaceId? Of(IReadOnlyList<string> path, Action<Fact> add)
    {
        var key = Folding.Fold(string.Join('\u0001', path));
        if (known.TryGetValue(key, out var before))
            return before;
        PlaceId? at = Found(path);
        if (at is null)
        {
            foreach (var name in path)
            {
                var words = name.Trim();
                if (words.Length == 0)
                    continue;
                var child = (at, words.ToUpperInvariant());
                if (!children.TryGetValue(child, out var place))
                {
                    place = new PlaceId(next());
                    children[child] = place;
                    add(new Fact.PlaceAdded(place, words, at));
                }

                at = place;
            }
        }

        if (at is { } found)
            known[key] = found;
        return at;
    }

    private PlaceId? Found(IReadOnlyList<string> path)
    {
        try
        {
            return cellar.TryFindPlace(string.Join('/', path))?.Id;
        }
        catch (Refusal)
        {
            // Several places have that name: the path is taken from the outermost place inwards.
            return null;
        }
    }

    private static Dictionary<(PlaceId?, string), PlaceId> Children(Cellar cellar)
    {
        var children = new Dictionary<(PlaceId?, string), PlaceId>();
        foreach (var place in cellar.Places.Values)
            children.TryAdd((place.Inside, place.Name.ToUpperInvariant()), place.Id);
        return children;
    }
}
