using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Shell;

namespace Undercroft.Keeping.Handling;

/// <summary>What a person does with a package: open it, close it, take leaf out, add water, move it, pack it anew, let it go.</summary>
public static class Handle
{
    /// <summary>Opened: the gas inside becomes the room's.</summary>
    public static Said Opened(Package package, Present present, string? on = null, string? note = null) =>
        new(new Fact.PackageOpened(package.Id, note), present.When(on));

    /// <summary>Closed again.</summary>
    public static Said Closed(Package package, Present present, string? on = null, string? note = null) =>
        new(new Fact.PackageClosed(package.Id, note), present.When(on));

    /// <summary>Leaf taken out.</summary>
    /// <param name="mass">Such as <c>12g</c> or <c>about 1oz</c>.</param>
    public static Said Taken(Package package, Present present, string mass, string? on = null, string? note = null) =>
        new(new Fact.LeafTaken(package.Id, StatedMass.Parse(mass, SaidBy.Weighed), note), present.When(on));

    /// <summary>Water added; or, with a minus sign, dried away.</summary>
    /// <param name="mass">Such as <c>2.3g</c> or <c>-4g</c>.</param>
    public static Said Watered(Package package, Present present, string mass, string? on = null, string? note = null) =>
        new(new Fact.WaterAdded(package.Id, StatedMass.Parse(mass, SaidBy.Weighed), note), present.When(on));

    /// <summary>Carried to another place, which must be known.</summary>
    public static Said Moved(Package package, Cellar cellar, Present present, string place, string? on = null, string? note = null) =>
        new(new Fact.PackageMoved(package.Id, cellar.FindPlace(place).Id, note), present.When(on));

    /// <summary>Packed into another container; ID and age stay.</summary>
    public static Said Repacked(
        Package package, Present present, Container container, string? gross = null, string? net = null, string? on = null, string? note = null) =>
        new(
            new Fact.PackageRepacked(
                package.Id, container, StatedMass.Parse(gross, SaidBy.Weighed), StatedMass.Parse(net, SaidBy.Weighed), note),
            present.When(on));

    /// <summary>Left the cellar.</summary>
    /// <param name="way">finished, given, sold, discarded or lost.</param>
    /// <exception cref="Refusal">Another word.</exception>
    public static Said Removed(Package package, Present present, string way, string? on = null, string? received = null, string? note = null) =>
        new(
            new Fact.PackageRemoved(package.Id, Words.Of<RemovedAs>(way), Money.Parse(received, SaidBy.Memory), note),
            present.When(on));
}
