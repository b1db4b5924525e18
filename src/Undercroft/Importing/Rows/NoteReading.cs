using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>What a remark says of the packages beside it, where no other cell does: <c>opened</c>, <c>1 open</c>, <c>in 2 pint jars</c>.</summary>
internal static class NoteReading
{
    private const int Longest = 60;
    private const int ShortRemark = 16;
    private const int OtherLetters = 6;

    public static void Take(RowFacts facts, AmountCells amounts, Table table, SheetRow row, ReadingCache cache)
    {
        foreach (var column in table.Columns)
        {
            if (column.Meaning != Meaning.Note || row[column.Index].Text.Trim() is not { Length: > 0 and <= Longest } text)
                continue;
            var folded = Folding.Fold(text).Trim('.', '!', '(', ')', ' ');
            var gone = SmallWords.Gone.Contains(folded) || folded is "used up" or "all gone" or "smoked up" or "given away";
            facts.Open |= SmallWords.Open.Contains(folded);
            facts.Gone |= gone;
            if (!Speaks(text, out var left, out var went))
                continue;
            var read = cache.Quantity(text, CellSetting.Remark, false);
            var part = (text.Length <= ShortRemark || left) && !read.Portions.Exists(portion => portion.Amount is not null) && RowReader.SaysPart(folded);
            if (part)
                facts.Doubt("part-left", $"'{text}' under '{RowReader.Name(column)}' says that part of it is left, and not how much in weight. All of it is imported.", column.Index, AmountChoices.Part(facts, column));
            else if (went && !gone && read.GoneOnes is null)
                facts.Doubt("went", $"'{text}' under '{RowReader.Name(column)}' may say that it, or some of it, is no longer here.", column.Index, Choice.Cell("gone", "it is no longer here", column.Index, "finished"), new Choice("here", "it is here, as the row has it"));
            Amount(facts, amounts, column, text, read);
            if (amounts.Noted is not null || read.Portions.Exists(portion => portion.Amount is not null))
                continue;
            var sized = read.Vessel is { Ml: not null } or { Count: > 0 } && !amounts.AnyContainer && facts.Container is null
                && !table.Columns.Any(other => other.Meaning is Meaning.Container or Meaning.Sort) && read.Rest.Count(char.IsLetter) <= OtherLetters;
            var states = WithoutVessels(text) is var bare && bare == text ? read : cache.Quantity(bare, CellSetting.Remark, false);
            var noted = new CellFacts
            {
                Vessel = sized && states.OpenOnes is null && states.ClosedOnes is null && states.GoneOnes is null ? read.Vessel : null, OpenOnes = states.OpenOnes, ClosedOnes = states.ClosedOnes, GoneOnes = states.GoneOnes,
            };
            if (noted.Vessel is not null || noted.OpenOnes is not null || noted.ClosedOnes is not null || noted.GoneOnes is not null)
                amounts.Note(noted, text);
        }
    }

    // "16 g left" is what is there; "50g" or "2oz tins" beside no other amount is what each holds; an amount among other words is asked about.
    private static void Amount(RowFacts facts, AmountCells amounts, Column column, string text, CellFacts read)
    {
        if (amounts.Remarked is not null || read.Portions is not [{ Amount: not null } portion])
        {
            if (!Weighed(amounts) && read.Portions.Count > 1)
                facts.Doubt("amount-in-remark", $"'{RowReader.Short(text)}' under '{RowReader.Name(column)}' names amounts, and no other cell of the row does.", column.Index);
            return;
        }

        var alone = read.Rest.Count(char.IsLetter) <= OtherLetters && read.Doubts.Count == 0;
        if (portion.Share == Share.Left ? alone : alone && !Weighed(amounts))
            amounts.Remarked = (portion, column);
        else if (portion.Share == Share.Left || !Weighed(amounts))
            facts.Doubt("amount-in-remark", $"'{RowReader.Short(text)}' under '{RowReader.Name(column)}' names an amount: is it what is there?", column.Index,
                Choice.Cell("there", $"{portion.Amount.Value.Grams:0.#} g{(portion.Share == Share.Left ? " are left" : " in each")}", column.Index, $"{portion.Amount.Value.Grams.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture)} g{(portion.Share == Share.Left ? " left" : "")}"),
                new Choice("other", "no: leave the amount as the row has it"));
    }

    private static bool Weighed(AmountCells amounts) => amounts.AnyAmount || amounts.Parts.Exists(static part => part.Facts?.Portions.Exists(static portion => portion.Amount is not null) == true)
        || amounts.Loose?.Portions.Exists(static portion => portion.Amount is not null) == true;

    // Without a word for a container, its size or its state, or for what went or is left, no remark says anything of packages.
    private static bool Speaks(string text, out bool left, out bool went)
    {
        var speaks = false;
        (left, went) = (false, false);
        foreach (var token in Tokens.Of(QuantityPhrases.AsDigits(Folding.Level(text))))
        {
            if (token.Kind == TokenKind.Number)
            {
                speaks |= token.Text is "½" or "¼" or "¾" or "⅓" or "⅔" || token.Text.Contains('/', StringComparison.Ordinal);
                continue;
            }

            var word = token.Text;
            left |= SmallWords.Left.Contains(word) || SmallWords.LeftBefore.Contains(word) || SmallWords.Gone.Contains(word);
            went |= SmallWords.Went.Contains(word);
            speaks |= left || went || word == "%" || VesselWords.Vessels.ContainsKey(word) || SmallWords.Open.Contains(word) || SmallWords.Closed.Contains(word)
                || UnitWords.Millilitres.ContainsKey(word) || UnitWords.Grams.ContainsKey(word) || word is "fl" or "fluid" || SmallWords.Vague.Contains(word) || RowReader.SaysPart(word);
        }

        return speaks;
    }

    // "one tin open" counts like "one open".
    private static string WithoutVessels(string text) =>
        string.Join(' ', text.Split(' ').Where(word => !VesselWords.Vessels.ContainsKey(Folding.Fold(word).Trim(',', '.', ';'))));
}
