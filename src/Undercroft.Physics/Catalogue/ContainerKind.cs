using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Catalogue;

/// <summary>What a person calls a package on the screen.</summary>
public enum Vessel
{
    /// <summary>Glass.</summary>
    Jar,

    /// <summary>Metal.</summary>
    Tin,

    /// <summary>Heat-sealed film.</summary>
    Pouch,

    /// <summary>Film with a zip, a fold or a clip.</summary>
    Bag,
}

/// <summary>One path of a container kind with its spread.</summary>
/// <param name="Median">Conductances of the middle specimen.</param>
/// <param name="LogSd">Spread of one specimen about its kind.</param>
/// <param name="SharedLogSd">Spread that all specimens of the kind have in common: what ten weighed jars teach about the eleventh.</param>
/// <param name="Evidence">What the median and the spread rest on.</param>
public sealed record PathKind(ExchangePath Median, double LogSd, double SharedLogSd, Evidence Evidence);

/// <summary>How often a closure is bad, and what it passes then. Failure is a mixture, not the tail of one spread.</summary>
/// <param name="DefectiveAtSealing">Probability that it never closed.</param>
/// <param name="HazardPerYear">Rate at which sound ones fail later: gasket ageing, rust, creep of film.</param>
/// <param name="WhenFailed">The extra path of a failed closure.</param>
/// <param name="Evidence">What the rates rest on; wide assumptions as a rule.</param>
public sealed record ClosureFailure(double DefectiveAtSealing, double HazardPerYear, PathKind WhenFailed, Evidence Evidence);

/// <summary>When to look, at what, and what counts as bad.</summary>
/// <param name="FirstAfterDays">Days from sealing to the first look.</param>
/// <param name="ThenEveryDays">Days between later looks.</param>
/// <param name="Check">What to do before the shelf, in a few words.</param>
/// <param name="BadIf">What counts as bad.</param>
/// <param name="Evidence">Common practice throughout.</param>
public sealed record InspectionHabit(int FirstAfterDays, int ThenEveryDays, string Check, string BadIf, Evidence Evidence);

/// <summary>A sort of jar, tin, pouch or bag.</summary>
/// <param name="Code">Short stable name for the command line and the ledger, such as <c>jar-473</c>.</param>
/// <param name="Name">For people.</param>
/// <param name="Vessel">Jar, tin, pouch or bag.</param>
/// <param name="Capacity">Inner volume; for pouches and bags the volume at which the walls are taut.</param>
/// <param name="CapacityEvidence">Of the capacity.</param>
/// <param name="TypicalTare">Mass of the empty container with its closure, or null where nobody knows: weigh it.</param>
/// <param name="Flexible">True for pouches and bags.</param>
/// <param name="ResidualPressure">Absolute pressure left inside by sealing, or null where it is sealed at room pressure.</param>
/// <param name="Paths">Sound specimens: the ways out.</param>
/// <param name="Failure">Unsound ones.</param>
/// <param name="Habit">When to look at what.</param>
/// <param name="Horizon">For how long practice trusts it, in words.</param>
/// <param name="Caution">Where handling can hurt someone; else null.</param>
public sealed record ContainerKind(
    string Code,
    string Name,
    Vessel Vessel,
    Volume Capacity,
    Evidence CapacityEvidence,
    Mass? TypicalTare,
    bool Flexible,
    Pressure? ResidualPressure,
    IReadOnlyList<PathKind> Paths,
    ClosureFailure Failure,
    InspectionHabit Habit,
    string Horizon,
    string? Caution)
{
    /// <summary>What the tare rests on; null where there is none.</summary>
    public Evidence? TareEvidence { get; init; }

    /// <summary>True where one can look at the leaf without opening.</summary>
    public bool SeeThrough { get; init; }

    /// <summary>True where the maker closed it: opening ends this kind, and what sealed leaf is worth with it.</summary>
    public bool FactorySealed { get; init; }

    /// <summary>True where a factory package stays whole: it is one, or it goes in unopened.</summary>
    public bool KeepsFactoryPack { get => field || FactorySealed; init; }

    /// <summary>True where sealing presses the leaf.</summary>
    public bool PressesLeaf { get; init; }

    /// <summary>How much leaf usually goes in, or null where it depends on the cut alone.</summary>
    public Mass? UsualContents { get; init; }

    /// <summary>What it costs to pack one, in the person's own money as a rough figure; null where it comes with the leaf.</summary>
    public PackingCost? Cost { get; init; }
}
