using CsCheck;
using Undercroft.Shell.Web;
using Xunit;

namespace Undercroft.Tests.Serving;

public class DrawnLineTests
{
    [Fact]
    public void What_is_left_out_lies_on_the_line_as_far_as_the_eye_can_tell() =>
        Gen.Select(Gen.Double[0, 300].Array[2, 60], Gen.Bool).Sample((heights, smooth) =>
        {
            (double X, double Y)[] corners = [.. heights.Select((y, i) => (5.0 * i, smooth ? 100 + (80 * Math.Sin(i / 7.0)) : y))];
            var kept = DrawnLine.Needed(corners);
            Assert.Equal((corners[0], corners[^1]), (kept[0], kept[^1]));
            foreach (var corner in corners)
            {
                var after = kept.First(one => one.X >= corner.X);
                var before = kept.Last(one => one.X <= corner.X);
                var at = after.X > before.X ? before.Y + ((after.Y - before.Y) * (corner.X - before.X) / (after.X - before.X)) : after.Y;
                var steep = after.X > before.X ? (after.Y - before.Y) / (after.X - before.X) : 0;
                Assert.InRange(Math.Abs(at - corner.Y) / Math.Sqrt(1 + (steep * steep)), 0, DrawnLine.Off + 1e-9);
            }
        });

    [Fact]
    public void A_straight_line_has_two_corners_and_a_bent_one_three()
    {
        Assert.Equal([(0, 0), (9, 9)], DrawnLine.Needed([.. Enumerable.Range(0, 10).Select(i => ((double)i, (double)i))]));
        Assert.Equal([(0, 0), (5, 5), (9, 1)], DrawnLine.Needed([.. Enumerable.Range(0, 10).Select(i => ((double)i, (double)(i <= 5 ? i : 10 - i)))]));
    }

    [Theory]
    [InlineData(-0.04, "0")]
    [InlineData(12.345, "12.3")]
    [InlineData(1e6, "1000000")]
    public void Coordinates_have_one_decimal(double value, string text) => Assert.Equal(text, DrawnLine.Number(value));
}
