using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;
using Undercroft.Shell;

namespace Undercroft.Keeping.Troubles;

/// <summary>What a tree says after some answers.</summary>
/// <param name="Tree">Its code.</param>
/// <param name="Title">For people.</param>
/// <param name="First">What to do before anything else.</param>
/// <param name="Path">Answers so far.</param>
/// <param name="Question">The next question; null at an end.</param>
/// <param name="How">How to find out.</param>
/// <param name="Answers">Code and word of each.</param>
/// <param name="End">The end; null while there are questions.</param>
/// <param name="Evidence">What the ledger knows that bears on it.</param>
public sealed record TroubleSaid(
    string Tree, string Title, string First, IReadOnlyList<string> Path, string? Question, string? How, IReadOnlyList<TroubleChoice> Answers, TroubleEnd? End, IReadOnlyList<string> Evidence);

/// <summary>An answer that can be given.</summary>
public sealed record TroubleChoice(string Code, string Word);

/// <summary>An end with its day.</summary>
/// <param name="Decision">watch, isolate, reseal, move, enjoy-soon or discard.</param>
/// <param name="Verdict">First line.</param>
/// <param name="Reason">Why, and how sure.</param>
/// <param name="Do">In order.</param>
/// <param name="LookAgain">ISO day.</param>
/// <param name="Caution">What belongs there.</param>
public sealed record TroubleEnd(string Decision, string Verdict, string Reason, IReadOnlyList<string> Do, string LookAgain, string Caution);

/// <summary>The question trees.</summary>
public static class TroubleTrees
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<Trouble> All { get; } = [MouldTree.Tree, BulgeTree.Tree, BeetleTree.Tree, AfterTrees.Heat, AfterTrees.Power, AfterTrees.Flood, AfterTrees.Move];

    /// <summary>The tree of a code.</summary>
    /// <exception cref="Refusal">None; the message lists them.</exception>
    public static Trouble Of(string code) => All.FirstOrDefault(tree => string.Equals(tree.Code, code, StringComparison.OrdinalIgnoreCase))
        ?? throw new Refusal($"There are no questions for '{code}'. There are: {string.Join(", ", All.Select(tree => tree.Code))}.");

    /// <summary>What a tree says.</summary>
    public static TroubleSaid Say(Trouble tree, IReadOnlyList<string> answers, Cellar cellar, Package? package, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentNullException.ThrowIfNull(answers);
        var step = tree.After(answers);
        var ask = step as Step.Ask;
        return new(
            tree.Code, tree.Title, tree.First, [.. answers], ask?.Question, ask?.How, ask is null ? [] : [.. ask.Answers.Select(answer => new TroubleChoice(answer.Code, answer.Word))],
            step is Step.End end ? new(CodeWords.Of(end.As), end.Verdict, end.Reason, end.Do, DateText.Of(today.AddDays(end.LookAgainAfterDays)), end.Caution) : null,
            package is null ? [] : [.. Evidence(tree, cellar, package)]);
    }

    /// <summary>The lines that write an end down: what was seen, and what was decided.</summary>
    /// <exception cref="Refusal">The questions have not ended.</exception>
    public static IReadOnlyList<Said> Lines(Trouble tree, IReadOnlyList<string> answers, Package package, Present present)
    {
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentNullException.ThrowIfNull(package);
        ArgumentNullException.ThrowIfNull(present);
        if (tree.After(answers) is not Step.End end)
            throw new Refusal("The questions have not ended yet: answer the next one first.");
        var on = Ledger.Dates.UnevenDate.On(present.Today);
        var why = $"{tree.Title}: {end.Verdict}";
        List<Said> lines = end.Seen is { } seen ? [new(new Fact.PackageLooked(package.Id, [seen], Text: tree.Title), on)] : [];
        lines.Add(new(new Fact.Decided(package.Id, end.As, present.Today.AddDays(end.LookAgainAfterDays), why), on));
        return lines;
    }

    /// <summary>Writes an end down, all or none; taking the first line back takes all of it back.</summary>
    public static async ValueTask<Kept> Keep(ICellars cellars, Func<Cellar, Present> presentOf, string typedId, Trouble tree, IReadOnlyList<string> answers)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(presentOf);
        PackageId id = default;
        var change = await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            var package = cellar.FindPackage(typedId);
            id = package.Id;
            List<CellarEvent> lines = [];
            foreach (var said in Lines(tree, answers, package, present))
                lines.Add(CellarEvent.New(said.Fact, said.Happened, present.Now, cause: lines.FirstOrDefault()?.Id));
            return Recording.Checked(cellar, [.. lines]);
        });
        return new(change.Events, change.After, change.After.Packages[id], Recording.NewDoubts(change, id));
    }

    private static IEnumerable<string> Evidence(Trouble tree, Cellar cellar, Package package)
    {
        if (package.Humidities.LastOrDefault() is { Fact: { } read } humidity)
            yield return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Humidity inside was {read.Humidity.Percent:0.#} % on {DateText.Of(humidity.Entry.Happened)}.");
        if (tree == BulgeTree.Tree || tree == AfterTrees.Move || tree == AfterTrees.Heat)
        {
            foreach (var look in package.Looks.Where(look => look.Fact.Bulge is not null))
                yield return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Its dome was {look.Fact.Bulge!.Value.Millimetres:0.#} mm high on {DateText.Of(look.Entry.Happened)}.");
            if (Climb(cellar, package) is { } metres)
                yield return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"It now stands {Math.Abs(metres):0} m {(metres > 0 ? "higher" : "lower")} than where it was first put.");
            else if (package.Moves.Any() && cellar.AltitudeAt(package.Place).Mid is { } height)
                yield return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"It was moved to a place at {height.Metres:0} m; how high the place before lies is not written down.");
        }

        if (tree == BeetleTree.Tree)
        {
            Package[] near = [.. cellar.Here.Where(other => other.Id != package.Id && (other.Lot == package.Lot || (other.Place is not null && other.Place == package.Place)))];
            var open = near.Where(other => IsSoft(cellar, other)).ToArray();
            if (near.Length > 0)
                yield return $"{near.Length} others are of its lot or stand at its place; bags, pouches and open ones among them, to be looked at first: {(open.Length == 0 ? "none" : string.Join(", ", open.Take(20).Select(other => other.Id)))}.";
        }

        if (tree == AfterTrees.Flood && package.Container.Kind is { } kind && KnownKinds.Find(cellar, kind) is { } known)
            yield return $"By your records it is a {known.Name}.";
    }

    private static bool IsSoft(Cellar cellar, Package package) => package.IsOpen || package.Container.Kind is not { } kind || KnownKinds.Find(cellar, kind) is not { } known || known.Vessel is Vessel.Bag or Vessel.Pouch;

    private static double? Climb(Cellar cellar, Package package)
    {
        var first = (package.Timeline[0].Fact as Fact.PackagesAdded)?.Place;
        var (from, to) = (cellar.AltitudeAt(first).Mid?.Metres, cellar.AltitudeAt(package.Place).Mid?.Metres);
        return to - from is { } metres && Math.Abs(metres) >= 1 ? metres : null;
    }
}
