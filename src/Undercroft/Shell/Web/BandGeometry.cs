namespace Undercroft.Shell.Web;

/// <summary>Where everything of a band chart goes, in the units of its drawing area.</summary>
/// <param name="Width">Of the drawing.</param>
/// <param name="Height">Of the drawing.</param>
/// <param name="Left">Left edge of the plot; its labels stand left of it.</param>
/// <param name="Top">Upper edge of the plot.</param>
/// <param name="Right">Right edge of the plot.</param>
/// <param name="Bottom">Lower edge of the plot; the dates stand below it.</param>
/// <param name="Bands">Closed paths from the lower to the upper edge, one for each stretch without a gap.</param>
/// <param name="Middles">Open paths of the middle.</param>
/// <param name="Points">Centres of the measurements.</param>
/// <param name="Limits">Lines that matter, with the height of their label.</param>
/// <param name="Days">Marks of the days: x.</param>
/// <param name="Values">Marks of the values: y.</param>
/// <param name="TodayX">Where day 0 stands, if something lies before it.</param>
public sealed record BandGeometry(
    int Width,
    int Height,
    double Left,
    double Top,
    double Right,
    double Bottom,
    IReadOnlyList<string> Bands,
    IReadOnlyList<string> Middles,
    IReadOnlyList<(double X, double Y)> Points,
    IReadOnlyList<(double Y, double LabelY, string Name)> Limits,
    IReadOnlyList<Tick> Days,
    IReadOnlyList<Tick> Values,
    double? TodayX)
{
    private const int MostPoints = 160;
    private const double LabelHeight = 15;
    private const double LabelGap = 7; // between a line and the foot of its name: descenders clear the line
    private const double LetterHeight = 11;

    /// <summary>Lays the series out; null where there is nothing to draw at all.</summary>
    public static BandGeometry? Of(BandSeries series, int width, int height)
    {
        var rows = Rows(series);
        var measured = series.Measured.Where(point => double.IsFinite(point.Day) && double.IsFinite(point.Value)).ToList();
        var limits = series.Limits.Where(limit => double.IsFinite(limit.Value)).OrderByDescending(limit => limit.Value).ToList();
        var known = rows.Where(row => row is { Known: true }).ToList();
        if (known.Count == 0 && measured.Count == 0)
            return null;

        var x = Scale.Over(known.Select(row => row.Day).Concat(measured.Select(point => point.Day)), 46, width - 14, padding: 0, least: 1);
        var y = Scale.Over(
            known.SelectMany(row => (double[])[row.Low, row.Middle, row.High]).Concat(measured.Select(point => point.Value)).Concat(limits.Select(limit => limit.Value)),
            height - 30, 26, padding: 0.06, least: 0.1);

        var bands = new List<string>();
        var middles = new List<string>();
        foreach (var stretch in Stretches(rows))
        {
            bands.Add(Outline(stretch, x, y));
            middles.Add(DrawnLine.Path(DrawnLine.Needed([.. stretch.Select(row => (x.At(row.Day), y.At(row.Middle)))])));
        }

        var today = x.From < 0 && x.To >= 0 ? x.At(0) : (double?)null;
        return new(width, height, x.Start, y.End, x.End, y.Start, bands, middles,
            [.. measured.Select(point => (x.At(point.Day), y.At(point.Value)))],
            LimitsAt(limits, y),
            [.. AxisTicks.OfDays(series.Start, x.From, x.To, width < 500 ? 4 : 8).Select(tick => tick with { At = x.At(tick.At) })],
            [.. AxisTicks.OfValues(y.From, y.To, 8).Select(tick => tick with { At = y.At(tick.At) })],
            today);
    }

    private static List<Row> Rows(BandSeries series)
    {
        var count = new[] { series.Days.Count, series.P5.Count, series.P50.Count, series.P95.Count }.Min();
        var every = Math.Max(1, (count - 1) / MostPoints);
        var rows = new List<Row>();
        for (var i = 0; i < count; i++)
        {
            var row = new Row(series.Days[i], series.P5[i] ?? double.NaN, series.P50[i] ?? double.NaN, series.P95[i] ?? double.NaN);
            if (i % every == 0 || i == count - 1 || !row.Known)
                rows.Add(row);
        }

        return rows;
    }

    private static IEnumerable<List<Row>> Stretches(List<Row> rows)
    {
        var stretch = new List<Row>();
        foreach (var row in rows)
        {
            if (row.Known)
            {
                stretch.Add(row);
                continue;
            }

            if (stretch.Count > 0)
                yield return stretch;
            stretch = [];
        }

        if (stretch.Count > 0)
            yield return stretch;
    }

    private static string Outline(List<Row> stretch, Scale x, Scale y)
    {
        // A single day has no width of its own: it is drawn as a bar of two units.
        var half = stretch.Count == 1 ? 1 : 0;
        List<(double X, double Y)> upper = DrawnLine.Needed([.. stretch.Select(row => (x.At(row.Day) - half, y.At(row.High)))]);
        List<(double X, double Y)> lower = DrawnLine.Needed([.. stretch.AsEnumerable().Reverse().Select(row => (x.At(row.Day) + half, y.At(row.Low)))]);
        return half == 0
            ? DrawnLine.Path(upper.Concat(lower)) + "Z"
            : DrawnLine.Path([upper[0], (upper[0].X + 2, upper[0].Y), lower[0], (lower[0].X - 2, lower[0].Y)]) + "Z";
    }

    /// <summary>A name stands above its line with a little room; below it where the line above would run through it.</summary>
    private static List<(double Y, double LabelY, string Name)> LimitsAt(List<LimitLine> limits, Scale y)
    {
        var placed = new List<(double Y, double LabelY, string Name)>();
        var (line, label) = (double.NegativeInfinity, double.NegativeInfinity); // of the limit above
        foreach (var limit in limits)
        {
            var at = y.At(limit.Value);
            var above = at - LabelGap;
            var free = above - LetterHeight > line && above - label >= LabelHeight;
            label = free ? above : Math.Max(at + LetterHeight + 3, label + LabelHeight);
            line = at;
            placed.Add((at, label, limit.Name));
        }

        return placed;
    }

    private readonly record struct Row(double Day, double Low, double Middle, double High)
    {
        internal bool Known => double.IsFinite(Day) && double.IsFinite(Low) && double.IsFinite(Middle) && double.IsFinite(High);
    }

    /// <summary>From values to places in the drawing; never of zero extent.</summary>
    private readonly record struct Scale(double From, double To, double Start, double End)
    {
        internal static Scale Over(IEnumerable<double> values, double start, double end, double padding, double least)
        {
            var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
            foreach (var value in values)
                (low, high) = (Math.Min(low, value), Math.Max(high, value));

            var extent = high - low;
            var floor = Math.Max(least, 1e-6 * Math.Max(Math.Abs(low), Math.Abs(high)));
            if (extent < floor)
                (low, high) = (low - ((floor - extent) / 2), high + ((floor - extent) / 2));
            var margin = padding * (high - low);
            return new(low - margin, high + margin, start, end);
        }

        internal double At(double value) => Start + ((value - From) / (To - From) * (End - Start));
    }
}
