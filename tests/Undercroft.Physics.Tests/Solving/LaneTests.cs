using CsCheck;
using Undercroft.Physics.Solving;
using Xunit;

namespace Undercroft.Physics.Tests.Solving;

/// <summary>One formula, three widths: element by element the same bits.</summary>
public class LaneTests
{
    private static readonly Gen<double[]> Eight = Gen.Double[-50, 50].Array[8];

    [Fact]
    public void Widths_agree_bit_for_bit() =>
        Gen.Select(Eight, Eight).Sample(
            (left, right) =>
            {
                var one = All<Lane1>(left, right);
                Assert.Equal(one, All<Lane4>(left, right));
                Assert.Equal(one, All<Lane8>(left, right));
            },
            seed: "0000KeepLanes1", iter: 2000);

    [Fact]
    public void Not_a_number_takes_the_second_choice_in_all_widths()
    {
        double[] left = [double.NaN, 1, 2, double.NaN, 3, double.NaN, 5, 6];
        double[] right = [1, double.NaN, 3, double.NaN, 2, 0, double.NaN, 7];
        Assert.Equal(All<Lane1>(left, right), All<Lane4>(left, right));
        Assert.Equal(All<Lane1>(left, right), All<Lane8>(left, right));
        Assert.Equal(1, (double)Lane1.Max(double.NaN, 1));
    }

    /// <summary>Source: the library's exponential, itself within 1 ulp; 2 ulp are 4.5e-16.</summary>
    [Fact]
    public void The_exponential_is_within_two_units_of_the_last_place() =>
        Gen.Double[-690, 690].Sample(
            x => Assert.InRange((double)LaneExp.Of<Lane1>(x) / Math.Exp(x), 1 - 4.5e-16, 1 + 4.5e-16), seed: "0000KeepLanes2", iter: 20_000);

    [Theory]
    [InlineData(-1e9, -700)]
    [InlineData(1e9, 700)]
    [InlineData(double.NegativeInfinity, -700)]
    public void Beyond_its_range_the_exponential_holds_its_last_value(double x, double held) =>
        Assert.Equal((double)LaneExp.Of<Lane1>(held), (double)LaneExp.Of<Lane1>(x));

    [Fact]
    public void A_table_of_lines_gives_each_lane_its_own_function()
    {
        LineTable table = new([.. Enumerable.Range(1, 8).Select(k => (Func<double, double>)(x => 1 + (k * x)))]);
        double[] x = [0.1, 0.2, 0.35, 0.5, 0.61, 0.77, 0.9, 0.999];
        var found = new double[8];
        table.At(Lane8.Load(x), LineTable.Beginnings<Lane8>(shared: false)).Store(found);
        for (var i = 0; i < 8; i++)
            Assert.Equal(1 + ((i + 1) * x[i]), found[i], 1e-4);
        table.At(Lane8.Load(x), LineTable.Beginnings<Lane8>(shared: true)).Store(found);
        for (var i = 0; i < 8; i++)
            Assert.Equal(1 + x[i], found[i], 1e-5);
    }

    private static double[] All<T>(double[] left, double[] right)
        where T : struct, ILane<T>
    {
        var result = new double[8 * 11];
        for (var at = 0; at < 8; at += T.Count)
        {
            var (a, b) = (T.Load(left.AsSpan(at)), T.Load(right.AsSpan(at)));
            var k = 0;
            void Keep(T lane) => lane.Store(result.AsSpan((8 * k++) + at));
            Keep(a + b);
            Keep(a - b);
            Keep(a * b);
            Keep(a / b);
            Keep(T.Min(a, b));
            Keep(T.Max(a, b));
            Keep(T.WhereLess(a, b, a, T.Of(3)));
            Keep(LaneExp.Of(a));
            var step = Relaxation<T>.Over(a * a);
            Keep(step.Fraction);
            Keep(step.Second);
            Keep(step.Mean(a, b, T.Of(0.1)));
        }

        return result;
    }
}
