using Undercroft.Importing.Rows;

namespace Undercroft.Importing.Answering;

/// <summary>Checks across the rows of a file, repeated with every row as it was answered: the same label twice, the same row twice, totals.</summary>
internal sealed class OtherRows
{
    private readonly List<RowFacts> now;
    private readonly bool unique;
    private readonly ILookup<string, RowFacts> labels;
    private readonly ILookup<RowFacts, RowFacts> twins;
    private readonly Lazy<HashSet<(string Sheet, int Row, string Which)>> wrongTotals;

    /// <param name="reading">The file as it was read.</param>
    /// <param name="answered">Rows as they stand after their answers; null for those left out.</param>
    public OtherRows(SheetReading reading, IReadOnlyDictionary<(string Sheet, int Row), RowFacts?> answered)
    {
        now = [.. reading.Rows.Select(row => answered.TryGetValue((row.Sheet, row.Row), out var after) ? after : row).OfType<RowFacts>()];
        unique = RowChecks.LabelsAreUnique(reading.Rows);
        labels = now.Where(row => RowChecks.LabelOf(row) is not null).ToLookup(row => RowChecks.LabelOf(row)!);
        twins = now.Where(SameCells.Tells).ToLookup(row => row, SameCells.Instance);
        wrongTotals = new(() => Wrong(reading));
    }

    /// <summary>What is asked about a row because of others, as it now reads.</summary>
    public IEnumerable<Question> About(RowFacts row)
    {
        if (unique && RowChecks.LabelOf(row) is { } label && labels[label].FirstOrDefault(other => !Same(other, row)) is { } labelled)
            yield return RowChecks.LabelTwice(row, labelled);
        if (SameCells.Tells(row) && twins[row].FirstOrDefault(other => !Same(other, row)) is { } twin)
            yield return RowChecks.Twin(row, twin);
    }

    /// <summary>True where a question that rests on other rows is still to be asked.</summary>
    public bool Holds(RowFacts row, Question question) => !RowChecks.IsAcross(question) || About(row).Any(asked => asked.Kind == question.Kind);

    /// <summary>True where a total still does not add up.</summary>
    public bool TotalDiffers(string sheet, int row, string reason) => wrongTotals.Value.Contains((sheet, row, Which(reason)));

    private HashSet<(string Sheet, int Row, string Which)> Wrong(SheetReading reading)
    {
        var byTable = now.ToLookup(row => row.Context!.Table);
        return [.. reading.Tables.Where(table => byTable[table].Any()).SelectMany(table =>
        {
            var context = byTable[table].First().Context!;
            return TablePass.TotalsAgain(table, context.Setting, context.Cache, byTable[table].ToDictionary(row => row.Row));
        }).Select(doubt => (doubt.Sheet, doubt.Row, Which(doubt.Reason)))];
    }

    // "The total '500' under 'Net'", without what the rows add up to.
    private static string Which(string reason) => reason.IndexOf(SheetUnderstanding.TotalMark, StringComparison.Ordinal) is > 0 and var at ? reason[..at] : reason;

    private static bool Same(RowFacts one, RowFacts other) => one.Sheet == other.Sheet && one.Row == other.Row;
}
