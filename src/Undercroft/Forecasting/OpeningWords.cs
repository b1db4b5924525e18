using Undercroft.Forecasts;
using Undercroft.Ledger;

namespace Undercroft.Forecasting;

/// <summary>Openings in words.</summary>
internal static class OpeningWords
{
    /// <summary>For a choice.</summary>
    internal static IReadOnlyList<(string Code, string Word)> Choices { get; } =
        [(CodeWords.Of(Opening.InUse), "opened today and used"), (CodeWords.Of(Opening.LeftAlone), "closed and left alone"), (CodeWords.Of(Opening.Monthly), "opened for a moment once a month")];

    /// <summary>What was meant; null where nothing was said.</summary>
    /// <exception cref="Refusal">It is none of the choices.</exception>
    internal static Opening? Read(string? typed)
    {
        return typed is null ? null : CodeWords.Find<Opening>(typed) ?? throw new Refusal($"'{typed}' is no way of opening. Say {string.Join(", ", CodeWords.All<Opening>())}.");
    }
}
