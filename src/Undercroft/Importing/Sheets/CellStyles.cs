using System.Globalization;
using System.Text;
using System.Xml;

namespace Undercroft.Importing.Sheets;

/// <summary>What the styles of a workbook say about its numbers: dates, percentages, and units that are only shown, such as <c>0" g"</c>.</summary>
internal sealed class CellStyles
{
    private const int MostForms = 65_000;
    private static readonly DateTime Epoch1900 = new(1899, 12, 30, 0, 0, 0, DateTimeKind.Unspecified);
    private static readonly DateTime Epoch1904 = new(1904, 1, 1, 0, 0, 0, DateTimeKind.Unspecified);
    private readonly List<Form> forms = [];
    private readonly List<bool> struck = [];
    private bool dates1904;

    private enum Kind
    {
        Plain,
        Date,
        Clock,
        Month,
        Year,
        Percent,
    }

    /// <summary>True where a date keeps its time of day, and a stored time of day is shown as one.</summary>
    public bool Clocks { get; private init; }

    /// <summary>Reads the styles part; a workbook without one shows plain numbers.</summary>
    public static CellStyles Read(XmlReader? reader, bool dates1904, bool clocks)
    {
        var styles = new CellStyles { dates1904 = dates1904, Clocks = clocks };
        if (reader is null)
            return styles;
        using (reader)
        {
            var codes = new Dictionary<int, string>();
            var fonts = new List<bool>();
            bool inCells = false, inFonts = false;
            while (reader.Read())
            {
                if (reader.LocalName == "fonts")
                    inFonts = reader.NodeType == XmlNodeType.Element && !reader.IsEmptyElement;
                if (inFonts && reader.NodeType == XmlNodeType.Element && reader.LocalName == "font" && fonts.Count < MostForms)
                    fonts.Add(false);
                if (inFonts && reader.NodeType == XmlNodeType.Element && reader.LocalName == "strike" && fonts.Count > 0)
                    fonts[^1] = reader.GetAttribute("val") is not ("0" or "false");
                if (reader.LocalName == "cellXfs")
                    inCells = reader.NodeType == XmlNodeType.Element && !reader.IsEmptyElement;
                if (reader.NodeType != XmlNodeType.Element)
                    continue;
                if (reader.LocalName == "numFmt" && Number(reader.GetAttribute("numFmtId")) is { } id)
                    codes[id] = reader.GetAttribute("formatCode") ?? "";
                if (reader.LocalName == "xf" && inCells && styles.forms.Count < MostForms)
                {
                    var format = Number(reader.GetAttribute("numFmtId")) ?? 0;
                    styles.forms.Add(FormOf(format, codes.GetValueOrDefault(format)));
                    styles.struck.Add(Number(reader.GetAttribute("fontId")) is { } font && font >= 0 && font < fonts.Count && fonts[font]);
                }
            }
        }

        return styles;
    }

    /// <summary>True for a style that strikes out what it shows.</summary>
    public bool Strikes(int style) => style >= 0 && style < struck.Count && struck[style];

    /// <summary>A stored number as the sheet shows it, without losing digits.</summary>
    public Cell Show(string value, int style)
    {
        if (!double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) || !double.IsFinite(number))
            return new Cell(value.Trim());
        var form = style >= 0 && style < forms.Count ? forms[style] : new Form(Kind.Plain, "", "");
        if (Clocks && form.Kind is Kind.Date && number is >= 1 and < 2_958_466)
        {
            // To the second: the fraction of a day is stored rounded.
            var moment = (dates1904 ? Epoch1904 : Epoch1900).AddSeconds(Math.Round(number * 86_400));
            return new Cell(moment.ToString(moment.TimeOfDay == TimeSpan.Zero && number == Math.Floor(number) && !form.Clock ? "yyyy-MM-dd" : "yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture), CellKind.Date);
        }

        if (Clocks && form.Kind is Kind.Clock && number is >= 0 and < 1)
            return new Cell(DateTime.MinValue.AddSeconds(Math.Round(number * 86_400)).ToString("HH:mm:ss", CultureInfo.InvariantCulture), CellKind.Date);
        if (form.Kind is Kind.Date or Kind.Month or Kind.Year && number is >= 1 and < 2_958_466)
        {
            var day = (dates1904 ? Epoch1904 : Epoch1900).AddDays(Math.Floor(number));
            return new Cell(day.ToString(form.Kind switch { Kind.Month => "yyyy-MM", Kind.Year => "yyyy", _ => "yyyy-MM-dd" }, CultureInfo.InvariantCulture), CellKind.Date);
        }

        if (form.Kind == Kind.Percent)
            return new Cell(Digits(number * 100) + "%", CellKind.Number);
        return new Cell(form.Before + Digits(number) + form.After, CellKind.Number);
    }

    private static string Digits(double number) => Math.Round(number, 10).ToString("0.##########", CultureInfo.InvariantCulture);

    private static int? Number(string? text) => int.TryParse(text, CultureInfo.InvariantCulture, out var number) ? number : null;

    private static Form FormOf(int id, string? code) => code is null
        ? new Form(id switch
        {
            14 or 15 or 16 or 22 or (>= 27 and <= 36) or (>= 50 and <= 58) => Kind.Date,
            >= 18 and <= 21 => Kind.Clock,
            17 => Kind.Month,
            9 or 10 => Kind.Percent,
            _ => Kind.Plain,
        }, "", "", id == 22)
        : Parse(code);

    // Only the part for positive numbers; quoted words and currency in brackets stay, all else is shape.
    private static Form Parse(string code)
    {
        StringBuilder before = new(), after = new(), letters = new();
        var digits = false;
        for (var i = 0; i < code.Length && code[i] != ';'; i++)
        {
            var target = digits ? after : before;
            switch (code[i])
            {
                case '"':
                    var close = code.IndexOf('"', i + 1);
                    if (close < 0)
                        close = code.Length;
                    target.Append(code, i + 1, close - i - 1);
                    i = close;
                    break;
                case '\\' when i + 1 < code.Length:
                    target.Append(code[++i]);
                    break;
                case '_' or '*':
                    i++;
                    break;
                case '[':
                    var end = code.IndexOf(']', i);
                    if (end < 0)
                        end = code.Length - 1;
                    if (code[i..end].StartsWith("[$", StringComparison.Ordinal))
                        target.Append(code[(i + 2)..end].Split('-')[0]);
                    i = end;
                    break;
                case '$' or '€' or '£' or '¥':
                    target.Append(code[i]);
                    break;
                case '0' or '#' or '?':
                    digits |= !letters.ToString().EndsWith("s.", StringComparison.Ordinal); // thousandths of a second
                    break;
                default:
                    letters.Append(char.ToLowerInvariant(code[i]));
                    break;
            }
        }

        var shape = letters.ToString();
        var clock = shape.Contains("h:", StringComparison.Ordinal) || shape.Contains("h.", StringComparison.Ordinal);
        if (!digits && shape.Contains('y', StringComparison.Ordinal))
            return new Form(shape.Contains('d', StringComparison.Ordinal) ? Kind.Date : shape.Contains('m', StringComparison.Ordinal) ? Kind.Month : Kind.Year, "", "", clock);
        if (!digits && shape.Contains('d', StringComparison.Ordinal) && shape.Contains('m', StringComparison.Ordinal))
            return new Form(Kind.Date, "", "", clock);
        if (!digits && clock)
            return new Form(Kind.Clock, "", "", true);
        if (shape.Contains('%', StringComparison.Ordinal))
            return new Form(Kind.Percent, "", "");
        return new Form(Kind.Plain, before.ToString(), after.ToString());
    }

    private sealed record Form(Kind Kind, string Before, string After, bool Clock = false);
}
