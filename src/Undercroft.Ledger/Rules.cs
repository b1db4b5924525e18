using Undercroft.Ledger.Events;

namespace Undercroft.Ledger;

/// <summary>What the ledger refuses, whichever door it comes through: the impossible, never the surprising.</summary>
public static partial class Rules
{
    /// <summary>Checks new events against the cellar and against each other, in their order.</summary>
    /// <param name="cellar">As it stands.</param>
    /// <param name="events">What is about to be appended.</param>
    /// <exception cref="Refusal">One of them is impossible; the message says what, why and what to do.</exception>
    public static void Check(Cellar cellar, IReadOnlyList<CellarEvent> events)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(events);
        var world = new World(cellar);
        world.Undone.UnionWith(events.Select(line => line.Fact).OfType<Fact.EventUndone>().Select(undone => undone.Event));
        foreach (var line in events)
        {
            Possible(line.Fact);
            world.Knows(line.Fact);
            Fits(world, line);
            world.Learn(line);
        }

        if (events.Any(line => line.Fact is Fact.EventUndone or Fact.EventCorrected))
            Folds(cellar, events);
    }

    private static void Fits(World world, CellarEvent line)
    {
        switch (line.Fact)
        {
            case Fact.PlaceAdded fact: NewName(world, fact); break;
            case Fact.PackagesAdded fact: SealedAfterMade(world, fact); break;
            case Fact.EventUndone fact: CanBeUndone(world.Cellar, fact.Event, world.Undone); break;
            case Fact.EventCorrected fact: CanBeCorrected(world, fact); break;
            case Fact.PackageOpened or Fact.PackageClosed or Fact.LeafTaken or Fact.PackageRepacked or Fact.WaterAdded:
                NotBeforeSealing(world, line);
                StillHere(world, line);
                break;
            case Fact.PackageMoved or Fact.PackageRemoved: StillHere(world, line); break;
        }
    }

    private static void NewName(World world, Fact.PlaceAdded fact)
    {
        var twin = world.Places.FirstOrDefault(place => place.Inside == fact.Inside && place.Place != fact.Place && string.Equals(place.Name, fact.Name.Trim(), StringComparison.OrdinalIgnoreCase));
        if (twin is not null)
            throw new Refusal($"There is a place called '{twin.Name}' already ({twin.Place}). Use it, or choose another name.", RefusalKind.Standing);
    }

    private static void SealedAfterMade(World world, Fact.PackagesAdded fact)
    {
        var made = world.Made[fact.Lot];
        if (fact.Sealed.CertainlyBefore(made))
            throw new Refusal($"Sealed {fact.Sealed} is before the leaf was made ({made}). Correct one of the dates, or leave it blank.");
    }

    private static void NotBeforeSealing(World world, CellarEvent line)
    {
        var (id, added) = world.AddedOf(line.Fact);
        if (line.Happened.CertainlyBefore(added.Sealed))
            throw new Refusal($"{id} was sealed {added.Sealed}, so nothing can have come out of it or into it {line.Happened}. Correct one of the dates.", RefusalKind.Standing);
    }

    private static void StillHere(World world, CellarEvent line)
    {
        if (Mentioned.PackageOf(line.Fact) is { } id && world.RemovalOf(id) is { } gone && !line.Happened.CertainlyBefore(gone.Happened))
            throw new Refusal($"{id} left the cellar ({CodeWords.Of(gone.As)}{(gone.Happened.IsKnown ? " " + gone.Happened : "")}). If it is still here, undo that first: {gone.Line}.", RefusalKind.Standing);
    }

    private static void CanBeCorrected(World world, Fact.EventCorrected fact)
    {
        var line = LineOf(world.Cellar, fact.Event);
        if (line.Fact is Fact.EventCorrected or Fact.EventUndone)
            throw new Refusal($"{Name(line)} is itself no fact about the cellar: correct the line that it is about, or undo it.");
        if (!line.Holds)
            throw new Refusal($"{Name(line)} was undone, so there is nothing to correct.", RefusalKind.Standing);
        if (line.Fact.Type != fact.Replacement.Type)
            throw new Refusal($"{Name(line)} cannot be corrected into a {LineName.KindOf(fact.Replacement)}. Undo it and enter the other.");
        if (!Introduced.By(line.Fact).SequenceEqual(Introduced.By(fact.Replacement)))
            throw new Refusal($"A correction cannot change IDs. Undo {LineName.Of(line)} and enter it anew, or remove single packages.");
        var happened = fact.ReplacesDate ? fact.Happened : line.Happened;
        switch (fact.Replacement)
        {
            case Fact.PackagesAdded added: OpenedAfter(world.Cellar, added); break;
            case Fact.PlaceAdded place: NotInItself(world.Cellar, place); break;
            case Fact.ReadingsImported readings: SameReadings((Fact.ReadingsImported)line.Fact, readings); break;
            case Fact.PackageOpened or Fact.PackageClosed or Fact.LeafTaken or Fact.PackageRepacked or Fact.WaterAdded:
                NotBeforeSealing(world, line.Event with { Happened = happened, Fact = fact.Replacement });
                break;
        }
    }

    private static void OpenedAfter(Cellar cellar, Fact.PackagesAdded added)
    {
        foreach (var id in added.Packages)
        {
            var early = cellar.Packages[id].Timeline.FirstOrDefault(entry =>
                entry.Fact is Fact.PackageOpened or Fact.PackageClosed or Fact.LeafTaken or Fact.PackageRepacked or Fact.WaterAdded && entry.Happened.CertainlyBefore(added.Sealed));
            if (early is not null)
                throw new Refusal($"{id} cannot have been sealed {added.Sealed}: {LineName.Of(early)} says {early.Happened}. Correct one of the two.", RefusalKind.Standing);
        }
    }

    private static void SameReadings(Fact.ReadingsImported before, Fact.ReadingsImported after)
    {
        if ((before.Batch, before.Count, before.First, before.Last, before.Sha256) != (after.Batch, after.Count, after.First, after.Last, after.Sha256))
            throw new Refusal("A correction cannot change the readings themselves. Undo their import and bring them in anew.");
    }

    private static void NotInItself(Cellar cellar, Fact.PlaceAdded fact)
    {
        if (cellar.Outwards(fact.Inside).Any(place => place.Id == fact.Place))
            throw new Refusal($"'{fact.Name}' cannot be inside of itself. Name another place.");
    }

    private static LedgerLine LineOf(Cellar cellar, Guid id) => cellar.Lines.FirstOrDefault(line => line.Event.Id == id)
        ?? throw new Refusal("There is no such line in the ledger. The history lists them.");

    private static string Name(LedgerLine line)
    {
        var name = LineName.Of(line);
        return char.ToUpperInvariant(name[0]) + name[1..];
    }

    private static void Folds(Cellar cellar, IReadOnlyList<CellarEvent> events)
    {
        try
        {
            Cellar.Fold(cellar.Lines.Select(line => line.Event).Concat(events.Select((line, i) => line with { Version = cellar.Version + 1 + i })));
        }
        catch (InvalidDataException broken)
        {
            throw new Refusal($"That would leave the ledger without sense: {broken.Message} Bring that back first.", RefusalKind.Standing);
        }
    }
}
