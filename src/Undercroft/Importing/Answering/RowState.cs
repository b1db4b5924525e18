using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Answering;

/// <summary>A doubtful row as it stands after all that was answered about it.</summary>
internal sealed class RowState
{
    private static readonly string[] AcrossRows = ["twin", "label-twice"];

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
    public static RowState Of(Timed<Fact.RowDoubted> doubt, IReadOnlyList<Fact.RowAnswered> answers, RowFacts? source)
    {
        var left = answers.Any(answer => answer.LeftOut);
        if (source?.Context is null)
        {
            Question[] only = [new Question("other", doubt.Fact.Reason, -1, [])];
            return new RowState(doubt, answers, null, null, left ? [] : [.. only.Where(question => !IsDecided(answers, question))]);
        }

        return Answered(answers, source) is not { } facts ? new RowState(doubt, answers, source, null, []) : new RowState(doubt, answers, source, facts, [.. facts.Questions.Where(question => !IsDecided(answers, question))]);
    }

    /// <summary>The row read again with what was answered about it; null where it was left out.</summary>
    public static RowFacts? Answered(IReadOnlyList<Fact.RowAnswered> answers, RowFacts source)
    {
        if (answers.Any(answer => answer.LeftOut))
            return null;
        var cells = answers.SelectMany(answer => answer.Cells ?? []).ToList();
        var taken = answers.Any(answer => answer.Taken);
        var facts = source.Context is not { } context || (cells.Count == 0 && !taken) ? source : context.Again(source, cells, taken);
        if (!ReferenceEquals(facts, source))
        {
            foreach (var question in source.Questions.Where(question => AcrossRows.Contains(question.Kind)))
                facts.Doubt(question.Kind, question.Reason, question.Column, question.Choices);
        }

        return facts;
    }

    // What was left as it is stays decided; what was changed is read again and asks again where it must.
    private static bool IsDecided(IReadOnlyList<Fact.RowAnswered> answers, Question question) =>
        answers.Any(answer => answer is { Cells: null, LeftOut: false, Taken: false } && answer.Question == question.Reason);
}
