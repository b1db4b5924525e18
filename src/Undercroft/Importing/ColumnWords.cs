using Undercroft.Importing.Rows;

namespace Undercroft.Importing;

/// <summary>What a column is about, in words for a choice.</summary>
internal static class ColumnWords
{
    internal static string Of(Meaning meaning) => meaning switch
    {
        Meaning.Other => "something else: kept as a note",
        Meaning.Blend => "what it is called",
        Meaning.Maker => "who made it",
        Meaning.Leaf => "kinds of leaf",
        Meaning.Cut => "how it is cut",
        Meaning.Quantity => "amount and count in one, such as 2x50g",
        Meaning.Each => "leaf in each package",
        Meaning.Total => "leaf in all packages of the row",
        Meaning.Left => "leaf that is left",
        Meaning.Gross => "weight with the container",
        Meaning.Tare => "weight of the empty container",
        Meaning.Count => "how many packages",
        Meaning.Unit => "unit of the amounts",
        Meaning.Container => "what it is kept in",
        Meaning.Made => "when it was made or tinned",
        Meaning.Sealed => "when it was closed",
        Meaning.Bought => "when it was bought",
        Meaning.Date => "a date, not said of what",
        Meaning.Opened => "when it was opened",
        Meaning.Gone => "when it was used up or went",
        Meaning.Place => "where it stands",
        Meaning.Paid => "paid for each",
        Meaning.PaidTotal => "paid for the row",
        Meaning.Source => "where it came from",
        Meaning.Moisture => "moisture of the leaf",
        Meaning.Status => "open, closed, finished",
        Meaning.Label => "your own number or label",
        Meaning.Note => "free words",
        _ => throw new InvalidOperationException($"No words for the meaning {meaning}."),
    };
}
