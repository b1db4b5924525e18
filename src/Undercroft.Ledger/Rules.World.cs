using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger;

public static partial class Rules
{
    /// <summary>How and when a package left.</summary>
    private sealed record Removal(string Line, UnevenDate Happened, RemovedAs As);

    /// <summary>The cellar and what the events before in the same append add to it.</summary>
    private sealed class World(Cellar cellar)
    {
        private const string RemovedJustNow = "the removal in the same act";
        private readonly Dictionary<PackageId, Fact.PackagesAdded> packages = [];
        private readonly Dictionary<PackageId, Removal> removed = [];
        private readonly Dictionary<PlaceId, Fact.PlaceAdded> places = [];
        private readonly HashSet<ShortId> used = [];

        internal Cellar Cellar => cellar;

        /// <summary>Events that are taken back in the same act.</summary>
        internal HashSet<Guid> Undone { get; } = [];

        internal LotMade Made { get; } = new(cellar);

        internal IEnumerable<Fact.PlaceAdded> Places =>
            cellar.Places.Values.Select(place => new Fact.PlaceAdded(place.Id, place.Name, place.Inside)).Concat(places.Values);

        internal void Knows(Fact fact)
        {
            foreach (var id in Mentioned.By(fact))
            {
                if (!Has(id))
                    throw new Refusal($"Nothing is called {id}.{Meant(id)}");
            }

            switch (fact)
            {
                case Fact.PlaceAdded { Inside: { } inside }: IsPlace(inside); break;
                case Fact.ClimateStated climate: IsPlace(climate.Place); break;
                case Fact.OutdoorsStated outdoors: IsPlace(outdoors.Place); break;
                case Fact.AltitudeStated altitude: IsPlace(altitude.Place); break;
                case Fact.PackageMoved moved: IsPlace(moved.Place); break;
                case Fact.ReadingsImported readings: IsPlace(readings.Place); break;
                case Fact.HygrometerChecked sensor: IsPlace(sensor.Place); break;
                case Fact.PackagesAdded { Place: { } place }: IsPlace(place); break;
            }

            if (fact is Fact.LotValued valued && !Made.Has(valued.Lot))
                throw new Refusal($"{valued.Lot} is not a lot. Name the lot that is valued.");
            if (fact is Fact.PackagesAdded added && !Made.Has(added.Lot))
                throw new Refusal($"{added.Lot} is not a lot. Name the lot that the packages are of.");
            if (Mentioned.PackageOf(fact) is { } package && !cellar.Packages.ContainsKey(package) && !packages.ContainsKey(package))
                throw new Refusal($"{package} is not a package. Name a jar, tin, pouch or bag.");
            foreach (var id in Introduced.By(fact))
            {
                if (!used.Add(id) || cellar.IsUsed(id))
                    throw new Refusal($"The ID {id} was used before. IDs are never used twice; take the next free one.", RefusalKind.Standing);
            }
        }

        internal void Learn(CellarEvent line)
        {
            switch (line.Fact)
            {
                case Fact.PlaceAdded fact: places[fact.Place] = fact; break;
                case Fact.LotAdded fact: Made.Learn(fact); break;
                case Fact.PackagesAdded fact:
                    foreach (var id in fact.Packages)
                        packages[id] = fact;
                    break;
                case Fact.PackageRemoved fact: removed[fact.Package] = new Removal(RemovedJustNow, line.Happened, fact.As); break;
            }
        }

        internal (PackageId Id, Fact.PackagesAdded Added) AddedOf(Fact fact)
        {
            var id = Mentioned.PackageOf(fact)!.Value;
            return (id, packages.TryGetValue(id, out var added) ? added : (Fact.PackagesAdded)cellar.Packages[id].Timeline[0].Fact);
        }

        internal Removal? RemovalOf(PackageId id)
        {
            if (removed.TryGetValue(id, out var now))
                return now;
            return cellar.Packages.TryGetValue(id, out var package) && package.Removed is { } gone
                ? new Removal(LineName.Of(gone.Entry), gone.Entry.Happened, gone.Fact.As)
                : null;
        }

        private bool Has(ShortId id) => used.Contains(id) || cellar.Packages.ContainsKey(new(id)) || cellar.Lots.ContainsKey(new(id)) || cellar.Places.ContainsKey(new(id));

        private void IsPlace(PlaceId id)
        {
            if (!cellar.Places.ContainsKey(id) && !places.ContainsKey(id))
                throw new Refusal($"{id} is not a place. Name a house, room, shelf or box.");
        }

        private string Meant(ShortId id)
        {
            var nearest = Nearest.To(id.ToString(), cellar.Packages.Keys.Select(known => known.ToString())
                .Concat(cellar.Lots.Keys.Select(known => known.ToString())).Concat(cellar.Places.Keys.Select(known => known.ToString())));
            return nearest.Count == 0 ? " The cellar is empty: add something first." : $" Nearest: {string.Join(", ", nearest)}.";
        }
    }

    /// <summary>When the leaf of each lot was made.</summary>
    private sealed class LotMade(Cellar cellar)
    {
        private readonly Dictionary<LotId, UnevenDate> added = [];

        internal UnevenDate this[LotId id] => added.TryGetValue(id, out var made) ? made : cellar.Lots[id].Made;

        internal bool Has(LotId id) => added.ContainsKey(id) || cellar.Lots.ContainsKey(id);

        internal void Learn(Fact.LotAdded fact) => added[fact.Lot] = fact.Made;
    }
}
