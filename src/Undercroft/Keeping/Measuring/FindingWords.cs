using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Keeping.Measuring;

/// <summary>Findings and feels in words for a form.</summary>
public static class FindingWords
{
    /// <summary>Everything that may be ticked.</summary>
    public static IReadOnlyList<(string Code, string Word)> Findings { get; } =
        [.. Enum.GetValues<Finding>().Where(finding => finding != Finding.AllWell).Select(finding => (CodeWords.Of(finding), Of(finding)))];

    /// <summary>Every feel for a choice.</summary>
    public static IReadOnlyList<(string Code, string Word)> Feels { get; } = [.. Enum.GetValues<Feel>().Select(feel => (CodeWords.Of(feel), Of(feel)))];

    /// <summary>What was seen.</summary>
    public static string Of(Finding finding) => finding switch
    {
        Finding.AllWell => "all is well",
        Finding.LidLoose => "lid or band turns too easily",
        Finding.LidLifted => "lid stands off the rim",
        Finding.FilmSlack => "film or pouch has gone slack",
        Finding.FilmSplit => "film or pouch is split",
        Finding.Bulge => "lid or wall is domed",
        Finding.Rust => "rust away from the seam",
        Finding.SeamRust => "rust along the seam",
        Finding.Dent => "a dent",
        Finding.Condensation => "drops on the inner wall",
        Finding.CrispEdges => "edges of the leaf are crisp",
        Finding.MouldSuspected => "fuzz, threads, a musty smell or wetness: treat as mould",
        Finding.Crystals => "glittering, flat, no threads",
        Finding.Darkened => "leaf has darkened",
        Finding.Insects => "holes, dust or beetles",
        Finding.LabelLost => "label cannot be read or is off",
        _ => throw new InvalidOperationException($"No words for the finding {finding}."),
    };

    /// <summary>How the leaf felt.</summary>
    public static string Of(Feel feel) => feel switch
    {
        Feel.Crumbles => "crumbles to dust",
        Feel.Breaks => "strands break when handled",
        Feel.CrispEdge => "pliable with a crisp edge",
        Feel.SpringsBack => "a pressed ball springs back",
        Feel.StaysPressed => "a pressed ball stays pressed",
        Feel.Damp => "quite damp",
        _ => throw new InvalidOperationException($"No words for the feel {feel}."),
    };
}
