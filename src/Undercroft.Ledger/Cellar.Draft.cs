using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger;

public sealed partial record Cellar
{
    /// <summary>A package while the fold runs over it.</summary>
    private sealed class Draft
    {
        private readonly PackageId id;
        private readonly Fact.PackagesAdded added;
        private readonly List<TimelineEntry> timeline;
        private Container container;
        private PlaceId? place;
        private bool open;
        private UnevenDate undisturbed;
        private (double Low, double High)? net;
        private Timed<Fact.PackageRemoved>? removed;

        internal Draft(PackageId id, Fact.PackagesAdded added, TimelineEntry sealing, DateOnly since, UnevenDate made)
        {
            this.id = id;
            this.added = added;
            timeline = [sealing];
            Since = since;
            container = added.Container;
            place = added.Place;
            open = added.Opened;
            undisturbed = added.Sealed.IsKnown ? added.Sealed : made;
            net = Range(added.Net) ?? Less(Range(added.Gross), Range(added.Container.Tare));
        }

        internal DateOnly Since { get; private set; }

        internal void Note(TimelineEntry entry)
        {
            timeline.Add(entry);
            Since = Earlier(Since, entry.Day);
        }

        internal void Weighed(Fact.PackageWeighed fact, TimelineEntry entry)
        {
            Note(entry);
            var shown = (fact.Mass.Kilograms, fact.Mass.Kilograms);
            if ((fact.Net ? shown : Less(shown, Range(container.Tare))) is { } leaf)
                net = leaf;
        }

        internal void Opened(TimelineEntry entry)
        {
            Disturbed(entry);
            open = true;
        }

        internal void Closed(TimelineEntry entry)
        {
            Disturbed(entry);
            open = false;
        }

        internal void Taken(Fact.LeafTaken fact, TimelineEntry entry)
        {
            Disturbed(entry);
            net = Less(net, Range(fact.Mass));
        }

        internal void Watered(Fact.WaterAdded fact, TimelineEntry entry)
        {
            Disturbed(entry);
            if (net is var (low, high) && Range(fact.Mass) is var (least, most))
                net = (low + least, high + most);
        }

        internal void Moved(PlaceId to, TimelineEntry entry)
        {
            Note(entry);
            place = to;
        }

        internal void Repacked(Fact.PackageRepacked fact, TimelineEntry entry)
        {
            Disturbed(entry);
            open = false;
            container = fact.Container;
            net = Range(fact.Net) ?? Less(Range(fact.Gross), Range(fact.Container.Tare)) ?? net;
        }

        internal void Removed(Fact.PackageRemoved fact, TimelineEntry entry)
        {
            Note(entry);
            removed = new(entry, fact);
        }

        internal Package Done()
        {
            if (timeline.Count > 1 && timeline[1].Day < timeline[0].Day)
                timeline[0] = timeline[0] with { Day = timeline[1].Day };
            return new Package
            {
                Id = id,
                Lot = added.Lot,
                Container = container,
                Net = added.Net,
                Gross = added.Gross,
                Moisture = added.Moisture,
                Sealed = added.Sealed,
                Since = Since,
                Place = place,
                IsOpen = open,
                Removed = removed,
                UndisturbedSince = undisturbed,
                BookNet = Book(),
                Timeline = timeline,
            };
        }

        private StatedMass Book() => net switch
        {
            null => StatedMass.Unknown,
            var (low, high) when low == high => StatedMass.Exactly(new Mass(Math.Max(low, 0))),
            var (low, high) => StatedMass.Between(new Mass(Math.Max(low, 0)), new Mass(Math.Max(high, 0))),
        };

        private void Disturbed(TimelineEntry entry)
        {
            Note(entry);
            undisturbed = entry.Happened.IsKnown ? entry.Happened : UnevenDate.On(entry.Day);
        }

        private static (double Low, double High)? Range(StatedMass mass) => mass is { Low: { } low, High: { } high } ? (low.Kilograms, high.Kilograms) : null;

        private static (double Low, double High)? Less((double Low, double High)? whole, (double Low, double High)? part) =>
            whole is var (low, high) && part is var (least, most) ? (Math.Min(low - least, high - most), Math.Max(low - least, high - most)) : null;
    }
}
