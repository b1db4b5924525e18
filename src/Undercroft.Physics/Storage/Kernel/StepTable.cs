using Undercroft.Physics.Climate;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>Some steps of a stay with the weather of each: shared by all groups of draws that step alike.</summary>
internal sealed class StepTable
{
    /// <summary>How the weather moves over a step: change of the room's humidity as leaf feels it; relative change of each gas's source, of its rate, of the uptake.</summary>
    public const int WaterChange = 0, SourceTrend = 1, RateTrend = 4, UptakeTrend = 7, Trends = 8;

    private const int Stride = SharedWeather.End + Trends;

    private readonly float[] values;

    /// <summary>Gathers the steps between rising days.</summary>
    /// <param name="basis">Of the place.</param>
    /// <param name="days">Edges, in cells of the place's table.</param>
    /// <param name="cells">How many cells the table has, or none for a periodic one.</param>
    /// <param name="middle">Weights of a usual draw, for the trends.</param>
    /// <param name="shared">What all draws feel alike, or null.</param>
    public StepTable(TemperatureBasis basis, int[] days, int? cells, double[] middle, SharedWeather? shared)
    {
        Days = days;
        values = new float[Stride * Count];
        var made = new double[Stride];
        Span<double> first = stackalloc double[TemperatureBasis.Width];
        Span<double> second = stackalloc double[TemperatureBasis.Width];
        for (var step = 0; step < Count; step++)
        {
            var (from, to) = (days[step], days[step + 1]);
            Array.Clear(made);
            basis.Between(from, to, made.AsSpan(0, TemperatureBasis.Width));
            shared?.Fill(made);
            var (a, b, c, d) = Halves(from, to, cells);
            var apart = (c + d - a - b) / 2.0;
            if (apart > 0)
            {
                basis.Between(a, b, first);
                basis.Between(c, d, second);
                Fill(first, second, (double)(d - c) / (b - a), (to - from) / apart, middle, made.AsSpan(SharedWeather.End, Trends));
            }

            Array.ConvertAll(made, value => (float)value).CopyTo(values, step * Stride);
        }
    }

    /// <summary>Edges of the steps.</summary>
    public int[] Days { get; }

    /// <summary>How many steps.</summary>
    public int Count => Days.Length - 1;

    /// <summary>Length of a step, days.</summary>
    public int Length(int step) => Days[step + 1] - Days[step];

    /// <summary>The integrals over a step.</summary>
    public ReadOnlySpan<float> Sums(int step) => values.AsSpan(step * Stride, SharedWeather.End);

    /// <summary>See the places above.</summary>
    public ReadOnlySpan<float> TrendsOf(int step) => values.AsSpan((step * Stride) + SharedWeather.End, Trends);

    /// <summary>Two spans whose means show how the weather moves across a step: its halves, or the neighbours of a single day.</summary>
    private static (int, int, int, int) Halves(int from, int to, int? cells)
    {
        if (to - from >= 2)
        {
            var middle = (from + to) / 2;
            return (from, middle, middle, to);
        }

        var before = from > 0 ? from - 1 : from;
        var after = cells is null || to < cells ? to + 1 : to;
        return (before, before + 1, after - 1, after);
    }

    private static void Fill(ReadOnlySpan<double> first, ReadOnlySpan<double> second, double lengths, double over, double[] middle, Span<double> trends)
    {
        var (clock, source) = (Dot(first, TemperatureBasis.Water, middle, StayWeights.Clock), Dot(first, TemperatureBasis.WaterHumid, middle, StayWeights.Source));
        var (clock2, source2) = (Dot(second, TemperatureBasis.Water, middle, StayWeights.Clock), Dot(second, TemperatureBasis.WaterHumid, middle, StayWeights.Source));
        trends[WaterChange] = clock > 0 && clock2 > 0 ? ((source2 / clock2) - (source / clock)) * over : 0;
        if (middle.Length <= StayWeights.Gas)
            return;
        for (var gas = 0; gas < 3; gas++)
        {
            var family = StayWeights.Gas + (gas * StayWeights.GasWidth);
            trends[RateTrend + gas] = Change(Dot(first, TemperatureBasis.Gas, middle, family), Dot(second, TemperatureBasis.Gas, middle, family));
            trends[SourceTrend + gas] = Change(
                Dot(first, TemperatureBasis.Pressed, middle, family + TemperatureBasis.Nodes) + Dot(first, TemperatureBasis.Humid, middle, family + (2 * TemperatureBasis.Nodes)),
                Dot(second, TemperatureBasis.Pressed, middle, family + TemperatureBasis.Nodes) + Dot(second, TemperatureBasis.Humid, middle, family + (2 * TemperatureBasis.Nodes)));
        }

        trends[UptakeTrend] = Change(Dot(first, TemperatureBasis.Gas, middle, StayWeights.Uptake), Dot(second, TemperatureBasis.Gas, middle, StayWeights.Uptake));

        double Change(double one, double two) => one + two == 0 ? 0 : ((two / lengths) - one) / (((two / lengths) + one) / 2) * over;
    }

    private static double Dot(ReadOnlySpan<double> sums, int family, double[] weights, int row)
    {
        var sum = 0.0;
        for (var k = 0; k < TemperatureBasis.Nodes; k++)
            sum += sums[family + k] * weights[row + k];
        return sum;
    }
}
