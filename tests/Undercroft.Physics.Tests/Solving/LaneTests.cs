using CsCheck;
using Undercroft.Physics.Solving;
using Xunit;

namespace Undercroft.Physics.Tests.Solving;

/// <summary>One formula, three widths, two precisions: element by element the same bits.</summary>
public class LaneTests
{
    private const int Most = 16;

    private static readonly Gen<double[]> Sixteen = Gen.Double[-50, 50].Array[Most];

    [Fact]
    public void Widths_agree_bit_for_bit() =>
        Gen.Select(Sixteen, Sixteen).Sample(
            (left, right) =>
            {
                var one = All<Lane1>(left, right);
                Assert.Equal(one, All<Lane4>(left, right));
                Assert.Equal(one, All<Lane8>(left, right));
                var single = All<Single1>(left, right);
                Assert.Equal(single, All<Single8>(left, right));
                Assert.Equal(single, All<Single16>(left, right));
            },
            seed: "0000KeepLanes1", iter: 2000);

    [Fact]
    public void Not_a_number_takes_the_second_choice_in_all_widths()
    {
        double[] left = [double.NaN, 1, 2, double.NaN, 3, double.NaN, 5, 6, 1, double.NaN, 0, 0, double.NaN, 4, 2, 1];
        double[] right = [1, double.NaN, 3, double.NaN, 2, 0, double.NaN, 7, 1, 0, double.NaN, 0, double.NaN, 5, 1, 2];
        Assert.Equal(All<Lane1>(left, right), All<Lane4>(left, right));
        Assert.Equal(All<Lane1>(left, right), All<Lane8>(left, right));
        Assert.Equal(1, (double)Lane1.Max(double.NaN, 1));
        Assert.Equal(All<Single1>(left, right), All<Single8>(left, right));
        Assert.Equal(All<Single1>(left, right), All<Single16>(left, right));
    }

    [Fact]
    public void Arrays_sums_tables_and_bits_agree_in_all_widths()
    {
        var random = new Random(2);
        var table = Enumerable.Range(0, 600).Select(_ => random.NextSingle()).ToArray();
        float[] left = [.. Enumerable.Range(0, Most).Select(_ => random.NextSingle())], right = [.. left.Select((value, i) => i % 3 == 0 ? value : random.NextSingle())];
        double[] sums = [.. left.Select(value => 1e6 + value)];
        var (one, eight, sixteen) = (Of<Single1>(), Of<Single8>(), Of<Single16>());
        Assert.Equal(one, eight);
        Assert.Equal(one, sixteen);
        for (var i = 0; i < Most; i++)
        {
            Assert.Equal(table[(int)(left[i] * 599)], one[0][i]);
            Assert.Equal(left[i] < right[i] ? 1 : 0, one[1][i]);
            Assert.Equal(sums[i] + right[i], one[2][i]);
            Assert.Equal(table[(int)(left[i] * 599)], one[3][i]);
            Assert.Equal(table[5 + (int)(left[i] * 15)], one[4][i]);
            Assert.InRange(one[6][i], 0.70710677, 1.41421366);
            Assert.Equal(left[i], (float)(one[6][i] * Math.Pow(2, one[5][i])));
        }

        double[][] Of<T>()
            where T : struct, ISingleLane<T>
        {
            var (found, less, added, exact) = (new float[Most], new double[Most], (double[])sums.Clone(), new double[Most]);
            var (picked, exponents, mantissas) = (new double[Most], new double[Most], new double[Most]);
            for (var at = 0; at < Most; at += T.Count)
            {
                T.Pick(table, 5, T.At([.. left.Select(value => (float)(int)(value * 15))], at) + T.Of(T.Shift)).Put(picked, at);
                T.Exponent(T.At(left, at), out var mantissa).Put(exponents, at);
                mantissa.Put(mantissas, at);
                var places = T.At([.. left.Select(value => (float)(int)(value * 599))], at) + T.Of(T.Shift);
                T.Gather(table, places).Put(found, at);
                T.Gather(Array.ConvertAll(table, value => (double)value), places).Put(exact, at);
                for (var i = 0; i < T.Count; i++)
                    less[at + i] = T.Less(T.At(left, at), T.At(right, at)) >> i & 1;
                T.At(right, at).AddTo(added, at);
            }

            return [Array.ConvertAll(found, value => (double)value), less, added, exact, picked, exponents, mantissas];
        }
    }

    /// <summary>Source: the library's exponential, itself within 1 ulp; 2 ulp are 4.5e-16.</summary>
    [Fact]
    public void The_exponential_is_within_two_units_of_the_last_place() =>
        Gen.Double[-690, 690].Sample(
            x => Assert.InRange((double)LaneExp.Of<Lane1>(x) / Math.Exp(x), 1 - 4.5e-16, 1 + 4.5e-16), seed: "0000KeepLanes2", iter: 20_000);

    /// <summary>A unit of the last place of single precision is 6e-8 to 1.2e-7 of a number.</summary>
    [Fact]
    public void In_single_precision_it_is_within_two_units_too() =>
        Gen.Float[-86, 86].Sample(x => Assert.InRange((float)LaneExp.Of<Single1>(Single1.Of(x)) / Math.Exp(x), 1 - 2.4e-7, 1 + 2.4e-7), seed: "0000KeepLanes3", iter: 20_000);

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
        float rounded = (float)z;
        var exactOfRounded = rounded < 1e-5 ? rounded * (1 - (rounded / 2.0)) : 1 - Math.Exp(-(double)rounded);
        Assert.Equal(1, (float)LaneExp.OneMinusOf(Single1.Of(rounded)) / exactOfRounded, 3e-7);
    }

    [Fact]
    public void The_logarithm_is_within_two_units_of_the_last_place() =>
        Gen.Float[1e-6f, 1e6f].Sample(
            x => Assert.Equal(Math.Log(x), (float)LaneLog.Of(Single1.Of(x)), Math.Max(1e-7, 2.4e-7 * Math.Abs(Math.Log(x)))), seed: "0000KeepLanes4", iter: 20_000);

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
        var result = new double[Most * 12];
        for (var at = 0; at < Most; at += T.Count)
        {
            var (a, b) = (T.Load(left.AsSpan(at)), T.Load(right.AsSpan(at)));
            var k = 0;
            void Keep(T lane) => lane.Store(result.AsSpan((Most * k++) + at));
            Keep(a + b);
            Keep(a - b);
            Keep(a * b);
            Keep(a / b);
            Keep(T.Min(a, b));
            Keep(T.Max(a, b));
            Keep(T.WhereLess(a, b, a, T.Of(3)));
            Keep(LaneExp.Of(a));
            Keep(LaneExp.OneMinusOf(a * a));
            var step = Relaxation<T>.Over(a * a);
            Keep(step.Fraction);
            Keep(step.Second);
            Keep(step.Mean(a, b, T.Of(0.1)));
        }

        return result;
    }
}
