using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Answering;

/// <summary>A doubtful row as it stands after all that was answered about it.</summary>
internal sealed class RowState
{
    private RowState(Timed<Fact.RowDoubted> doubt, IReadOnlyList<Fact.RowAnswered> answers, RowFacts? source, RowFacts? facts, IReadOnlyList<Question> open)
    {
        Doubt = doubt;
        Answers = answers;
        Source = source;
        Facts = facts;
        Open = open;
    }

    public Timed<Fact.RowDoubted> Doubt { get; }

    public IReadOnlyList<Fact.RowAnswered> Answers { get; }

    /// <summary>As the file has it; null where the file is gone, or where it is a row of sums.</summary>
    public RowFacts? Source { get; }

    /// <summary>With the answers; null where it is not to be in the cellar.</summary>
    public RowFacts? Facts { get; }

    /// <summary>What is still asked.</summary>
    public IReadOnlyList<Question> Open { get; }

    /// <summary>The state of a row.</summary>
    /// <param name="doubt">As the ledger keeps it.</param>
    /// <param name="answers">What was answered about it.</param>
    /// <param name="source">As the file has it, or null.</param>
    /// <param name="others">The other rows as they stand now, or null where the file is gone.</param>
    public static RowState Of(Timed<Fact.RowDoubted> doubt, IReadOnlyList<Fact.RowAnswered> answers, RowFacts? source, OtherRows? others)
    {
        if (source?.Context is null)
        {
            var asked = IsTotal(doubt.Fact) ? new Question("total", doubt.Fact.Reason, -1, RowsRight) : new Question("other", doubt.Fact.Reason, -1, []);
            return new RowState(doubt, answers, null, null, answers.Any(answer => answer.LeftOut) || IsDecided(answers, asked) ? [] : [asked]);
        }

        if (SheetUpdate.Question(doubt.Fact) is { } changed && !answers.Any(answer => answer.Question == changed.Reason))
            return new RowState(doubt, answers, source, source, answers.Any(answer => answer.LeftOut) ? [] : [changed]);
        if (SheetUpdate.IsAsked(doubt.Fact) && !answers.Any(answer => answer.Taken || answer.LeftOut))
            return new RowState(doubt, answers, source, source, []);
        if (Answered(answers, source) is not { } facts)
            return new RowState(doubt, answers, source, null, []);
        // What rests on other rows is asked anew of a row that reads otherwise.
        var questions = others is null || ReferenceEquals(facts, source)
            ? source == facts ? source.Questions : facts.Questions.Concat(source.Questions.Where(RowChecks.IsAcross))
            : facts.Questions.Concat(others.About(facts));
        return new RowState(doubt, answers, source, facts, [.. questions.Where(question => !IsDecided(answers, question))]);
    }

    /// <summary>True for a row of sums that does not add up.</summary>
    public static bool IsTotal(Fact.RowDoubted doubt) => doubt.Reason.Contains(SheetUnderstanding.TotalMark, StringComparison.Ordinal);

    /// <summary>The row read again with what was answered about it; null where it was left out.</summary>
    public static RowFacts? Answered(IReadOnlyList<Fact.RowAnswered> answers, RowFacts source)
    {
        if (answers.Any(answer => answer.LeftOut))
            return null;
        var cells = answers.SelectMany(answer => answer.Cells ?? []).ToList();
        var taken = answers.Any(answer => answer.Taken);
        return source.Context is not { } context || (cells.Count == 0 && !taken) ? source : context.Again(source, cells, taken);
    }

    private static IEnumerable<Choice> RowsRight => [new Choice("rows-right", "the rows are right: the total is out of date or counts something else")];

    // What was left as it is stays decided; what was changed is read again and asks again where it must.
    private static bool IsDecided(IReadOnlyList<Fact.RowAnswered> answers, Question question) =>
        answers.Any(answer => answer is { Cells: null, LeftOut: false, Taken: false } && answer.Question == question.Reason);
}
