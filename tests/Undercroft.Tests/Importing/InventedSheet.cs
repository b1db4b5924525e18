using System.Globalization;
using System.Text;

namespace Undercroft.Tests.Importing;

/// <summary>What a row of an invented sheet is really about.</summary>
/// <param name="Row">Its row number.</param>
/// <param name="Blend">What it is called.</param>
/// <param name="Count">How many packages.</param>
/// <param name="Grams">Leaf in each.</param>
/// <param name="Made">The year, or null where the sheet does not say.</param>
/// <param name="Bought">The day, or null where the sheet does not say.</param>
internal sealed record Truth(int Row, string Blend, int Count, double Grams, int? Made, DateOnly? Bought);

/// <summary>A sheet as some person might have kept it, made from a known cellar: separators, encodings, languages, orders of columns and ways to write are drawn from a seed.</summary>
internal sealed class InventedSheet
{
    private static readonly string[] First = ["Harbour", "Granite", "Lantern", "Orchard", "Quarry", "Willow", "Meadow", "Copper", "Amber", "Dusk", "Moss", "Fen", "Larch", "Hazel", "Rowan", "Cedar", "Birch", "Elder"];
    private static readonly string[] Second = ["Flake", "Plug", "Ribbon", "Mixture", "Cake", "Shag", "Twist", "Reserve", "No. 4", "Blend"];
    private static readonly string[] Places = ["closet / top shelf", "basement > rack 2", "desk drawer", "Cellar, shelf 3", "attic"];
    private static readonly (double Grams, string Text)[] Sizes = [(50, "50g"), (100, "100 g"), (250, "250 grams"), (25, "25g"), (28.349523125, "1 oz"), (56.69904625, "2oz"), (226.796185, "8 oz"), (453.59237, "1 lb"), (42.5242846875, "1.5 oz")];

    private static readonly string[][] Heads =
    [
        ["Blend", "Qty", "Size", "Year", "Date bought", "Location", "Price", "Notes"],
        ["Name", "Number of tins", "Weight", "Tin date", "Purchased", "Where", "Cost", "Comments"],
        ["Sorte", "Anzahl", "Gewicht", "Jahrgang", "Gekauft am", "Lagerort", "Preis", "Bemerkung"],
        ["Mélange", "Nombre", "Poids", "Millésime", "Acheté le", "Emplacement", "Prix", "Remarques"],
        ["Табак", "Кол-во", "Вес", "Год", "Куплен", "Место", "Цена", "Примечание"],
        ["銘柄", "個数", "内容量", "製造年", "購入日", "保管場所", "価格", "備考"],
    ];

    private readonly Random random;
    private readonly char separator;
    private readonly StringBuilder text = new();
    private readonly List<Truth> truths = [];
    private int row;

    private InventedSheet(int seed)
    {
        random = new Random(seed);
        separator = Pick(',', ';', '\t', '|');
    }

    /// <summary>The bytes.</summary>
    public byte[] Bytes { get; private set; } = [];

    /// <summary>What they say.</summary>
    public IReadOnlyList<Truth> Truths => truths;

    /// <summary>The text, for a message.</summary>
    public string Text => text.ToString();

    /// <summary>The sheet of a seed.</summary>
    public static InventedSheet Of(int seed)
    {
        var sheet = new InventedSheet(seed);
        sheet.Write();
        return sheet;
    }

    private void Write()
    {
        var heads = Pick(Heads);
        bool inOne = Chance(0.4), totals = Chance(0.4), ditto = Chance(0.3), comma = separator != ',' && Chance(0.3);
        var order = Enumerable.Range(0, 8).Where(c => c is 0 or 2 || (c == 1 ? !inOne : Chance(0.75))).ToArray();
        random.Shuffle(order.AsSpan(1));
        var form = Pick("yyyy-MM-dd", "dd.MM.yyyy", "d/M/yyyy", "M/d/yyyy", "d MMM yyyy", "MMMM d, yyyy");
        for (var titles = random.Next(0, 3); titles > 0; titles--)
            Line(Pick("My cellar", "Stand März 2021", "what is left of it all"));
        if (row > 0)
            Blank();
        Line([.. order.Select(c => heads[c])]);
        double sum = 0;
        var sums = Pick(true, false);
        string? above = null;
        for (var entries = random.Next(4, 26); entries > 0; entries--)
        {
            if (Chance(0.08))
                Blank();
            if (Chance(0.05))
                Line([.. order.Select(c => heads[c])]);
            var again = ditto && above is not null && Chance(0.25);
            var blend = again ? above! : $"{Pick(First)} {Pick(Second)}";
            above = blend;
            var (grams, size) = Pick(Sizes);
            var count = inOne || order.Contains(1) ? random.Next(1, 6) : 1;
            var made = Chance(0.7) ? random.Next(1995, 2019) : (int?)null;
            var bought = Chance(0.7) ? new DateOnly(random.Next(2019, 2024), random.Next(1, 13), random.Next(1, 29)) : (DateOnly?)null;
            if (comma)
                size = size.Replace('.', ',');
            sum += grams * count;
            Line([.. order.Select(c => c switch
            {
                0 => again ? Pick("\"", "ditto", "do.") : blend,
                1 => count.ToString(CultureInfo.InvariantCulture),
                2 => inOne ? Amount(count, size) : size,
                3 => made is { } year ? Year(year) : Pick("", "", "?"),
                4 => bought is { } day ? day.ToString(form, CultureInfo.InvariantCulture) : "",
                5 => Pick(Places),
                6 => Chance(0.5) ? Pick("$9.50", "12.95 EUR", "€ 11") : "",
                _ => Chance(0.3) ? Pick("gift", "very good, buy again", "for winter", "smoky") : "",
            })]);
            truths.Add(new Truth(row, blend, count, grams, order.Contains(3) ? made : null, order.Contains(4) ? bought : null));
        }

        if (totals && sums && order[0] == 0)
        {
            Blank();
            Line([.. order.Select(c => c switch
            {
                0 => Pick("Total", "TOTAL", "Sum:"),
                2 => Math.Round(sum, 2).ToString(CultureInfo.InvariantCulture).Replace('.', comma ? ',' : '.') + " g",
                _ => "",
            })]);
        }

        Bytes = Encoded();
    }

    private string Amount(int count, string size) => count == 1 ? Pick(size, "1x" + size) : Pick($"{count}x{size}", $"{count} x {size}", $"{size} x {count}", $"{count} tins of {size}", $"({count}) {size} tins");

    private string Year(int year)
    {
        var two = (year % 100).ToString("00", CultureInfo.InvariantCulture);
        return Chance(0.6) ? year.ToString(CultureInfo.InvariantCulture) : Pick("'" + two, $"ca. {year}", $"{year}?", $"Spring {year}", $"03.{year}");
    }

    private byte[] Encoded()
    {
        var all = text.ToString();
        Encoding[] able = all.Any(c => c > '\u00FF')
            ? [new UTF8Encoding(false), new UTF8Encoding(true), new UnicodeEncoding(false, true), new UnicodeEncoding(true, true)]
            : [new UTF8Encoding(false), new UTF8Encoding(true), new UnicodeEncoding(false, true), new UnicodeEncoding(true, true), new UnicodeEncoding(false, false), Encoding.Latin1];
        var encoding = Pick(able);
        return [.. encoding.GetPreamble(), .. encoding.GetBytes(all)];
    }

    private void Line(params string[] cells)
    {
        row++;
        text.AppendJoin(separator, cells.Select(Quoted)).Append('\n');
    }

    private void Blank()
    {
        row++;
        text.Append('\n');
    }

    private string Quoted(string cell) => cell.Contains(separator, StringComparison.Ordinal) || (cell.Contains('"', StringComparison.Ordinal) && cell.Length > 1)
        ? "\"" + cell.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"" : cell;

    private bool Chance(double part) => random.NextDouble() < part;

    private T Pick<T>(params T[] of) => of[random.Next(of.Length)];
}
