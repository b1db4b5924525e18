using System.Globalization;
using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>The likeliest readings of amounts that were not understood.</summary>
internal static class AmountChoices
{
    private const int MostNumbers = 2;

    /// <summary>Every number of the cell as grams and as ounces, else nothing at all.</summary>
    public static IEnumerable<Choice> Unread(Column column, string text)
    {
        foreach (var token in Tokens.Of(Folding.Level(text)).Where(token => token.Kind == TokenKind.Number && token.Value is > 0 and < 10_000).Take(MostNumbers))
        {
            var number = Number(token.Value);
            if (token.Value >= 10)
                yield return Choice.Cell($"grams-{number}", $"{number} g", column.Index, $"{number} g");
            yield return Choice.Cell($"ounces-{number}", $"{number} oz", column.Index, $"{number} oz");
        }

        yield return Unknown(column);
    }

    /// <summary>Nobody knows how much it is.</summary>
    public static Choice Unknown(Column column) => Choice.Cell("blank", "nobody knows how much: leave it open", column.Index, "");

    /// <summary>Half, a quarter or all of what the row says is left.</summary>
    public static IEnumerable<Choice> Part(RowFacts facts, Column status)
    {
        yield return Choice.Cell("all", "all of it is there", status.Index, "open");
        var amounts = facts.Context?.Table.Columns.Where(column => column.IsAmount && !facts.Source[column.Index].IsBlank).ToList();
        if (amounts is not [var only] || facts.Groups is not [{ Count: 1, Each: { } each }])
            yield break;
        foreach (var (code, words, part) in new[] { ("half", "half", 0.5), ("three-quarters", "three quarters", 0.75), ("quarter", "a quarter", 0.25) })
        {
            var left = Number(Math.Round(each.Grams * part, 1));
            yield return new Choice(code, $"{words} of it: {left} g", [new Undercroft.Ledger.Events.CellSaid(SheetMap.Letter(only.Index), $"~{left} g left"), new Undercroft.Ledger.Events.CellSaid(SheetMap.Letter(status.Index), "open")]);
        }
    }

    /// <summary>The total of a row or its packages are right.</summary>
    public static IEnumerable<Choice> RowTotal(RowFacts facts, double total)
    {
        var columns = facts.Context?.Table.Columns ?? [];
        if (columns.FirstOrDefault(column => (column.Meaning == Meaning.Total || column.Share == Share.Total) && column.IsAmount && !facts.Source[column.Index].IsBlank) is not { } sum)
            yield break;
        yield return Choice.Cell("packages", "the packages are right: leave the total out", sum.Index, "");
        if (columns.FirstOrDefault(column => column.IsAmount && column != sum && !facts.Source[column.Index].IsBlank) is { } each && facts.Groups is [{ Count: var count }])
            yield return Choice.Cell("total", $"the total is right: {Number(total / count)} g in each", each.Index, $"{Number(total / count)} g");
    }

    /// <summary>An amount that is written once across several rows, for the rows after the first, which has all of it.</summary>
    public static IEnumerable<Choice> AcrossRows(Column column, string text) =>
    [
        Choice.Cell("in-first", "all of it is in the first of the rows: how much is in this one is open", column.Index, ""),
        Choice.Cell("same", $"the same again in this row: {text}", column.Index, text),
    ];

    /// <summary>What is left of several packages: in one of them beside full ones, in one alone, or in each.</summary>
    /// <param name="left">Column of what is left.</param>
    /// <param name="held">How many packages.</param>
    /// <param name="remains">What is left.</param>
    /// <param name="count">Column of their number, if it has one.</param>
    /// <param name="full">What each held and its column, if said.</param>
    public static IEnumerable<Choice> LeftOfSeveral(Column left, int held, Amount remains, Column? count, (Amount Each, Column Column)? full)
    {
        if (full is { } whole && whole.Column != left && remains.Grams < whole.Each.Grams)
        {
            string others = $"{held - 1}x{Number(whole.Each.Grams)} g", rest = $"{Number(remains.Grams)} g";
            yield return new Choice("in-one-beside-full", $"{rest} in one that is open, {Number(whole.Each.Grams)} g in each of the others",
                [new(SheetMap.Letter(whole.Column.Index), $"{others}, 1x{rest} open"), new(SheetMap.Letter(left.Index), "")]);
        }

        if (count is not null)
            yield return Choice.Cell("in-one", $"{Number(remains.Grams)} g in one package, the others are used up", count.Index, "1");
        yield return Choice.Cell("each", $"{Number(remains.Grams)} g in each of {held}", left.Index, $"{held}x{Number(remains.Grams)} g left");
        yield return Choice.Cell("even", $"{Number(remains.Grams)} g in all {held} together, evenly", left.Index, $"{held}x{Number(remains.Grams / held)} g left");
    }

    /// <summary>Packages counted twice over: their number is right, or that of the open and closed ones is.</summary>
    public static IEnumerable<Choice> States(Column? states, Column? count, int counted, int? open, int? closed, int? gone)
    {
        if (count is null)
            yield break;
        var sum = (open ?? 0) + (closed ?? 0);
        var each = string.Join(", ", new[] { (open, "open"), (closed, "closed") }.Where(state => state.Item1 is > 0).Select(state => $"{state.Item1} {state.Item2}"));
        if (sum > 0 && each.Length > 0)
            yield return Choice.Cell("as-stated", $"{sum} packages are here: {each}", count.Index, states == count ? each : $"{sum}");
        if (states == count)
            yield return Choice.Cell("as-counted", $"{counted} packages, none known to be open", count.Index, $"{counted}");
        if (gone >= counted)
            yield return Choice.Cell("gone", "all of them are gone", count.Index, "0");
    }

    /// <summary>Packages of several sizes in one cell, of which some are open: those of one size, or none that is known.</summary>
    public static IEnumerable<Choice> StatesOf(RowFacts facts, Column? column)
    {
        if (column is not { IsAmount: true } || !facts.Groups.TrueForAll(group => group.Each is { Grams: > 0 }))
            yield break;
        string Sizes(int opened) => string.Join(", ", facts.Groups.Select((group, n) => $"{group.Count}x{Number(group.Each!.Value.Grams)} g{(n == opened ? " open" : "")}"));
        for (var n = 0; n < facts.Groups.Count; n++)
            yield return Choice.Cell($"open-{n + 1}", $"open: {(facts.Groups[n].Count == 1 ? "the one" : $"all {facts.Groups[n].Count}")} of {Number(facts.Groups[n].Each!.Value.Grams)} g", column.Index, Sizes(n));
        yield return Choice.Cell("none-open", "none known to be open", column.Index, Sizes(-1));
    }

    private static string Number(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
