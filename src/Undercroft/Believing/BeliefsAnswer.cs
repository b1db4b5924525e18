using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Believing;

/// <summary>Beliefs examined.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="Place">Where the numbers hold.</param>
/// <param name="Beliefs">Each with what is right, what it leaves out, and by how much the whole package differs.</param>
public sealed record BeliefsAnswer(string Verdict, string Place, IReadOnlyList<BeliefExamined> Beliefs)
{
    private static readonly Evidence Practice = new(Provenance.CommonPractice, "", "");
    private static readonly Belief[] Known = [.. PackBeliefs.All, .. WaterBeliefs.All, .. KeepingBeliefs.All];

    /// <summary>Examines them.</summary>
    /// <param name="cellar">Whose places.</param>
    /// <param name="today">The present.</param>
    /// <param name="codes">Which; empty for all.</param>
    /// <param name="place">A place of the cellar or a kind of room; null for a cupboard.</param>
    /// <exception cref="Refusal">An unknown belief or place.</exception>
    public static BeliefsAnswer Of(Cellar cellar, DateOnly today, IReadOnlyList<string> codes, string? place)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(codes);
        var lab = new Lab(cellar, today, string.IsNullOrWhiteSpace(place) ? null : place);
        Belief[] asked = codes.Count == 0 ? Known : [.. codes.Select(Find).Distinct()];
        BeliefExamined[] examined = [.. asked.Select(belief => Examined(belief, lab))];
        var apart = examined.SelectMany(belief => belief.Figures, (belief, figure) => (belief, figure)).Where(pair => pair.figure.TimesShortcut is not null)
            .OrderByDescending(pair => Math.Abs(Math.Log(pair.figure.TimesShortcut!.Value))).FirstOrDefault();
        var verdict = examined.Length == 1 ? examined[0].Verdict
            : apart.figure is null ? $"{examined.Length} beliefs examined."
            : $"{examined.Length} beliefs examined; furthest off: “{apart.belief.Says}” ({Difference(apart.figure)}).";
        return new(verdict, lab.Place.Name == "there" ? "cupboard inside the dwelling" : lab.Place.Name, examined);
    }

    private static BeliefExamined Examined(Belief belief, Lab lab)
    {
        var figures = belief.Work(lab);
        var strongest = figures.Where(figure => figure.TimesShortcut is not null).OrderByDescending(figure => Math.Abs(Math.Log(figure.TimesShortcut!.Value))).FirstOrDefault() ?? (figures.Count > 0 ? figures[0] : null);
        var verdict = strongest is null ? "Nothing to compute here: look, and when in doubt leave it alone." : Difference(strongest) + ".";
        return new(belief.Code, belief.Says, Practice.Tag, verdict, belief.Right, belief.LeavesOut, figures);
    }

    private static string Difference(BeliefFigure figure)
    {
        var whole = $"{figure.What}: {Number(figure.Whole)}{Unit(figure)}";
        return figure.Shortcut is { } said ? $"{whole}, not {Number(said)}" : whole;
    }

    /// <summary>A figure with its unit.</summary>
    internal static string Unit(BeliefFigure figure) => figure.Unit.Length == 0 ? "" : " " + figure.Unit;

    /// <summary>Two or three significant digits.</summary>
    internal static string Number(double value)
    {
        if (value == 0)
            return "0";
        var digits = Math.Abs(value) is >= 10 and < 1000 ? 1 : 2;
        var step = Math.Pow(10, Math.Floor(Math.Log10(Math.Abs(value))) + 1 - digits - (Math.Abs(value) is >= 10 and < 1000 ? 1 : 0));
        var rounded = Math.Round(value / step) * step;
        return rounded.ToString(Math.Abs(rounded) switch { < 0.1 => "0.####", < 10 => "0.##", _ => "#,0.#" }, CultureInfo.InvariantCulture);
    }

    private static Belief Find(string code) => Known.FirstOrDefault(belief => string.Equals(belief.Code, code.Trim(), StringComparison.OrdinalIgnoreCase))
        ?? throw new Refusal($"No belief is called '{code}'. Nearest: {string.Join(", ", Nearest.To(code, Known.Select(belief => belief.Code)).DefaultIfEmpty("see undercroft beliefs"))}.");
}
