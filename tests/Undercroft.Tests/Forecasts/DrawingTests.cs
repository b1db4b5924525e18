using Undercroft.Forecasts.Drawing;
using Xunit;

namespace Undercroft.Tests.Forecasts;

public sealed class DrawingTests
{
    /// <summary>Independent of the approximation: Simpson's rule over the normal density up to the returned quantile gives the probability back.</summary>
    [Theory]
    [InlineData(1e-9)]
    [InlineData(0.001)]
    [InlineData(0.05)]
    [InlineData(0.074)]
    [InlineData(0.3)]
    [InlineData(0.5)]
    [InlineData(0.9)]
    [InlineData(0.975)]
    [InlineData(0.99999)]
    public void Quantile_integrates_back_to_its_probability(double probability)
    {
        var z = NormalQuantile.At(probability);
        const double From = -12;
        const int Steps = 40_000;
        var step = (z - From) / Steps;
        var sum = 0.0;
        for (var i = 0; i <= Steps; i++)
        {
            var x = From + (i * step);
            sum += Math.Exp(-x * x / 2) * (i is 0 or Steps ? 1 : i % 2 == 1 ? 4 : 2);
        }

        var integral = sum * step / 3 / Math.Sqrt(2 * Math.PI);
        Assert.Equal(1, integral / probability, 9);
    }

    [Fact]
    public void Quantile_refuses_what_is_no_probability()
    {
        foreach (var wrong in new[] { 0, 1, -0.1, 1.1, double.NaN })
            Assert.Throws<ArgumentOutOfRangeException>(() => NormalQuantile.At(wrong));
    }

    [Fact]
    public void Each_slice_holds_one_draw()
    {
        var values = new SeededDraws(1, 256).Uniform("leak");
        Assert.Equal(Enumerable.Range(0, 256), values.Select(value => (int)(value * 256)).Order());
        Assert.NotEqual(values.Order(), values);
    }

    [Fact]
    public void The_same_seed_and_purpose_give_the_same_draws_and_others_do_not()
    {
        Assert.Equal(new SeededDraws(1, 64).Normal("a"), new SeededDraws(1, 64).Normal("a"));
        Assert.NotEqual(new SeededDraws(1, 64).Normal("a"), new SeededDraws(1, 64).Normal("b"));
        Assert.NotEqual(new SeededDraws(1, 64).Normal("a"), new SeededDraws(2, 64).Normal("a"));
    }

    [Fact]
    public void Two_purposes_are_nearly_uncorrelated()
    {
        var a = new SeededDraws(7, 4096).Normal("a");
        var b = new SeededDraws(7, 4096).Normal("b");
        var correlation = a.Zip(b, (x, y) => x * y).Average();
        Assert.InRange(correlation, -0.06, 0.06); // four standard errors of 1/√4096
    }
}
