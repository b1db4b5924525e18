using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Answering;

/// <summary>The rows that wait for an answer, as the ledger and the kept files tell: it can be left at any time, and what is open is found again.</summary>
internal sealed class RowQueue
{
    private readonly Cellar cellar;
    private readonly DataFolder folder;
    private readonly KeptSheets kept;
    private readonly ILookup<Guid, Fact.RowAnswered> answers;
    private readonly Dictionary<string, Dictionary<(string Sheet, int Row), RowFacts>> rows = [];
    private readonly Dictionary<string, SheetReading?> readings = [];
    private readonly Dictionary<string, OtherRows?> others = [];

    public RowQueue(Cellar cellar, DataFolder folder, KeptSheets kept)
    {
        this.cellar = cellar;
        this.folder = folder;
        this.kept = kept;
        answers = cellar.RowAnswers.ToLookup(answer => answer.Fact.Doubt, answer => answer.Fact);
    }

    /// <summary>Every row that waits, in the order of the ledger.</summary>
    public IReadOnlyList<RowState> Open() => [.. cellar.OpenRows.Select(State)];

    /// <summary>The row of a line of the ledger, answered or not.</summary>
    /// <exception cref="Refusal">The line keeps no doubt.</exception>
    public RowState At(long line)
    {
        foreach (var doubt in cellar.DoubtfulRows)
        {
            if (doubt.Entry.Version == line)
                return State(doubt);
        }

        throw new Refusal($"Line {line} of the ledger is no doubtful row. The queue names the line of each: undercroft doubts.");
    }

    /// <summary>The state of a doubt.</summary>
    public RowState State(Timed<Fact.RowDoubted> doubt) => RowState.Of(doubt, [.. answers[doubt.Entry.Event]], Source(doubt.Fact), answers.Count > 0 ? Others(doubt.Fact.Sha256) : null);

    /// <summary>The rows of a file as they stand now; null where it is not kept any more.</summary>
    public OtherRows? Others(string sha256)
    {
        if (!others.TryGetValue(sha256, out var known))
            others[sha256] = known = OthersWith(sha256, new Dictionary<(string, int), RowFacts?>());
        return known;
    }

    /// <summary>The same with rows as they are about to stand.</summary>
    public OtherRows? OthersWith(string sha256, IReadOnlyDictionary<(string Sheet, int Row), RowFacts?> changing)
    {
        if (Reading(sha256) is not { } reading)
            return null;
        var answered = new Dictionary<(string, int), RowFacts?>();
        foreach (var doubt in cellar.DoubtfulRows)
        {
            if (doubt.Fact.Sha256 == sha256 && answers[doubt.Entry.Event].ToList() is { Count: > 0 } given && Source(doubt.Fact) is { } source)
                answered[(source.Sheet, source.Row)] = RowState.Answered(given, source);
        }

        foreach (var (at, facts) in changing)
            answered[at] = facts;
        return new OtherRows(reading, answered);
    }

    /// <summary>Waiting rows with such a question, the same answer to which means the same.</summary>
    public static IEnumerable<RowState> Alike(IEnumerable<RowState> open, RowState row, Question question) => open.Where(other =>
        other.Doubt.Entry.Event != row.Doubt.Entry.Event && other.Doubt.Fact.Sha256 == row.Doubt.Fact.Sha256 && other.Open.Any(asked => IsAlike(asked, question)));

    /// <summary>True for questions that one answer serves.</summary>
    public static bool IsAlike(Question one, Question other) => one.Kind == other.Kind && one.Column == other.Column && one.Kind != "other";

    /// <summary>The queue for a door.</summary>
    public static IReadOnlyList<QueuedRow> Shown(Cellar cellar, IReadOnlyList<RowState> open)
    {
        var alike = open.SelectMany(row => row.Open.Select(question => Key(row, question)).Distinct()).GroupBy(key => key).ToDictionary(group => group.Key, group => group.Count() - 1);
        var packages = RowsPackages.Of(cellar);
        return [.. open.Select(row => new QueuedRow(
            row.Doubt.Entry.Version,
            row.Doubt.Fact.File,
            row.Doubt.Fact.Sheet,
            row.Doubt.Fact.Row,
            row.Source is not null && packages.LinesOf(row.Doubt).Count == 0,
            [.. packages.LinesOf(row.Doubt).SelectMany(line => line.Fact is Fact.PackagesAdded added ? added.Packages : []).Select(id => id.ToString())],
            Cells(row),
            [.. row.Open.Select((question, n) => new QueuedQuestion(n + 1, question.Kind, question.Reason,
                [.. question.Choices.Select((choice, m) => new QueuedChoice(m + 1, choice.Code, choice.Words))], question.Kind == "other" ? 0 : alike[Key(row, question)]))]))];
    }

    private static (string Sha256, string Kind, int Column) Key(RowState row, Question question) => (row.Doubt.Fact.Sha256, question.Kind, question.Column);

    private static QueuedCell[] Cells(RowState row)
    {
        if (row.Source?.Context is not { } context)
            return [.. row.Doubt.Fact.Cells.Select((text, n) => new QueuedCell(SheetMap.Letter(n), "", text))];
        var said = new Dictionary<string, string>();
        foreach (var cell in row.Answers.SelectMany(answer => answer.Cells ?? []))
            said[cell.Column] = cell.Text;
        return [.. context.Table.Columns.Select(column => new QueuedCell(SheetMap.Letter(column.Index), column.Head,
            said.GetValueOrDefault(SheetMap.Letter(column.Index)) ?? row.Source.Source[column.Index].Text.Trim())).Where(cell => cell.Head.Length > 0 || cell.Text.Length > 0)];
    }

    private RowFacts? Source(Fact.RowDoubted doubt)
    {
        if (!rows.TryGetValue(doubt.Sha256, out var byNumber))
        {
            byNumber = [];
            rows[doubt.Sha256] = byNumber;
            foreach (var row in Reading(doubt.Sha256)?.Rows ?? [])
                byNumber.TryAdd((row.Sheet, row.Row), row);
        }

        return byNumber.GetValueOrDefault((doubt.Sheet ?? "", doubt.Row));
    }

    private SheetReading? Reading(string sha256)
    {
        if (!readings.TryGetValue(sha256, out var reading))
        {
            var import = cellar.Imports.LastOrDefault(import => import.Fact.Sha256 == sha256);
            readings[sha256] = reading = import.Fact is null ? null : kept.Of(folder, import);
        }

        return reading;
    }
}
