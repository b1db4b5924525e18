using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Keeping.Rounds;

/// <summary>What a round looks for, in as few words as fit under a thumb.</summary>
internal static class RoundWords
{
    /// <summary>Code and word of each finding, in the order in which a hand goes over a package.</summary>
    internal static IReadOnlyList<(string Code, string Letter, string Word)> Findings { get; } =
    [
        (CodeWords.Of(Finding.LidLoose), "L", "lid or band loose"),
        (CodeWords.Of(Finding.LidLifted), "", "lid lifted"),
        (CodeWords.Of(Finding.FilmSlack), "F", "film slack"),
        (CodeWords.Of(Finding.FilmSplit), "", "film split"),
        (CodeWords.Of(Finding.Rust), "R", "rust"),
        (CodeWords.Of(Finding.SeamRust), "", "rust at the seam"),
        (CodeWords.Of(Finding.MouldSuspected), "M", "fuzz, musty, wet: mould?"),
        (CodeWords.Of(Finding.Crystals), "C", "crystals"),
        (CodeWords.Of(Finding.Condensation), "W", "drops inside"),
        (CodeWords.Of(Finding.Darkened), "D", "darker"),
        (CodeWords.Of(Finding.CrispEdges), "", "edges crisp"),
        (CodeWords.Of(Finding.Insects), "", "holes, dust, beetles"),
        (CodeWords.Of(Finding.LabelLost), "", "label off"),
    ];

    /// <summary>Findings of ringed letters, as on the sheet of paper.</summary>
    /// <exception cref="Refusal">A letter that is on no sheet.</exception>
    internal static IReadOnlyList<string> OfLetters(string? letters) =>
    [
        .. (letters ?? "").ToUpperInvariant().Where(char.IsLetter).Distinct().Select(letter =>
            Findings.FirstOrDefault(finding => finding.Letter == letter.ToString()).Code ?? throw new Refusal($"'{letter}' is none of the letters of the sheet: {string.Join(" ", Findings.Select(finding => finding.Letter).Where(known => known.Length > 0))}.")),
    ];
}
