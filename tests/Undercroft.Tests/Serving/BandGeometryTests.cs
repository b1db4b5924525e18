using System.Globalization;
using System.Text.RegularExpressions;
using CsCheck;
using Undercroft.Shell.Web;
using Xunit;

namespace Undercroft.Tests.Serving;

public partial class BandGeometryTests
{
    private static readonly DateOnly Start = new(2026, 11, 24);

    [Fact]
    public void Nothing_known_draws_nothing()
    {
        Assert.Null(BandGeometry.Of(Series([], [], [], []), 340, 260));
        Assert.Null(BandGeometry.Of(Series([0, 1], [null, double.NaN], [null, 1], [null, 1]), 340, 260));
    }

    [Fact]
    public void A_single_day_is_a_visible_bar_in_the_middle()
    {
        var at = BandGeometry.Of(Series([0], [12], [14], [16]), 340, 260)!;
        var band = Corners(Assert.Single(at.Bands));
        Assert.Equal(2, band.Max(corner => corner.X) - band.Min(corner => corner.X), 6);
        Assert.Equal((at.Left + at.Right) / 2, band.Average(corner => corner.X), 1);
        AllInside(at);
    }

    [Fact]
    public void All_equal_values_keep_a_height()
    {
        var at = BandGeometry.Of(Series([0, 100, 200], [14, 14, 14], [14, 14, 14], [14, 14, 14]), 340, 260)!;
        AllInside(at);
        Assert.NotEmpty(at.Values);
        Assert.Equal((at.Top + at.Bottom) / 2, Corners(Assert.Single(at.Middles))[0].Y, 1);
    }

    [Fact]
    public void A_gap_parts_the_band()
    {
        var at = BandGeometry.Of(Series([0, 1, 2, 3, 4], [1, 1, null, 1, 1], [2, 2, 2, 2, 2], [3, 3, 3, double.NaN, 3]), 720, 300)!;
        Assert.Equal(2, at.Bands.Count);
        Assert.Equal(2, at.Middles.Count);
        AllInside(at);
    }

    [Fact]
    public void A_larger_value_stands_higher_and_a_later_day_further_right()
    {
        var at = BandGeometry.Of(Series([0, 365], [10, 9], [12, 11], [14, 13]), 720, 300)!;
        var middle = Corners(Assert.Single(at.Middles));
        Assert.True(middle[0].Y < middle[1].Y);
        Assert.True(middle[0].X < middle[1].X);
        Assert.Equal((at.Left, at.Right), (middle[0].X, middle[1].X));
    }

    [Fact]
    public void Limits_and_measurements_widen_the_drawing()
    {
        var at = BandGeometry.Of(
            Series([0, 365], [15, 15], [16, 16], [17, 17]) with { Limits = [new(12, "dry"), new(12.1, "nearly dry")], Measured = [new(-400, 19, "weighed")] }, 340, 260)!;
        AllInside(at);
        var point = Assert.Single(at.Points);
        Assert.Equal(at.Left, point.X, 6);
        Assert.NotNull(at.TodayX);
        Assert.True(point.X < at.TodayX && at.TodayX < at.Right);
        Assert.True(at.Limits[1].LabelY - at.Limits[0].LabelY >= 15, "the names of two close limits must not overlap");
        Assert.All(at.Limits, limit => Assert.All(at.Limits, line => Assert.False(line.Y > limit.LabelY - 11 && line.Y < limit.LabelY + 4, $"a line at {line.Y} runs through the name at {limit.LabelY}")));
    }

    [Fact]
    public void Measurements_alone_are_drawn()
    {
        var at = BandGeometry.Of(Series([], [], [], []) with { Measured = [new(-10, 61, "humidity"), new(double.NaN, 60, "humidity")] }, 340, 260)!;
        Assert.Single(at.Points);
        Assert.Empty(at.Bands);
    }

    [Theory]
    [InlineData(10950, 4, "2030,2040,2050")]
    [InlineData(365, 4, "2027-01,2027-04,2027-07,2027-10")]
    [InlineData(9, 4, "11-24,11-27,11-30,12-03")]
    public void Days_are_marked_with_round_dates(double span, int wanted, string labels) =>
        Assert.Equal(labels, string.Join(',', AxisTicks.OfDays(Start, 0, span, wanted).Select(tick => tick.Label)));

    [Theory]
    [InlineData(9.6, 18.4, "10,12,14,16,18")]
    [InlineData(0.58, 0.72, "0.60,0.65,0.70")]
    [InlineData(-3, 120, "0,50,100")]
    public void Values_are_marked_with_round_numbers(double from, double to, string labels) =>
        Assert.Equal(labels, string.Join(',', AxisTicks.OfValues(from, to, 5).Select(tick => tick.Label)));

    [Fact]
    public void Any_series_stays_inside_the_drawing_without_nan()
    {
        var value = Gen.Frequency((8, Gen.Double[-1e6, 1e6].Select(v => (double?)v)), (1, Gen.Const((double?)null)), (1, Gen.Const((double?)double.NaN)), (1, Gen.Const((double?)double.PositiveInfinity)));
        var row = Gen.Select(Gen.Double[0, 1e5], value, value, value);
        var measured = Gen.Select(Gen.Double[-1e5, 1e5], Gen.Double[-1e6, 1e6]).Array[0, 5];
        Gen.Select(row.Array[0, 400], measured).Sample((rows, points) =>
        {
            var days = rows.OrderBy(r => r.Item1).ToList();
            var series = Series([.. days.Select(r => r.Item1)], [.. days.Select(r => r.Item2)], [.. days.Select(r => r.Item3)], [.. days.Select(r => r.Item4)]) with
            {
                Measured = [.. points.Select(p => new MeasuredPoint(p.Item1, p.Item2, "weighed"))],
                Limits = [new(12, "dry")],
            };
            foreach (var (width, height) in ((int, int)[])[(340, 260), (720, 300)])
            {
                if (BandGeometry.Of(series, width, height) is { } at)
                    AllInside(at);
            }
        }, seed: "0000KfZ1T5N3", iter: 300);
    }

    [Fact]
    public void The_table_has_first_and_last_day_and_dashes_for_gaps()
    {
        double[] days = [.. Enumerable.Range(0, 361).Select(i => i * 30.0)];
        double?[] values = [.. days.Select(day => day == 0 ? (double?)null : 15)];
        var rows = BandTable.Of(Series(days, values, values, values), 12);
        Assert.Equal(12, rows.Count);
        Assert.Equal(new("2026-11-24", "–", "–", "–"), rows[0]);
        Assert.Equal(new("2056-06-19", "15.0", "15.0", "15.0"), rows[^1]);
    }

    private static BandSeries Series(double[] days, double?[] p5, double?[] p50, double?[] p95) => new("Moisture", "%", Start, days, p5, p50, p95, [], []);

    private static void AllInside(BandGeometry at)
    {
        foreach (var (x, y) in at.Bands.Concat(at.Middles).SelectMany(Corners).Concat(at.Points))
        {
            Assert.InRange(x, at.Left - 1.01, at.Right + 1.01);
            Assert.InRange(y, at.Top - 0.01, at.Bottom + 0.01);
        }

        Assert.All(at.Days, tick => Assert.InRange(tick.At, at.Left - 0.01, at.Right + 0.01));
        Assert.All(at.Values, tick => Assert.InRange(tick.At, at.Top - 0.01, at.Bottom + 0.01));
        Assert.All(at.Limits, limit => Assert.InRange(limit.Y, at.Top, at.Bottom));
    }

    private static List<(double X, double Y)> Corners(string path)
    {
        Assert.Matches(@"^(?:[ML]-?\d+(?:\.\d+)? -?\d+(?:\.\d+)?)+Z?$", path);
        return [.. Corner().Matches(path).Select(match => (
            double.Parse(match.Groups["x"].Value, CultureInfo.InvariantCulture),
            double.Parse(match.Groups["y"].Value, CultureInfo.InvariantCulture)))];
    }

    [GeneratedRegex(@"[ML](?<x>\S+) (?<y>[^MLZ]+)")]
    private static partial Regex Corner();
}
