namespace Undercroft.Believing;

/// <summary>A number as the belief has it and as the whole package comes out.</summary>
/// <param name="What">Of what.</param>
/// <param name="Shortcut">What the belief says or implies; null where it names no number.</param>
/// <param name="Whole">Worked out now, for the whole package.</param>
/// <param name="Unit">Of both; empty for a plain factor.</param>
public sealed record BeliefFigure(string What, double? Shortcut, double Whole, string Unit)
{
    /// <summary>By how much the whole package differs: whole over shortcut; null where that says nothing.</summary>
    public double? TimesShortcut => Shortcut is { } said && said > 0 && Whole > 0 ? Whole / said : null;
}

/// <summary>Something that people of the trade say, and what becomes of it.</summary>
/// <param name="Code">Short stable name.</param>
/// <param name="Says">The belief.</param>
/// <param name="Right">What is right in it.</param>
/// <param name="LeavesOut">What it leaves out.</param>
/// <param name="Work">The numbers, worked out in a laboratory; empty where nothing is to be computed.</param>
internal sealed record Belief(string Code, string Says, string Right, string LeavesOut, Func<Lab, IReadOnlyList<BeliefFigure>> Work);

/// <summary>A belief examined.</summary>
/// <param name="Code">Short stable name.</param>
/// <param name="Says">The belief.</param>
/// <param name="Provenance">Of the belief: common practice, no source. Its numbers are check values only.</param>
/// <param name="Verdict">In a line.</param>
/// <param name="Right">What is right in it.</param>
/// <param name="LeavesOut">What it leaves out.</param>
/// <param name="Figures">By how much the whole package differs.</param>
public sealed record BeliefExamined(string Code, string Says, string Provenance, string Verdict, string Right, string LeavesOut, IReadOnlyList<BeliefFigure> Figures);
