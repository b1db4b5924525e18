using System.Globalization;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger;

/// <summary>Which records are probably wrong.</summary>
/// <remarks>
/// Assumptions, all wide so that only the odd is flagged: a scale whose step nobody stated shows 0.1 g; two weighings agree within three of the coarser step and 0.1 g for
/// the buoyancy of the air and the repeatability of a kitchen scale; leaf packs at most to 1.1 g per millilitre of capacity; a package loses at most a third of its leaf's mass as water,
/// and one that was not opened meanwhile at most a fiftieth of it a day, as a thin bag in a dry room does;
/// a mass that was not weighed (a label, a memory) is good to 5 %, and the packages of a lot hold at most 5 % more than the lot; an empty container is at most twice as
/// heavy as its kind usually is, and one that was weighed at least half as heavy; jars and tins hold two thirds to one and a half of what their kind usually does, bags a third to three times.
/// </remarks>
public static class Doubts
{
    private const double DefaultStepKg = 1e-4;
    private const double ScatterKg = 1e-4;
    private const double DensestKgPerM3 = 1100;
    private const double LooseShare = 0.05;
    private const double MostWaterLost = 1.0 / 3;
    private const double FastestLossPerDay = 0.02;
    private const double HeaviestTare = 2;
    private const double OtherVessel = 1.5;
    private const double OtherBag = 3;

    /// <summary>Of the whole cellar, by package and then by lot.</summary>
    /// <param name="cellar">As it stands.</param>
    /// <param name="sizeOf">How large and heavy a container kind usually is, by its code.</param>
    public static IReadOnlyList<Doubt> In(Cellar cellar, Func<string, UsualSize>? sizeOf = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        return [.. cellar.Packages.Values.SelectMany(package => Of(cellar, package, sizeOf)), .. cellar.Lots.Values.SelectMany(lot => Of(cellar, lot))];
    }

    /// <summary>Of one package, in time order.</summary>
    /// <param name="cellar">As it stands.</param>
    /// <param name="package">Which.</param>
    /// <param name="sizeOf">How large and heavy a container kind usually is, by its code.</param>
    public static IReadOnlyList<Doubt> Of(Cellar cellar, Package package, Func<string, UsualSize>? sizeOf = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(package);
        return [.. AsStated(package), .. OverTime(package, sizeOf), .. OutOfOrder(package)];
    }

    /// <summary>A doubt whose reason begins with the number of its line, so that a person can look it up and correct it.</summary>
    private static Doubt At(long line, ShortId about, Guid raisedBy, string kind, string reason) =>
        new(about, raisedBy, kind, string.Create(CultureInfo.InvariantCulture, $"Line {line}: {char.ToLowerInvariant(reason[0])}{reason[1..]}"));

    private static IEnumerable<Doubt> Of(Cellar cellar, Lot lot)
    {
        if (lot.Net.High is not { } most || lot.Packages.Count == 0)
            yield break;
        var least = lot.Packages.Sum(id => cellar.Packages[id].Net.Low?.Kilograms ?? 0);
        if (least > most.Kilograms * (1 + LooseShare))
        {
            yield return At(
                cellar.Lines.First(line => line.Event.Id == lot.AddedBy).Event.Version, lot.Id.Id, lot.AddedBy, "lot-overfull",
                $"Its packages hold {Grams(least)} or more, but the lot was {lot.Net}. Check the packages or the lot.");
        }
    }

    private static IEnumerable<Doubt> AsStated(Package package)
    {
        if (package.Net.Low is { } net && package.Gross.High is { } gross && net > gross)
            yield return At(package.Timeline[0].Version, package.Id.Id, package.AddedBy, "net-over-gross", $"The leaf ({package.Net}) is stated heavier than the whole package ({package.Gross}). They may be swapped.");
        var tare = ((Fact.PackagesAdded)package.Timeline[0].Fact).Container.Tare;
        if (package is { Net: { Low: { } least, High: { } most }, Gross: { Low: { } lightest, High: { } heaviest } } && tare is { Low: { } bare, High: { } barest })
        {
            var slack = 0.002 + (LooseShare * most.Kilograms);
            if (least.Kilograms + bare.Kilograms > heaviest.Kilograms + slack || most.Kilograms + barest.Kilograms < lightest.Kilograms - slack)
                yield return At(package.Timeline[0].Version, package.Id.Id, package.AddedBy, "sum-off", $"Leaf {package.Net} and container {tare} do not add up to {package.Gross}. Check which of the three is off.");
        }
    }

    private static IEnumerable<Doubt> OverTime(Package package, Func<string, UsualSize>? sizeOf)
    {
        var walk = new WeightWalk(package, sizeOf);
        foreach (var entry in package.Timeline)
        {
            foreach (var (kind, reason) in walk.Next(entry))
                yield return At(entry.Version, package.Id.Id, entry.Event, kind, reason);
        }
    }

    private static IEnumerable<Doubt> OutOfOrder(Package package)
    {
        foreach (var entry in package.Timeline.Skip(1))
        {
            var written = DateOnly.FromDateTime(entry.Recorded.UtcDateTime);
            if (entry.Happened.Earliest is { } first && first > written.AddDays(1))
                yield return At(entry.Version, package.Id.Id, entry.Event, "in-the-future", $"It is dated {entry.Happened}, after it was written down. Check the date.");
            if (entry.Happened.CertainlyBefore(package.Sealed))
                yield return At(entry.Version, package.Id.Id, entry.Event, "before-sealing", $"It is dated {entry.Happened}, before the package was sealed ({package.Sealed}). Check both dates.");
            if (package.Removed is { } gone && gone.Entry.Event != entry.Event && gone.Entry.Happened.CertainlyBefore(entry.Happened))
                yield return At(entry.Version, package.Id.Id, entry.Event, "after-removal", $"It is dated {entry.Happened}, but the package left the cellar {gone.Entry.Happened}. Check both, or undo the removal.");
        }
    }

    private static string Grams(double kilograms) => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(kilograms * 1000, 2)} g");

    /// <summary>Follows what a package should weigh.</summary>
    private sealed class WeightWalk(Package package, Func<string, UsualSize>? sizeOf)
    {
        private Container container = package.Container;
        private (double Low, double High, double Step)? gross;
        private (double Low, double High, double Step)? net;
        private DateOnly? last; // weighed
        private bool open;
        private bool opened; // since it was weighed

        private UsualSize Usual => container.Kind is { } kind && sizeOf is not null ? sizeOf(kind) : default;

        internal IEnumerable<(string Kind, string Reason)> Next(TimelineEntry entry)
        {
            switch (entry.Fact)
            {
                case Fact.PackagesAdded fact: return Begin(fact.Container, fact.Gross, fact.Net);
                case Fact.PackageRepacked fact: return Repacked(fact);
                case Fact.PackageOpened: (open, opened) = (true, true); return [];
                case Fact.PackageClosed: open = false; return [];
                case Fact.LeafTaken fact: return Took(fact.Mass);
                case Fact.ContainerStated fact:
                    return Described(fact.Container);
                case Fact.WaterAdded fact:
                    Shift(fact.Mass.Low?.Kilograms ?? double.NegativeInfinity, fact.Mass.High?.Kilograms ?? double.PositiveInfinity);
                    return [];
                case Fact.PackageWeighed fact:
                    var found = Weighed(fact, entry);
                    (last, opened) = (entry.Happened.Earliest, open);
                    return found;
                default: return [];
            }
        }

        private (string, string)[] Begin(Container now, StatedMass whole, StatedMass leaf)
        {
            container = now;
            gross = Ends(whole, whole.By is SaidBy.Memory or SaidBy.Guess);
            net = Ends(leaf, leaf.By is not SaidBy.Weighed);
            return [.. Overfull(net?.Low)];
        }

        /// <summary>The leaf is what it was, unless somebody says how much it is now.</summary>
        private (string, string)[] Repacked(Fact.PackageRepacked fact)
        {
            var before = net;
            var found = Begin(fact.Container, fact.Gross, fact.Net);
            (open, opened, last) = (false, true, null);
            if (net is not null || before is null)
                return found;
            net = before;
            return [.. Overfull(net?.Low)];
        }

        /// <summary>Water that the leaf may have lost since the last weighing, as a share of its mass.</summary>
        private double MostLost(TimelineEntry now)
        {
            if (opened || last is not { } before || now.Happened.Latest is not { } until)
                return MostWaterLost;
            return Math.Min(MostWaterLost, FastestLossPerDay * (1 + Math.Max(0, until.DayNumber - before.DayNumber)));
        }

        private List<(string, string)> Described(Container said)
        {
            container = container.With(said);
            List<(string, string)> found = [];
            if (said.Capacity is { Low: { } least, High: { } most } && Usual.Capacity is { } usual)
            {
                var factor = Usual.Flexible ? OtherBag : OtherVessel;
                if (least.CubicMetres > factor * usual.CubicMetres || most.CubicMetres * factor < usual.CubicMetres)
                    found.Add(("capacity-off", $"It holds {said.Capacity}, but such a container holds about {Millilitres(usual)} ml. Check the number, the unit and the kind."));
            }

            if (said.Tare is { Low: { } light, High: { } heavy } && Usual.Tare is { } bare && (light.Kilograms > HeaviestTare * bare.Kilograms || heavy.Kilograms * HeaviestTare < bare.Kilograms))
                found.Add(("tare-off", $"It weighs {said.Tare} empty, but such a container weighs about {Math.Round(bare.Grams)} g. Check the number, the unit and the kind."));
            if (said.Tare.Low is { } tare && gross is { } whole && tare.Kilograms > whole.High + (3 * whole.Step))
                found.Add(("tare-over-gross", $"It weighs {said.Tare} empty, more than the {Grams(whole.High)} of the whole package. Check both."));
            if (said.Capacity.IsKnown || said.Kind is not null)
                found.AddRange(Overfull(net?.Low));
            return found;
        }

        private (string, string)[] Took(StatedMass mass)
        {
            var most = net?.High;
            Shift(-(mass.High?.Kilograms ?? double.PositiveInfinity), -(mass.Low?.Kilograms ?? 0));
            return most is { } held && mass.Low is { } taken && taken.Kilograms > held + ScatterKg
                ? [("more-than-held", $"{mass} was taken, but on record it held at most {Grams(held)}. Check what was taken or the last weight.")]
                : [];
        }

        private List<(string, string)> Weighed(Fact.PackageWeighed fact, TimelineEntry entry)
        {
            var shown = fact.Mass.Kilograms;
            var step = fact.Resolution?.Kilograms ?? DefaultStepKg;
            List<(string, string)> found = [];
            var before = fact.Net ? net : gross;
            if (before is { } then)
            {
                var slack = (3 * Math.Max(step, then.Step)) + ScatterKg;
                if (shown > then.High + slack)
                    found.Add(("weight-rose", $"It weighs {Grams(shown)}, more than the {Grams(then.High)} expected, and no water was added. Check the scale, the lid and that it is the right package."));
                var leaf = net?.High ?? (container.Tare.Low is { } bare ? then.High - bare.Kilograms : then.High);
                if (shown < then.Low - slack - (MostLost(entry) * leaf))
                    found.Add(("weight-fell", $"It weighs {Grams(shown)}, less than the {Grams(then.Low)} expected by more than its leaf can dry. Was leaf taken, or the container changed?"));
            }

            if (!fact.Net && before is null && net?.Low is { } inside && shown < inside * (1 - MostWaterLost))
                found.Add(("under-leaf", $"It weighs {Grams(shown)} altogether, but on record it holds {Grams(inside)} of leaf. Check the scale, the unit, and that it is the right package."));
            if (!fact.Net && container.Tare.High is { } tare && shown < tare.Kilograms - (3 * step))
                found.Add(("under-tare", $"It weighs {Grams(shown)}, less than its empty container ({container.Tare}). Check the tare."));
            if (!fact.Net && before is null && !container.Tare.IsKnown && Usual is { Tare: { } usual } && net?.High is { } held && shown > (held * (1 + LooseShare)) + (HeaviestTare * usual.Kilograms))
                found.Add(("heavy-for-its-kind", $"It weighs {Grams(shown)}, but such a container weighs about {Math.Round(usual.Grams)} g empty and on record it holds at most {Grams(held)}. Check the scale, the unit, and that it is the right package."));
            else
                found.AddRange(Overfull(fact.Net ? shown : container.Tare.High is { } empty ? shown - empty.Kilograms : Usual.Tare is { } bare ? shown - (HeaviestTare * bare.Kilograms) : null));

            if (fact.Net)
                (net, gross) = ((shown, shown, step), Moved(gross, net, shown));
            else
                (gross, net) = ((shown, shown, step), Moved(net, gross, shown));
            return found;
        }

        /// <summary>What the other of net and gross must have become when one of them was weighed anew.</summary>
        private static (double Low, double High, double Step)? Moved((double Low, double High, double Step)? other, (double Low, double High, double Step)? weighed, double shown) =>
            weighed is not { } old ? other
                : other is { } was && double.IsFinite(old.Low) && double.IsFinite(old.High) ? (was.Low + shown - old.High, was.High + shown - old.Low, was.Step)
                : null;

        private IEnumerable<(string, string)> Overfull(double? leaf)
        {
            if (leaf is { } mass && (container.Capacity.High ?? Usual.Capacity) is { } volume && mass > volume.CubicMetres * DensestKgPerM3)
                yield return ("overfull", $"{Grams(mass)} of leaf is more than a container of {Millilitres(volume)} ml should hold. Check the mass and the container.");
        }

        private static string Millilitres(Volume volume) => Math.Round(volume.Millilitres).ToString(CultureInfo.InvariantCulture);

        private void Shift(double least, double most)
        {
            if (gross is { } g)
                gross = (g.Low + least, g.High + most, g.Step);
            if (net is { } n)
                net = (n.Low + least, n.High + most, n.Step);
        }

        private static (double, double, double)? Ends(StatedMass mass, bool loose) =>
            mass is { Low: { } low, High: { } high } ? (low.Kilograms, high.Kilograms, loose ? Math.Max(DefaultStepKg, LooseShare * high.Kilograms / 3) : DefaultStepKg) : null;
    }
}
