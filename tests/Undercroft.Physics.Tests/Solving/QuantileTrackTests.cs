using Undercroft.Physics.Solving;
using Xunit;

namespace Undercroft.Physics.Tests.Solving;

/// <summary>Following a sample gives the bits of sorting it anew.</summary>
public class QuantileTrackTests
{
    private static readonly double[] Probabilities = [0.05, 0.5, 0.95];

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(100)]
    [InlineData(256)]
    public void A_sample_that_drifts_has_the_quantiles_of_one_sorted_anew(int count)
    {
        var random = new Random(3);
        QuantileTrack track = new(Probabilities, count);
        var values = Enumerable.Range(0, count).Select(_ => random.NextDouble()).ToArray();
        var (found, expected) = (new double[3], new double[3]);
        for (var time = 0; time < 60; time++)
        {
            for (var i = 0; i < count; i++)
                values[i] = time % 20 == 19 ? random.NextDouble() : values[i] + (0.01 * random.NextDouble()); // now and then quite otherwise
            if (time % 7 == 3)
                values[0] = values[count - 1];
            track.Of(values, found);
            Quantile.Of((double[])values.Clone(), Probabilities, expected);
            Assert.Equal(expected, found);
        }
    }

    [Fact]
    public void Not_a_number_is_left_out_and_forgotten_again()
    {
        QuantileTrack track = new(Probabilities, 5);
        var (found, expected) = (new double[3], new double[3]);
        foreach (var values in new[] { new[] { 5.0, 4, 3, 2, 1 }, [5, double.NaN, 3, 2, 1], [double.NaN, double.NaN, 3, 9, 1], [1, 2, 3, 4, 5] })
        {
            track.Of(values, found);
            Quantile.Of((double[])values.Clone(), Probabilities, expected);
            Assert.Equal(expected, found);
        }
    }

    [Theory]
    [InlineData(1e-18)]
    [InlineData(1e-9)]
    [InlineData(0.003)]
    [InlineData(0.3466)]
    [InlineData(1)]
    [InlineData(30)]
    [InlineData(900)]
    public void One_minus_the_exponential_loses_nothing_where_it_is_small(double z)
    {
        double found = LaneExp.OneMinusOf<Lane1>(z);
        var exact = z < 1e-5 ? z * (1 - (z / 2) + (z * z / 6)) : 1 - Math.Exp(-z);
        Assert.Equal(1, found / exact, z < 1e-2 && z >= 1e-5 ? 1e-13 : 2e-15); // the library's own difference loses that much
    }
}
