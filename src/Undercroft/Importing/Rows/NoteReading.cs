using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>What a remark says of the packages beside it, where no other cell does: <c>opened</c>, <c>1 open</c>, <c>in 2 pint jars</c>.</summary>
internal static class NoteReading
{
    private const int Longest = 40;
    private const int ShortRemark = 16;
    private const int OtherLetters = 6;

    public static void Take(RowFacts facts, AmountCells amounts, Table table, SheetRow row, ReadingCache cache)
    {
        foreach (var column in table.Columns)
        {
            if (column.Meaning != Meaning.Note || row[column.Index].Text.Trim() is not { Length: > 0 and <= Longest } text)
                continue;
            var folded = Folding.Fold(text).Trim('.', '!', '(', ')', ' ');
            facts.Open |= SmallWords.Open.Contains(folded);
            facts.Gone |= SmallWords.Gone.Contains(folded) || folded is "used up" or "all gone" or "smoked up" or "given away";
            if (text.Length <= ShortRemark && RowReader.SaysPart(folded))
                facts.Doubt("part-left", $"'{text}' under '{RowReader.Name(column)}' says that part of it is left, and not how much in weight. All of it is imported.", column.Index, AmountChoices.Part(facts, column));
            if (!Speaks(text))
                continue;
            var read = cache.Quantity(text, CellSetting.Open, false);
            if (amounts.Noted is not null || read.Portions.Exists(portion => portion.Amount is not null))
                continue;
            var sized = read.Vessel is { Ml: not null } or { Count: > 0 } && !amounts.AnyContainer && facts.Container is null
                && !table.Columns.Any(other => other.Meaning is Meaning.Container or Meaning.Sort) && read.Rest.Count(char.IsLetter) <= OtherLetters;
            var states = WithoutVessels(text) is var bare && bare == text ? read : cache.Quantity(bare, CellSetting.Open, false);
            var noted = new CellFacts { Vessel = sized && states.OpenOnes is null && states.ClosedOnes is null ? read.Vessel : null, OpenOnes = states.OpenOnes, ClosedOnes = states.ClosedOnes };
            if (noted.Vessel is not null || noted.OpenOnes is not null || noted.ClosedOnes is not null)
                amounts.Note(noted, text);
        }
    }

    // Without a word for a container, its size or its state no remark says anything of packages.
    private static bool Speaks(string text)
    {
        foreach (var token in Tokens.Of(Folding.Level(text)))
        {
            if (token.Kind != TokenKind.Number && (VesselWords.Vessels.ContainsKey(token.Text) || SmallWords.Open.Contains(token.Text) || SmallWords.Closed.Contains(token.Text) || UnitWords.Millilitres.ContainsKey(token.Text) || UnitWords.Grams.ContainsKey(token.Text) || token.Text is "fl" or "fluid"))
                return true;
        }

        return false;
    }

    // "one tin open" counts like "one open".
    private static string WithoutVessels(string text) =>
        string.Join(' ', text.Split(' ').Where(word => !VesselWords.Vessels.ContainsKey(Folding.Fold(word).Trim(',', '.', ';'))));
}
