using Undercroft.Forecasts;
using Undercroft.Forecasts.Drawing;
using Xunit;

namespace Undercroft.Tests.Forecasts;

public sealed class NarrowingTests
{
    private static readonly double[] X = new SeededDraws(3, 400).Normal("x");
    private static readonly double[] Y = new SeededDraws(3, 400).Normal("y");

    /// <summary>Closed form for normal variables: reading x with error sd e leaves sd √(e²/(1 + e²)) of x; the spread between 5 and 95 % shrinks alike.</summary>
    [Theory]
    [InlineData(0.5)]
    [InlineData(1.0)]
    [InlineData(2.0)]
    public void Expected_spread_agrees_with_the_normal_closed_form(double noise)
    {
        var found = Narrowing.Best(X, [new("read x", X, noise)])!;
        var expected = found.SpreadNow * Math.Sqrt(noise * noise / (1 + (noise * noise)));
        Assert.InRange(found.SpreadAfter / expected, 0.9, 1.1); // kernel width 0.15 beside the noise, and 400 draws
    }

    [Fact]
    public void What_has_nothing_to_do_with_the_answer_is_not_advised() => Assert.Null(Narrowing.Best(X, [new("read y", Y, 0.1)]));

    [Fact]
    public void The_better_of_two_is_advised()
    {
        var sum = X.Zip(Y, (x, y) => (3 * x) + y).ToArray();
        Assert.Equal("read x", Narrowing.Best(sum, [new("read y", Y, 0.1), new("read x", X, 0.1)])!.Measurement);
    }

    [Fact]
    public void An_answer_without_spread_needs_no_measurement() => Assert.Null(Narrowing.Best([.. X.Select(_ => 1.0)], [new("read x", X, 0.1)]));
}
