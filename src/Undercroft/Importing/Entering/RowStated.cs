using System.Globalization;
using System.Text;
using Undercroft.Importing.Cells;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Importing.Entering;

/// <summary>Rows as facts of the ledger: a lot, its packages, what happened to them.</summary>
internal static class RowStated
{
    private const int RowsInText = 12;
    private const int MostCells = 60;

    // One builder for the texts of all rows that a core writes.
    [ThreadStatic]
    private static StringBuilder? writing;

    /// <summary>Rows with the same key are one lot. A row of which the name or a day is asked stands for itself until it is answered.</summary>
    public static string LotKey(RowFacts row) => string.Join('\u0001',
        Name(row), row.Leaf?.Value, row.Cut?.Value, row.ComesFrom?.Value, Day(row, DateRole.Made), Day(row, DateRole.Bought), Day(row, DateRole.Unsaid),
        row.Questions.Exists(question => question.Kind.StartsWith("date", StringComparison.Ordinal) || question.Kind.StartsWith("name", StringComparison.Ordinal) || question.Kind is "day-or-month" or "out-of-order")
            ? string.Create(CultureInfo.InvariantCulture, $"{row.Sheet}/{row.Row}") : null);

    /// <summary>The lot of rows that came together, without its ID.</summary>
    public static Fact.LotAdded Lot(string file, IReadOnlyList<RowFacts> rows)
    {
        var first = rows[0];
        return new Fact.LotAdded(default, new Blend(Name(first), Leaf(first.Leaf?.Value), first.Cut?.Value), Date(first, DateRole.Made), Paid: Paid(rows), Source: first.ComesFrom?.Value, Text: Text(file, rows));
    }

    /// <summary>When it came.</summary>
    public static UnevenDate Came(RowFacts row) => Date(row, DateRole.Bought) is { IsKnown: true } bought ? bought : Date(row, DateRole.Unsaid);

    /// <summary>One group of a row, without its IDs; the cellar knows the keeper's own containers.</summary>
    public static Fact.PackagesAdded Packages(Cellar cellar, RowFacts row, PackageGroup group)
    {
        var gross = row.GrossGrams is { Value: > 0 } weighed && group.Count == 1 && row.Groups.Count == 1 ? StatedMass.Exactly(Mass.FromGrams(weighed.Value), SaidBy.Weighed) : StatedMass.Unknown;
        var moisture = row.MoisturePct is { } percent ? StatedFraction.About(percent.Value / 100, SaidBy.Unstated) : default;
        return new Fact.PackagesAdded(default, [], ContainerCodes.Of(cellar, row, group), Net(group), gross, moisture, Date(row, DateRole.Sealed), Note: Note(row), Opened: IsOpen(row, group) && !Date(row, DateRole.Opened).IsKnown);
    }

    /// <summary>What happened to the packages of a group since.</summary>
    public static IEnumerable<(Fact Fact, UnevenDate Happened)> Since(IReadOnlyList<PackageId> packages, RowFacts row, PackageGroup group) =>
        row.Gone || Date(row, DateRole.Opened).IsKnown ? SinceOf(packages, row, group) : [];

    private static IEnumerable<(Fact Fact, UnevenDate Happened)> SinceOf(IReadOnlyList<PackageId> packages, RowFacts row, PackageGroup group)
    {
        var opened = Date(row, DateRole.Opened);
        foreach (var package in packages)
        {
            if (opened.IsKnown && IsOpen(row, group))
                yield return (new Fact.PackageOpened(package, row.Dates[DateRole.Opened].Raw), opened);
            if (row.Gone)
                yield return (new Fact.PackageRemoved(package, How(row), Text: "as the sheet says"), Date(row, DateRole.Gone));
        }
    }

    // A day of opening is that of the row's packages, unless some of them are named as the open ones.
    private static bool IsOpen(RowFacts row, PackageGroup group) =>
        group.Open ?? (row.Groups.Exists(other => other.Open == true) ? false : row.Open || Date(row, DateRole.Opened).IsKnown);

    private static StatedMass Net(PackageGroup group)
    {
        if (group.Each is not { Grams: > 0 } each)
            return StatedMass.Unknown;
        if (each.LowGrams < each.HighGrams)
            return StatedMass.Between(Mass.FromGrams(each.LowGrams), Mass.FromGrams(each.HighGrams));
        return each.About || group.Split ? StatedMass.About(Mass.FromGrams(each.Grams)) : StatedMass.Exactly(Mass.FromGrams(each.Grams));
    }

    private static RemovedAs How(RowFacts row)
    {
        var words = Folding.Fold(string.Join(' ', row.Notes));
        return words.Contains("sold", StringComparison.Ordinal) || words.Contains("trade", StringComparison.Ordinal) || words.Contains("swap", StringComparison.Ordinal) ? RemovedAs.Sold
            : words.Contains("gave", StringComparison.Ordinal) || words.Contains("given", StringComparison.Ordinal) || words.Contains("gift", StringComparison.Ordinal) ? RemovedAs.Given
            : words.Contains("discard", StringComparison.Ordinal) || words.Contains("binned", StringComparison.Ordinal) || words.Contains("trash", StringComparison.Ordinal) ? RemovedAs.Discarded
            : RemovedAs.Finished;
    }

    // Money of a lot is for all of it: known only where every row says it, in one currency.
    private static Money? Paid(IReadOnlyList<RowFacts> rows)
    {
        decimal sum = 0;
        string? currency = null;
        foreach (var row in rows)
        {
            var count = row.Groups.Sum(group => group.Count);
            if (row.Paid is not { } said || said.Value.Currency.Length == 0 || (said.Value.Share == Share.Unsaid && count > 1) || (currency ??= said.Value.Currency) != said.Value.Currency)
                return null;
            sum += said.Value.Value * (said.Value.Share == Share.Each ? count : 1);
        }

        return currency is not null && sum >= 0 ? Money.Exactly(sum, currency) : null;
    }

    private static List<LeafShare> Leaf(string? text)
    {
        var shares = new List<LeafShare>();
        foreach (var part in (text ?? "").Split([',', '/', '+', ';', '&'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Take(12))
        {
            var gap = part.LastIndexOf(' ');
            var percent = part.EndsWith('%') && gap > 0 && StatedFraction.TryParse(part[(gap + 1)..], SaidBy.Unstated, out var share, out _) && share is { IsKnown: true, Si: { First: >= 0, Second: <= 1 } } ? share : default;
            var name = percent.IsKnown ? part[..gap].Trim() : part;
            var folded = Folding.Fold(name);
            shares.Add(new LeafShare((LeafKinds.Find(folded) ?? LeafKinds.Find(folded.TrimEnd('s')))?.Code ?? name, percent));
        }

        return shares.Sum(share => share.Share.IsKnown ? share.Share.Si.First : 0) > 1.01 ? [.. shares.Select(share => new LeafShare(share.Kind))] : shares;
    }

    private static string? Name(RowFacts row)
    {
        var maker = row.Maker?.Value;
        var blend = row.Blend?.Value;
        return maker is null ? blend : blend is null ? maker : Folding.Fold(blend).StartsWith(Folding.Fold(maker), StringComparison.Ordinal) ? blend : $"{maker} {blend}";
    }

    private static string? Note(RowFacts row)
    {
        var notes = new List<string>();
        if (row.Label is { } label)
            notes.Add($"label {label.Value}");
        notes.AddRange(row.Notes);
        if (row.Paid is { } paid && (paid.Value.Currency.Length == 0 || (paid.Value.Share == Share.Unsaid && row.Groups.Sum(group => group.Count) > 1)))
            notes.Add($"paid: {paid.Raw}");
        return notes.Count == 0 ? null : string.Join("; ", notes);
    }

    private static string Text(string file, IReadOnlyList<RowFacts> rows)
    {
        var text = (writing ??= new StringBuilder()).Clear().Append(file);
        foreach (var row in rows.Take(RowsInText))
        {
            text.Append(text.Length == file.Length ? ", " : " // ");
            if (row.Sheet.Length > 0)
                text.Append(row.Sheet).Append(' ');
            text.Append("row ").Append(row.Row).Append(": ");
            Words(text, row);
        }

        if (rows.Count > RowsInText)
            text.Append(CultureInfo.InvariantCulture, $" // and rows {string.Join(", ", rows.Skip(RowsInText).Take(200).Select(row => row.Row))}{(rows.Count > RowsInText + 200 ? ", ..." : "")}");
        return text.ToString();
    }

    /// <summary>The cells of a row as its lot keeps them.</summary>
    public static string Words(RowFacts row)
    {
        var text = new StringBuilder();
        Words(text, row);
        return text.ToString();
    }

    private static void Words(StringBuilder text, RowFacts row)
    {
        for (var c = 0; c < Math.Min(MostCells, row.Source.Cells.Count); c++)
            text.Append(c == 0 ? "" : " | ").Append(Short(row.Source[c].Text));
    }

    /// <summary>At most 300 characters of a cell.</summary>
    public static string Short(string text) => text.Length <= 300 ? text : text[..300];

    private static string? Day(RowFacts row, DateRole role) => row.DateOf(role)?.Edtf;

    private static UnevenDate Date(RowFacts row, DateRole role) => row.DateOf(role)?.Uneven ?? UnevenDate.Unknown;
}
