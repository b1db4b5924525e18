using System.Globalization;
using System.Text;
using CsCheck;

namespace Undercroft.Tests.Places.Logging;

/// <summary>A reading as it truly was.</summary>
internal readonly record struct TrueReading(DateTime Utc, double C, double Pct);

/// <summary>One way in which a logger could write.</summary>
internal sealed record LogShape(
    char Separator, bool Comma, string Dates, string Unit, string Order, string Encoding, string Header, bool Preamble, bool Index, bool Extras, bool Fraction, bool Errors, bool Summary, int Step, int Rows, int Day, int Seed)
{
    private static readonly string[] DateStyles =
    [
        "yyyy-MM-dd HH:mm:ss", "yyyy-MM-dd'T'HH:mm:ss'Z'", "dd.MM.yyyy HH:mm", "dd/MM/yyyy HH:mm:ss", "MM/dd/yyyy HH:mm", "M/d/yyyy h:mm:ss tt", "yyyy/MM/dd HH:mm", "dd.MM.yy HH:mm:ss", "yy-MM-dd HH:mm",
        "d-MMM-yy h:mm tt", "HH:mm:ss dd/MMM/yyyy", "yyyyMMdd HHmmss", "yyyy-MM-dd'T'HH:mm:sszzz", "epoch s", "epoch ms", "epoch us", "serial", "dd.MM.yyyy|HH:mm", "HH:mm:ss|yyyy-MM-dd", "MM/dd/yy|hh:mm tt", "d. MMMM yyyy HH:mm",
    ];

    /// <summary>Any of them.</summary>
    public static Gen<LogShape> Any { get; } =
        from separator in OneOf(',', ';', '\t', '|')
        from comma in Gen.Bool
        from dates in OneOf(DateStyles)
        from unit in OneOf("°C", "°F", "none", "cells", "cells F")
        from order in OneOf("rising", "rising", "falling", "shuffled")
        from encoding in OneOf("UTF-8", "BOM", "UTF-16", "UTF-16BE", "UTF-16 bare", "1252")
        from header in OneOf("one", "two", "none", "german")
        from flags in Gen.Int[0, 63]
        from step in OneOf(60, 300, 600, 900, 3600)
        from rows in Gen.Int[30, 400]
        from day in Gen.Int[0, 700]
        from seed in Gen.Int[1, 1_000_000]
        select new LogShape(
            separator, comma && separator != ',', dates, unit, order, encoding,
            header == "german" && dates.StartsWith('M') ? "one" : header, // German headings over American dates would be a trap that no logger sets
            (flags & 1) > 0, (flags & 2) > 0, (flags & 4) > 0 && header != "none", (flags & 8) > 0, (flags & 16) > 0, (flags & 32) > 0, step, rows, day, seed);

    private static Gen<T> OneOf<T>(params T[] all) => Gen.Int[0, all.Length - 1].Select(index => all[index]);

    /// <summary>What was true.</summary>
    public IReadOnlyList<TrueReading> Truth()
    {
        var random = new PCG((uint)Seed, (ulong)Seed * 7919);
        var start = new DateTime(2024, 1, 3, 7, 0, 0, DateTimeKind.Utc).AddDays(Day);
        var truth = new List<TrueReading>();
        double warmth = 14 + (random.Next(80) / 10.0), damp = 45 + random.Next(15);
        for (var i = 0; i < Rows; i++)
        {
            warmth = Math.Clamp(warmth + (((int)random.Next(9) - 4) / 10.0), 12, 26);
            damp = Math.Clamp(damp + (((int)random.Next(9) - 4) / 10.0), 35, 70);
            truth.Add(new(start.AddSeconds((long)i * Step), Math.Round(warmth, 1), Math.Round(damp, 1)));
        }

        return truth;
    }

    /// <summary>The file that a logger of this shape would write.</summary>
    public byte[] Written()
    {
        var rows = Truth().ToList();
        if (Order == "falling")
            rows.Reverse();
        if (Order == "shuffled")
        {
            var random = new PCG((uint)Seed + 1, 77);
            for (var i = rows.Count - 1; i > 0; i--)
            {
                var other = (int)random.Next((uint)i + 1);
                (rows[i], rows[other]) = (rows[other], rows[i]);
            }
        }

        var text = new StringBuilder();
        if (Preamble)
            text.Append("Logger: shed north\nSerial number: 4711-0815\nInterval: ").Append(Step).Append(" s\n\n");
        Head(text);
        for (var i = 0; i < rows.Count; i++)
        {
            text.AppendJoin(Separator, Cells(rows[i], i)).Append('\n');
            if (Errors && i % 11 == 5)
                text.AppendJoin(Separator, Cells(rows[i] with { Utc = rows[i].Utc.AddSeconds(Step / 2) }, i, (i % 3) switch { 0 => "---", 1 => "-999", _ => "ERR" })).Append('\n');
        }

        if (Summary)
            text.Append("Average").Append(Separator).Append("19.8").Append(Separator).Append("51\n");
        return Bytes(text.ToString());
    }

    private void Head(StringBuilder text)
    {
        if (Header == "none")
            return;
        var mark = Unit is "°C" or "°F" ? Unit : "";
        var time = Dates.Contains('|', StringComparison.Ordinal) ? (string[])["Date", "Time"] : ["Time"];
        string[] names = Header == "german" ? ["Temperatur", "rel. Feuchte"] : ["Temperature", "Humidity"];
        string[] extras = Extras ? ["Dew point", "Battery V", "Illuminance lx"] : [];
        if (Header == "two")
        {
            text.AppendJoin(Separator, (string[])[.. Index ? (string[])["No"] : [], .. time, .. names, .. extras]).Append('\n');
            text.AppendJoin(Separator, (string[])[.. Index ? (string[])[""] : [], .. time.Select(_ => ""), mark, "%", .. Extras ? (string[])[mark, "", ""] : []]).Append('\n');
            return;
        }

        text.AppendJoin(Separator, (string[])[.. Index ? (string[])["No"] : [], .. time, names[0] + (mark.Length > 0 ? $" [{mark}]" : ""), names[1] + " [%]", .. extras]).Append('\n');
    }

    private string[] Cells(TrueReading reading, int index, string? error = null)
    {
        var invariant = CultureInfo.InvariantCulture;
        var seconds = (reading.Utc - DateTime.UnixEpoch).TotalSeconds;
        string[] time = Dates switch
        {
            "epoch s" => [seconds.ToString("0", invariant)],
            "epoch ms" => [(seconds * 1e3).ToString("0", invariant)],
            "epoch us" => [(seconds * 1e6).ToString("0", invariant)],
            "serial" => [Number(25569 + (seconds / 86400), "0.000000")],
            _ when Dates.EndsWith("zzz", StringComparison.Ordinal) => [reading.Utc.AddHours(2).ToString("yyyy-MM-dd'T'HH:mm:ss", invariant) + "+02:00"],
            _ => reading.Utc.ToString(Dates.Replace("|", "'|'", StringComparison.Ordinal), invariant).Split('|'),
        };
        var warmth = error ?? (Unit switch
        {
            "°F" => Number((reading.C * 1.8) + 32, "0.00"),
            "cells" => Number(reading.C, "0.0") + " °C",
            "cells F" => Number((reading.C * 1.8) + 32, "0.00") + "°F",
            _ => Number(reading.C, "0.0"),
        });
        var damp = error ?? (Fraction ? Number(reading.Pct / 100, "0.000") : Number(reading.Pct, "0.0"));
        string[] extras = Extras ? [Number(reading.C - 9, "0.0"), Number(3.1, "0.0"), "12"] : [];
        return [.. Index ? (string[])[(index + 1).ToString(invariant)] : [], .. time, warmth, damp, .. extras];
    }

    private string Number(double value, string form) => value.ToString(form, CultureInfo.InvariantCulture) is var plain && Comma ? plain.Replace('.', ',') : value.ToString(form, CultureInfo.InvariantCulture);

    private byte[] Bytes(string text) => Encoding switch
    {
        "BOM" => [0xEF, 0xBB, 0xBF, .. System.Text.Encoding.UTF8.GetBytes(text)],
        "UTF-16" => [0xFF, 0xFE, .. System.Text.Encoding.Unicode.GetBytes(text)],
        "UTF-16BE" => [0xFE, 0xFF, .. System.Text.Encoding.BigEndianUnicode.GetBytes(text)],
        "UTF-16 bare" => System.Text.Encoding.Unicode.GetBytes(text),
        "1252" => System.Text.Encoding.Latin1.GetBytes(text), // the same as Windows-1252 for these letters
        _ => System.Text.Encoding.UTF8.GetBytes(text),
    };
}
