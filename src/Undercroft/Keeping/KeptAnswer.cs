using System.Globalization;
using Spectre.Console;
using Undercroft.Forecasts;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Shell;

namespace Undercroft.Keeping;

/// <summary>A line of the ledger as people name it: its number.</summary>
/// <param name="Type">Registered name, such as <c>package-weighed/1</c>.</param>
/// <param name="Id">Number of the line, which <c>undo</c> and <c>correct</c> take.</param>
public sealed record EventName(string Type, string Id)
{
    /// <summary>Of a written line.</summary>
    public static EventName Of(CellarEvent line) => new(line.Fact.Type, line.Version.ToString(CultureInfo.InvariantCulture));
}

/// <summary>How a written fact is answered at every door: what was written, what it means for the package, what is odd about it.</summary>
/// <param name="Event">The line.</param>
/// <param name="Id">The package.</param>
/// <param name="Verdict">First line of its forecast now; of a package that has left, that it has.</param>
/// <param name="Doubts">What is surprising: kept all the same.</param>
public sealed record KeptAnswer(EventName Event, string? Id, string Verdict, IReadOnlyList<string> Doubts)
{
    /// <summary>For a fact about one package.</summary>
    public static KeptAnswer Of(Kept kept, Present present) => new(
        EventName.Of(kept.Events[^1]), kept.Package.Id.ToString(), VerdictOn(kept.After, kept.Package.Id, present), kept.Doubts);

    /// <summary>What the forecast says now of the water, which is all that a verdict is about: gas is left out so that writing a weight down takes no patience.</summary>
    public static string VerdictOn(Cellar cellar, PackageId id, Present present) => cellar.Packages.TryGetValue(id, out var package)
        ? package.IsHere
            ? Forecaster.Of(cellar, id, new ForecastAsk(present.Today) { WithNarrowing = false, WaterOnly = true }).Verdict
            : $"Gone: {CodeWords.Of(package.Removed!.Value.Fact.As)}."
        : "No longer in the cellar.";

    /// <summary>The answer for both kinds of reader.</summary>
    public Answer ToAnswer() => new(this, Print);

    private void Print(IAnsiConsole page)
    {
        page.WriteLine(Id is null ? Verdict : $"{Id}: {Verdict}");
        foreach (var doubt in Doubts)
            page.WriteLine($"Odd, and kept: {doubt}");
        page.WriteLine($"Written as line {Event.Id}; take it back with: undercroft undo {Event.Id}");
    }
}
