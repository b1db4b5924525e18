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
        private readonly UnevenDate began;
        private Container container;
        private PlaceId? place;
        private bool open;
        private UnevenDate undisturbed;
        private (double Low, double High)? net;
        private (double Low, double High)? gross;
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
            began = added.Sealed.IsKnown ? added.Sealed : sealing.Happened.IsKnown ? sealing.Happened : made;
            gross = Range(added.Gross);
            net = Range(added.Net) ?? Less(gross, Range(container.Tare));
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
            gross = fact.Net ? null : shown;
            net = (fact.Net ? shown : Less(shown, Range(container.Tare))) ?? net;
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
            gross = Less(gross, Range(fact.Mass));
        }

        internal void Watered(Fact.WaterAdded fact, TimelineEntry entry)
        {
            Disturbed(entry);
            net = More(net, Range(fact.Mass));
            gross = More(gross, Range(fact.Mass));
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
            gross = Range(fact.Gross);
            net = Range(fact.Net) ?? Less(gross, Range(container.Tare)) ?? net;
        }

        internal void Described(Fact.ContainerStated fact, TimelineEntry entry)
        {
            Note(entry);
            container = container.With(fact.Container);
            if (fact.Container.Tare.IsKnown)
                net = Less(gross, Range(container.Tare)) ?? net;
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
                Began = began,
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

        private static (double Low, double High)? More((double Low, double High)? whole, (double Low, double High)? part) =>
            whole is var (low, high) && part is var (least, most) ? (low + least, high + most) : null;

        private static (double Low, double High)? Less((double Low, double High)? whole, (double Low, double High)? part) =>
            whole is var (low, high) && part is var (least, most) ? (Math.Min(low - least, high - most), Math.Max(low - least, high - most)) : null;
    }
}
