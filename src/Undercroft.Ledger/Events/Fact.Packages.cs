using System.Text.Json.Serialization;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger.Events;

public abstract partial record Fact
{
    /// <summary>Leaf of one blend that came together.</summary>
    /// <param name="Lot">Its ID.</param>
    /// <param name="Blend">What it is.</param>
    /// <param name="Made">When the leaf was made or tinned.</param>
    /// <param name="Net">Leaf altogether; unknown where only the packages say.</param>
    /// <param name="Paid">For all of it.</param>
    /// <param name="Source">Where it came from, in words.</param>
    /// <param name="Text">What was written about it, such as an imported row.</param>
    public sealed record LotAdded(
        LotId Lot, Blend Blend, UnevenDate Made = default, StatedMass Net = default, Money? Paid = null, string? Source = null, string? Text = null) : Fact;

    /// <summary>What a lot is worth besides what was paid for it: two further figures, never mixed with each other or with the price paid.</summary>
    /// <param name="Lot">Which; all of it as it came.</param>
    /// <param name="Replace">What as much of the same or the nearest would cost to buy now; null leaves what was said before.</param>
    /// <param name="Sale">What it would likely fetch where it may be sold; null leaves what was said before.</param>
    /// <param name="Text">Where the figures come from, in words.</param>
    public sealed record LotValued(LotId Lot, Money? Replace = null, Money? Sale = null, string? Text = null) : Fact;

    /// <summary>Packages of one lot, all alike. Ones that differ come in an event each.</summary>
    /// <param name="Lot">Their lot.</param>
    /// <param name="Packages">Their IDs, at least one.</param>
    /// <param name="Container">What they are.</param>
    /// <param name="Net">Leaf in each at sealing.</param>
    /// <param name="Gross">Whole mass of each at sealing.</param>
    /// <param name="Moisture">Wet basis at sealing.</param>
    /// <param name="Sealed">When they were closed.</param>
    /// <param name="Place">Where they stand.</param>
    /// <param name="Note">In words.</param>
    /// <param name="Opened">True where they were already open when entered.</param>
    public sealed record PackagesAdded(
        LotId Lot,
        IReadOnlyList<PackageId> Packages,
        Container Container,
        StatedMass Net = default,
        StatedMass Gross = default,
        StatedFraction Moisture = default,
        UnevenDate Sealed = default,
        PlaceId? Place = null,
        string? Note = null,
        bool Opened = false) : Fact;

    /// <summary>A package was opened.</summary>
    public sealed record PackageOpened(PackageId Package, string? Text = null) : Fact;

    /// <summary>A package was closed again.</summary>
    public sealed record PackageClosed(PackageId Package, string? Text = null) : Fact;

    /// <summary>Leaf was taken out.</summary>
    /// <param name="Package">From where.</param>
    /// <param name="Mass">How much.</param>
    /// <param name="Text">In words.</param>
    public sealed record LeafTaken(PackageId Package, StatedMass Mass, string? Text = null) : Fact;

    /// <summary>A package was moved.</summary>
    /// <param name="Package">What.</param>
    /// <param name="Place">To where.</param>
    /// <param name="Text">In words.</param>
    public sealed record PackageMoved(PackageId Package, PlaceId Place, string? Text = null) : Fact;

    /// <summary>The leaf of a package went into another container; the package keeps its ID and its age.</summary>
    /// <param name="Package">What.</param>
    /// <param name="Container">The new container.</param>
    /// <param name="Gross">Whole mass with the new container.</param>
    /// <param name="Net">Leaf that went in, where somebody weighed it.</param>
    /// <param name="Text">In words.</param>
    public sealed record PackageRepacked(PackageId Package, Container Container, StatedMass Gross = default, StatedMass Net = default, string? Text = null) : Fact;

    /// <summary>Somebody stated more about the container that a package is in: it was weighed empty, measured, or recognised. Nothing was repacked.</summary>
    /// <param name="Package">Which.</param>
    /// <param name="Container">What is stated; unknown parts leave what was known.</param>
    public sealed record ContainerStated(PackageId Package, Container Container) : Fact;

    /// <summary>Water was added to the leaf, or the leaf was dried.</summary>
    /// <param name="Package">Which.</param>
    /// <param name="Mass">Positive added, negative dried.</param>
    /// <param name="Text">In words.</param>
    public sealed record WaterAdded(PackageId Package, StatedMass Mass, string? Text = null) : Fact;

    /// <summary>A package left the cellar.</summary>
    /// <param name="Package">Which.</param>
    /// <param name="As">How.</param>
    /// <param name="For">Money got for it.</param>
    /// <param name="Text">In words.</param>
    public sealed record PackageRemoved(PackageId Package, RemovedAs As, Money? For = null, string? Text = null) : Fact;
}

/// <summary>How a package left the cellar.</summary>
[JsonConverter(typeof(CodeWordJson<RemovedAs>))]
public enum RemovedAs
{
    /// <summary>Used up.</summary>
    Finished,

    /// <summary>Given away.</summary>
    Given,

    /// <summary>Sold or traded.</summary>
    Sold,

    /// <summary>Thrown away.</summary>
    Discarded,

    /// <summary>Not found any more.</summary>
    Lost,

    /// <summary>Its leaf went into other packages of the same lot.</summary>
    Split,
}
