using System.Globalization;

namespace Undercroft.Shell.Web;

/// <summary>The words and the table that stand for a band chart where it cannot be seen.</summary>
internal static class BandTable
{
    /// <summary>One line of the table; a dash where nothing is known.</summary>
    internal readonly record struct Row(string Day, string Low, string Middle, string High);

    /// <summary>At most <paramref name="most"/> rows, evenly picked, first and last included.</summary>
    internal static IReadOnlyList<Row> Of(BandSeries series, int most)
    {
        var count = new[] { series.Days.Count, series.P5.Count, series.P50.Count, series.P95.Count }.Min();
        var picked = count <= most ? Enumerable.Range(0, count) : Enumerable.Range(0, most).Select(k => (int)Math.Round(k * (count - 1.0) / (most - 1)));
        return [.. picked.Select(i => new Row(Date(series.Start, series.Days[i]), Value(series.P5[i]), Value(series.P50[i]), Value(series.P95[i])))];
    }

    /// <summary>What the chart shows, in a sentence.</summary>
    internal static string Sentence(BandSeries series)
    {
        var rows = Of(series, 2).Where(row => row.Middle != "–").ToList();
        var words = rows.Count == 0 ? "No forecast." : string.Join(" ", rows.Select(row => $"{row.Day}: {row.Middle} {series.Unit}, nine in ten between {row.Low} and {row.High}."));
        return series.Measured.Count switch
        {
            0 => words,
            1 => words + " One measurement is marked.",
            var count => words + $" {count.ToString(CultureInfo.InvariantCulture)} measurements are marked.",
        };
    }

    internal static string Date(DateOnly start, double day) => double.IsFinite(day)
        ? start.AddDays((int)Math.Clamp(Math.Round(day), DateOnly.MinValue.DayNumber - start.DayNumber, DateOnly.MaxValue.DayNumber - start.DayNumber)).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
        : "–";

    /// <summary>One decimal of ordinary numbers: more would promise what is not known.</summary>
    internal static string Value(double? value) => value is { } known && double.IsFinite(known)
        ? known.ToString(Math.Abs(known) >= 1000 ? "0" : Math.Abs(known) >= 1 ? "0.0" : "0.00", CultureInfo.InvariantCulture)
        : "–";
}
