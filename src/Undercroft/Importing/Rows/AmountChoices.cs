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

    private static string Number(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
