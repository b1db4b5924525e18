using CsCheck;
using Undercroft.Physics.Solving;
using Xunit;

namespace Undercroft.Physics.Tests.Solving;

/// <summary>Source: [HyndmanFan1996] definition 7, by sorting.</summary>
public class QuantileTests
{
    [Fact]
    public void Selection_gives_what_sorting_gives() =>
        Gen.Double[-5, 5].Select(value => Math.Round(value, 1)).Array[1, 300].Sample(
            values =>
            {
                var sorted = values.Order().ToArray();
                double[] probabilities = [0, 0.05, 0.5, 0.5, 0.95, 1];
                var found = new double[probabilities.Length];
                Quantile.Of(values.ToArray(), probabilities, found);
                for (var i = 0; i < found.Length; i++)
                {
                    var h = (values.Length - 1) * probabilities[i];
                    var low = (int)h;
                    var expected = sorted[low] + (h > low ? (h - low) * (sorted[low + 1] - sorted[low]) : 0);
                    Assert.Equal(expected, found[i], 1e-12);
                }
            },
            seed: "0000KeepQuant1", iter: 2000);

    [Fact]
    public void What_is_not_a_number_is_left_out()
    {
        Assert.Equal(2, Quantile.Of([double.NaN, 1, 2, double.NaN, 3], 0.5));
        Assert.Equal(double.NaN, Quantile.Of([double.NaN], 0.5));
    }

    [Fact]
    public void A_probability_outside_0_to_1_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Quantile.Of([1, 2], double.NaN));
}
