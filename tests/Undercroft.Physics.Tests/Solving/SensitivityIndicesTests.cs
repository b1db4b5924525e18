using Undercroft.Physics.Solving;
using Xunit;

namespace Undercroft.Physics.Tests.Solving;

/// <summary>
/// The Ishigami function sin x1 + 7 sin² x2 + 0.1 x3⁴ sin x1 on −π to π, whose indices are known in closed form: first order 0.3139, 0.4424, 0; total 0.5576,
/// 0.4424, 0.2437 (Ishigami and Homma 1990; the values follow from the integrals and are computed below).
/// </summary>
public class SensitivityIndicesTests
{
    [Fact]
    public void Ishigami_has_its_published_indices()
    {
        const double A = 7, B = 0.1;
        var p4 = Math.Pow(Math.PI, 4);
        var v1 = 0.5 * Math.Pow(1 + (B * p4 / 5), 2);
        var v2 = A * A / 8;
        var v13 = B * B * p4 * p4 * ((1.0 / 18) - (1.0 / 50));
        var all = v1 + v2 + v13;
        Assert.Equal(0.3139, v1 / all, 1e-4);
        Assert.Equal(0.4424, v2 / all, 1e-4);
        Assert.Equal(0.2437, v13 / all, 1e-4);
        var found = SensitivityIndices.Of(3, 1 << 14, 1, Ishigami);
        double[] first = [v1 / all, v2 / all, 0];
        double[] total = [(v1 + v13) / all, v2 / all, v13 / all];
        for (var i = 0; i < 3; i++)
        {
            Assert.Equal(first[i], found[i].First, 0.02);
            Assert.Equal(total[i], found[i].Total, 0.02);
        }
    }

    [Fact]
    public void Two_thousand_samples_name_the_order_of_the_inputs()
    {
        var found = SensitivityIndices.Of(3, 2048, 7, Ishigami);
        Assert.True(found[0].Total > found[1].Total && found[1].Total > found[2].Total);
        Assert.True(found[1].First > found[0].First && found[0].First > found[2].First);
    }

    [Fact]
    public void A_sum_has_no_more_in_total_than_first()
    {
        var found = SensitivityIndices.Of(2, 4096, 3, x => (3 * x[0]) + x[1]);
        Assert.Equal(0.9, found[0].First, 0.02);
        Assert.Equal(0.1, found[1].Total, 0.02);
    }

    [Fact]
    public void An_answer_that_does_not_vary_has_no_indices() => Assert.All(SensitivityIndices.Of(2, 64, 1, _ => 5), index => Assert.Equal((0, 0), index));

    private static double Ishigami(ReadOnlySpan<double> u)
    {
        var (x1, x2, x3) = (Math.PI * ((2 * u[0]) - 1), Math.PI * ((2 * u[1]) - 1), Math.PI * ((2 * u[2]) - 1));
        return Math.Sin(x1) + (7 * Math.Sin(x2) * Math.Sin(x2)) + (0.1 * Math.Pow(x3, 4) * Math.Sin(x1));
    }
}
