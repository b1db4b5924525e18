using System.Globalization;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Keeping.Measuring;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Keeping.Troubles;

/// <summary>What can be seen of a package whose label is gone; every part may be missing.</summary>
/// <param name="Code">What is left of its code, with <c>?</c> for what cannot be read, such as <c>2G?JX</c>.</param>
/// <param name="Container">Code of a container kind.</param>
/// <param name="Place">Where it was found.</param>
/// <param name="Cut">As it looks.</param>
/// <param name="Gross">What a scale shows, whole.</param>
/// <param name="Open">True where it stands open.</param>
public sealed record Unlabelled(string? Code = null, string? Container = null, string? Place = null, string? Cut = null, string? Gross = null, bool? Open = null)
{
    /// <summary>Nothing at all was said.</summary>
    public bool IsBlank => this with { Open = null } == new Unlabelled();
}

/// <summary>A package that it may be.</summary>
/// <param name="Id">Its code.</param>
/// <param name="What">In words.</param>
/// <param name="Share">How likely, among all packages here and none of them.</param>
/// <param name="For">What speaks for it.</param>
/// <param name="Against">What speaks against it.</param>
public sealed record MayBe(string Id, string What, double Share, IReadOnlyList<string> For, IReadOnlyList<string> Against);

/// <summary>Which package it may be.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="Candidates">Likeliest first.</param>
/// <param name="NoneShare">How likely it is none of those in the ledger.</param>
/// <param name="Test">Two minutes that would tell the first two apart.</param>
/// <param name="LookAgain">ISO day.</param>
/// <param name="Caution">What belongs there.</param>
public sealed record Identified(string Verdict, IReadOnlyList<MayBe> Candidates, double NoneShare, string Test, string LookAgain, string Caution);

/// <summary>Ranks the packages of the cellar by how well what is seen fits what the ledger says of them.</summary>
/// <remarks>
/// Every weight is an assumption: how often a person names the kind of jar rightly (19 of 20 as against 1 of 10 at random), finds a package where it should stand (4 of 5), tells a cut (4 of 5), and how far a scale
/// may be off what the book says (3 g or 2 %, whichever is more, and leaf dries). They are multiplied as if independent. The shares are for ranking, not for betting.
/// </remarks>
public static class Identify
{
    private const double NoneOfThem = 0.05; // before anything is seen (assumption)
    private const int Named = 5;

    /// <summary>The candidates.</summary>
    /// <exception cref="Refusal">Nothing was said, or a word that is not known.</exception>
    public static Identified Of(Cellar cellar, Unlabelled seen, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(seen);
        if (seen.IsBlank)
            throw new Refusal("Say what you see of it: its jar, where it stood, its cut, what a scale shows, or what is left of its code.");
        Package[] here = [.. cellar.Here];
        if (here.Length == 0)
            throw new Refusal("There is no package in the ledger that it could be. Add it as it stands.");
        var clues = Clues(cellar, seen);
        var weighed = here.Select(package => Weighed(cellar, package, clues, (1 - NoneOfThem) / here.Length)).ToArray();
        var none = NoneOfThem * clues.Aggregate(1.0, (product, clue) => product * clue.AtRandom);
        var sum = none + weighed.Sum(candidate => candidate.Share);
        MayBe[] ranked = [.. weighed.Select(candidate => candidate with { Share = candidate.Share / sum }).OrderByDescending(candidate => candidate.Share).ThenBy(candidate => candidate.Id, StringComparer.Ordinal).Take(Named)];
        return new(
            Verdict(ranked, none / sum), ranked, none / sum, Test(cellar, ranked, seen), DateText.Of(today.AddDays(14)),
            "Do not guess silently: keep it as unknown, probably the first, until the test is done. Leaf of unknown origin that is fuzzy, musty or wet is not smoked or tasted. " + Cautions.Mould);
    }

    private static string Verdict(MayBe[] ranked, double none)
    {
        var first = ranked[0];
        var share = first.Share.ToString("0 %", CultureInfo.InvariantCulture);
        return none > first.Share ? "Probably none of those in the ledger: add it as it stands."
            : first.Share >= 0.9 ? $"Very probably {first.Id}, {first.What} ({share})."
            : first.Share >= 0.5 ? $"Probably {first.Id}, {first.What} ({share}); perhaps {ranked.ElementAtOrDefault(1)?.Id ?? "none of them"}."
            : $"Not told apart yet: {string.Join(", ", ranked.Take(3).Select(candidate => $"{candidate.Id} {candidate.Share.ToString("0 %", CultureInfo.InvariantCulture)}"))}.";
    }

    private static string Test(Cellar cellar, MayBe[] ranked, Unlabelled seen)
    {
        if (ranked.Length < 2)
            return "Weigh it whole and compare with its last weighing.";
        var (first, second) = (cellar.FindPackage(ranked[0].Id), cellar.FindPackage(ranked[1].Id));
        if (seen.Gross is null && Gross(first) is { } one && Gross(second) is { } two && Math.Abs(one - two) > 5)
            return string.Create(CultureInfo.InvariantCulture, $"Weigh it whole: {first.Id} was {one:0} g, {second.Id} {two:0} g.");
        if (seen.Cut is null && cellar.BlendOf(first).Cut is { } cut && cellar.BlendOf(second).Cut is { } other && cut != other)
            return $"Look at the cut: {first.Id} is {cut}, {second.Id} {other}.";
        if (first.Lot == second.Lot)
            return "They are of one lot: either code will do; look which of the two is missing at its place.";
        return seen.Place is null ? "Find out where it stood: the gap on the shelf names it." : "Look for the two at their places: the one that is missing is this one.";
    }

    private static MayBe Weighed(Cellar cellar, Package package, IReadOnlyList<Clue> clues, double share)
    {
        List<string> speaksFor = [], against = [];
        foreach (var clue in clues)
        {
            var (likely, words) = clue.Of(package);
            share *= likely;
            if (words is null)
                continue;
            (likely > clue.AtRandom ? speaksFor : against).Add(words);
        }

        if (Findings.Unmended(package)?.Fact.Findings.Contains(Finding.LabelLost) == true)
        {
            share *= 5; // its label was seen to come off (assumption)
            speaksFor.Add("its label was seen to come off");
        }

        return new(package.Id.ToString(), $"{PackageWords.Title(cellar, package)}, {PackageWords.Container(cellar, package)}, {PackageWords.Place(cellar, package)}", share, speaksFor, against);
    }

    private static List<Clue> Clues(Cellar cellar, Unlabelled seen)
    {
        List<Clue> clues = [];
        if (seen.Code is { } code)
            clues.Add(CodeClue(code.Trim().ToUpperInvariant()));
        if (seen.Container is { } typed)
        {
            var kind = Kinds.Container(cellar, typed);
            clues.Add(new(0.1, package => package.Container.Kind is not { } own ? (0.1, null)
                : own == kind.Code ? (0.95, "the same kind of container") : (0.01, $"another kind of container: {PackageWords.Container(cellar, package)}")));
        }

        if (seen.Place is { } where)
        {
            var place = cellar.FindPlace(where).Id;
            var places = Math.Max(2, cellar.Places.Count);
            clues.Add(new(1.0 / places, package => package.Place is null ? (1.0 / places, null)
                : cellar.Outwards(package.Place).Any(outer => outer.Id == place) || cellar.Outwards(place).Any(outer => outer.Id == package.Place) ? (0.8, "it should stand there")
                : (0.2 / places, $"it should stand at {PackageWords.Place(cellar, package)}")));
        }

        if (seen.Cut is { } cut)
        {
            clues.Add(new(0.2, package => cellar.BlendOf(package).Cut is not { } own ? (0.2, null)
                : own.Equals(cut.Trim(), StringComparison.OrdinalIgnoreCase) ? (0.8, $"cut alike: {own}") : (0.05, $"another cut: {own}")));
        }

        if (seen.Open is { } open)
            clues.Add(new(0.5, package => package.IsOpen == open ? (0.9, open ? "it stands open" : null) : (0.1, open ? "it should be closed" : "it should stand open")));
        if (seen.Gross is { } scale)
            clues.Add(WeightClue(Measure.Mass(scale).Grams));
        return clues;
    }

    private static Clue CodeClue(string code)
    {
        if (code.Length != 5 || !code.Any(sign => sign != '?'))
            throw new Refusal($"'{code}' is not what is left of a code: write five signs, with ? for each that cannot be read, such as 2G?JX.");
        return new(Math.Pow(1 / 32.0, code.Count(sign => sign != '?')), package =>
        {
            var own = package.Id.ToString();
            var wrong = code.Where((sign, n) => sign != '?' && sign != own[n]).Count();
            return wrong == 0 ? (1, "what is left of the code fits") : (Math.Pow(0.01, wrong), $"{wrong} of the signs left of the code differ");
        });
    }

    /// <summary>A wide bell around what the book says; where the book says nothing, as likely as any.</summary>
    private static Clue WeightClue(double grams)
    {
        const double AtRandom = 0.002; // a gram somewhere within half a kilogram
        return new(AtRandom, package =>
        {
            if (Gross(package) is not { } book)
                return (AtRandom, null);
            var width = Math.Max(3, 0.02 * book);
            var off = grams - book;
            var likely = Math.Max(1e-6, Math.Exp(-0.5 * off * off / (width * width)) / (width * Math.Sqrt(2 * Math.PI)));
            var words = string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(off):0.#} g {(off < 0 ? "less" : "more")} than on record");
            return (likely, words);
        });
    }

    private static double? Gross(Package package) =>
        package.Weighings.LastOrDefault(weighing => !weighing.Fact.Net) is { Fact: { } weighed } ? weighed.Mass.Grams
        : package.Gross.Mid?.Grams ?? (package.BookNet.Mid is { } net && package.Container.Tare.Mid is { } tare ? net.Grams + tare.Grams : null);

    /// <summary>Something seen: how likely it is on a package that is not in the ledger, and on one that is.</summary>
    private sealed record Clue(double AtRandom, Func<Package, (double Likely, string? Words)> Of);
}
