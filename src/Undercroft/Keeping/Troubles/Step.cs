using Undercroft.Ledger.Events;

namespace Undercroft.Keeping.Troubles;

/// <summary>A step of a question tree: a question with its answers, or an end.</summary>
public abstract record Step
{
    private Step()
    {
    }

    /// <summary>A question that can be answered standing before the shelf.</summary>
    /// <param name="Question">In words.</param>
    /// <param name="How">How to find out; null where that is plain.</param>
    /// <param name="Answers">At least two; "not sure" is among them wherever a person may not know.</param>
    public sealed record Ask(string Question, string? How, IReadOnlyList<TroubleAnswer> Answers) : Step;

    /// <summary>What to do now. Never that anything is without danger.</summary>
    /// <param name="As">The decision that is offered.</param>
    /// <param name="Verdict">First line.</param>
    /// <param name="Reason">Why, and how sure that is.</param>
    /// <param name="Do">What to do, in order.</param>
    /// <param name="LookAgainAfterDays">Days to the next look; at others where this one is thrown away.</param>
    /// <param name="Caution">What belongs there.</param>
    /// <param name="Seen">The finding that is written down with it; null where nothing was seen.</param>
    public sealed record End(Decision As, string Verdict, string Reason, IReadOnlyList<string> Do, int LookAgainAfterDays, string Caution, Finding? Seen = null) : Step;
}

/// <summary>One answer.</summary>
/// <param name="Code">On the command line and in the address.</param>
/// <param name="Word">For people.</param>
/// <param name="Next">Where it leads.</param>
public sealed record TroubleAnswer(string Code, string Word, Step Next);

/// <summary>A question tree.</summary>
/// <param name="Code">On the command line and in the address.</param>
/// <param name="Title">For people.</param>
/// <param name="First">What to do before anything else.</param>
/// <param name="Root">Its first question.</param>
public sealed record Trouble(string Code, string Title, string First, Step Root)
{
    /// <summary>The step that answers lead to.</summary>
    /// <param name="answers">Codes, in order.</param>
    /// <exception cref="Ledger.Refusal">An answer that is none of the question's, or one too many.</exception>
    public Step After(IEnumerable<string> answers)
    {
        ArgumentNullException.ThrowIfNull(answers);
        var step = Root;
        foreach (var code in answers)
        {
            if (step is not Step.Ask ask)
                throw new Ledger.Refusal($"'{code}' is one answer too many: the questions ended before it.");
            step = ask.Answers.FirstOrDefault(answer => string.Equals(answer.Code, code, StringComparison.OrdinalIgnoreCase))?.Next
                ?? throw new Ledger.Refusal($"'{code}' does not answer \"{ask.Question}\" Answers: {string.Join(", ", ask.Answers.Select(answer => answer.Code))}.");
        }

        return step;
    }
}
