using Undercroft.Physics.Solving;
using Xunit;

namespace Undercroft.Physics.Tests.Solving;

/// <summary>Source: the closed form of dy/dθ = −(y − r₀ − Δr θ/z).</summary>
public class RelaxationTests
{
    [Theory]
    [InlineData(1e-9)]
    [InlineData(9.99e-3)]
    [InlineData(1.001e-2)]
    [InlineData(0.7)]
    [InlineData(40)]
    [InlineData(1e6)]
    public void End_and_mean_are_the_closed_form(double clock)
    {
        var step = Relaxation<Lane1>.Over(clock);
        var decay = Math.Exp(-clock);
        // In terms that lose nothing: e^(−z) by the library, the rest by series where z is small.
        var fraction = clock < 0.02 ? Series(clock, 1) : 1 - decay;
        var second = clock < 0.02 ? Series(clock, 2) : (1 - ((1 - decay) / clock)) / clock;
        Assert.Equal(fraction, (double)step.Fraction, fraction * 4e-15);
        Assert.Equal(second, (double)step.Second, second * 1e-12);
        Assert.Equal(3 + ((1 - 3) * fraction) + (0.5 * clock * second), (double)step.End(3, 1, 0.5), 1e-13);
    }

    [Fact]
    public void Two_half_steps_are_one_step()
    {
        double whole = Relaxation<Lane1>.Over(1.3).End(0.2, 0.5, 0.1);
        var half = Relaxation<Lane1>.Over(0.65);
        Assert.Equal(whole, (double)half.End(half.End(0.2, 0.5, 0.05), 0.55, 0.05), 1e-15);
    }

    [Fact]
    public void The_mean_over_a_step_is_that_of_many_small_ones()
    {
        const int Parts = 1000;
        var small = Relaxation<Lane1>.Over(2.0 / Parts);
        var (y, sum) = (0.2, 0.0);
        for (var i = 0; i < Parts; i++)
        {
            sum += small.Mean(y, 0.5 + (0.1 * i / Parts), 0.1 / Parts);
            y = small.End(y, 0.5 + (0.1 * i / Parts), 0.1 / Parts);
        }

        Assert.Equal(sum / Parts, (double)Relaxation<Lane1>.Over(2).Mean(0.2, 0.5, 0.1), 1e-12);
    }

    /// <summary>Σ (−1)^k z^k/(k + order)! with the leading power of z for order 1.</summary>
    private static double Series(double z, int order)
    {
        var sum = 0.0;
        for (var k = 12; k >= 0; k--)
        {
            var factorial = 1.0;
            for (var i = 2; i <= k + order; i++)
                factorial *= i;
            sum += Math.Pow(-z, k) / factorial;
        }

        return order == 1 ? sum * z : sum;
    }
}
