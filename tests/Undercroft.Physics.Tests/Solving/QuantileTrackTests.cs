using Undercroft.Physics.Solving;
using Xunit;

namespace Undercroft.Physics.Tests.Solving;

/// <summary>Following a sample gives the bits of sorting it anew, in lanes of every width.</summary>
public class QuantileTrackTests
{
    private static readonly double[] Probabilities = [0.05, 0.5, 0.95];

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(100)]
    [InlineData(256)]
    [InlineData(4096)]
    public void A_sample_that_drifts_has_the_quantiles_of_one_sorted_anew(int count)
    {
        var random = new Random(3);
        Follower follower = new(count);
        var values = Enumerable.Range(0, count).Select(_ => random.NextSingle()).ToArray();
        for (var time = 0; time < 60; time++)
        {
            for (var i = 0; i < count; i++)
                values[i] = time % 20 == 19 ? random.NextSingle() : values[i] + (0.01f * random.NextSingle()); // now and then quite otherwise
            if (time % 7 == 3)
                values[0] = values[count - 1];
            if (time % 11 == 5)
                Array.Sort(values);
            follower.Check(values);
        }
    }

    /// <summary>Samples of few different numbers, samples that jump as a whole, spread widely, or hold one far beyond.</summary>
    [Theory]
    [InlineData(3)]
    [InlineData(70)]
    [InlineData(256)]
    public void Equals_and_jumps_are_found_too(int count)
    {
        var random = new Random(4);
        Follower follower = new(count);
        foreach (var kinds in new[] { 1, 2, 5, 40 })
        {
            for (var time = 0; time < 30; time++)
            {
                var (jump, wide) = (random.Next(-50, 50), time % 4 == 0 ? 1e6f : 1f);
                var values = Enumerable.Range(0, count).Select(_ => jump + (wide * random.Next(kinds))).ToArray();
                if (time % 5 == 0)
                    values[random.Next(count)] = time % 2 == 0 ? float.PositiveInfinity : 3e30f;
                follower.Check(values);
            }
        }
    }

    [Fact]
    public void Not_a_number_is_left_out_and_forgotten_again()
    {
        Follower follower = new(5);
        foreach (var values in new[] { new[] { 5f, 4, 3, 2, 1 }, [5, float.NaN, 3, 2, 1], [float.NaN, float.NaN, 3, 9, 1], [1, 2, 3, 4, 5], [1, 2, float.NaN, 4, 5] })
            follower.Check(values);
    }

    [Fact]
    public void Not_a_number_among_many_is_left_out()
    {
        var random = new Random(5);
        Follower follower = new(256);
        for (var time = 0; time < 20; time++)
        {
            var values = Enumerable.Range(0, 256).Select(_ => random.NextSingle()).ToArray();
            for (var i = 0; i < time % 7; i++)
                values[random.Next(256)] = float.NaN;
            follower.Check(values);
        }
    }

    /// <summary>Follows a sample with lanes of every width.</summary>
    private sealed class Follower(int count)
    {
        private readonly QuantileTrack one = new(Probabilities, count);
        private readonly QuantileTrack eight = new(Probabilities, count);
        private readonly QuantileTrack sixteen = new(Probabilities, count);

        public void Check(float[] values)
        {
            var (found, expected) = (new double[3], new double[3]);
            Quantile.Of(Array.ConvertAll(values, value => (double)value), Probabilities, expected);
            var padded = new float[(values.Length + 15) / 16 * 16];
            Array.Fill(padded, values[^1]);
            values.CopyTo(padded, 0);
            one.Of<Single1>(padded, found);
            Assert.Equal(expected, found);
            eight.Of<Single8>(padded, found);
            Assert.Equal(expected, found);
            sixteen.Of<Single16>(padded, found);
            Assert.Equal(expected, found);
        }
    }
}
