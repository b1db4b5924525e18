using Undercroft.Physics.Climate;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>Who feels the weather of a step.</summary>
internal enum Felt
{
    /// <summary>Leaf and gas.</summary>
    ByBoth,

    /// <summary>Leaf alone.</summary>
    ByLeaf,

    /// <summary>Gas alone.</summary>
    ByGas,
}

/// <summary>Some steps of a stay with the weather of each: shared by all groups of draws that step alike.</summary>
internal sealed class StepTable
{
    /// <summary>How the weather moves over a step: change of the room's humidity as leaf feels it; relative change of each gas's source, of its rate, of the uptake.</summary>
    public const int WaterChange = 0, SourceTrend = 1, RateTrend = 4, UptakeTrend = 7, Trends = 8;

    private const int Stride = SharedWeather.End + Trends;

    private readonly WeatherSteps weather;
    private readonly float[] values;

    /// <summary>What draws feel of the weather of some steps.</summary>
    /// <param name="weather">The steps.</param>
    /// <param name="middle">Weights of a usual draw, for the trends.</param>
    /// <param name="shared">What all draws feel alike, or null.</param>
    /// <param name="felt">What is asked for: the rest stays zero.</param>
    public StepTable(WeatherSteps weather, double[] middle, SharedWeather? shared, Felt felt)
    {
        this.weather = weather;
        values = new float[Stride * Count];
        Span<double> made = stackalloc double[Stride];
        for (var step = 0; step < Count; step++)
        {
            made.Clear();
            weather.Sums(step).CopyTo(made);
            shared?.Fill(made, felt);
            if (weather.Movement(step) is (var lengths, > 0 and var over))
                Fill(weather.First(step), weather.Second(step), lengths, over, middle, felt, made[SharedWeather.End..]);
            for (var item = 0; item < Stride; item++)
                values[(step * Stride) + item] = (float)made[item];
        }
    }

    /// <summary>Edges of the steps.</summary>
    public int[] Days => weather.Days;

    /// <summary>How many steps.</summary>
    public int Count => weather.Count;

    /// <summary>Length of a step, days.</summary>
    public int Length(int step) => Days[step + 1] - Days[step];

    /// <summary>The integrals over a step.</summary>
    public ReadOnlySpan<float> Sums(int step) => values.AsSpan(step * Stride, SharedWeather.End);

    /// <summary>See the places above.</summary>
    public ReadOnlySpan<float> TrendsOf(int step) => values.AsSpan((step * Stride) + SharedWeather.End, Trends);

    private static void Fill(ReadOnlySpan<double> first, ReadOnlySpan<double> second, double lengths, double over, double[] middle, Felt felt, Span<double> trends)
    {
        if (felt != Felt.ByGas)
            trends[WaterChange] = ChangeOfRoom(first, second, over, middle);
        if (middle.Length <= StayWeights.Gas || felt == Felt.ByLeaf)
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

    private static double ChangeOfRoom(ReadOnlySpan<double> first, ReadOnlySpan<double> second, double over, double[] middle)
    {
        var (clock, source) = (Dot(first, TemperatureBasis.Water, middle, StayWeights.Clock), Dot(first, TemperatureBasis.WaterHumid, middle, StayWeights.Source));
        var (clock2, source2) = (Dot(second, TemperatureBasis.Water, middle, StayWeights.Clock), Dot(second, TemperatureBasis.WaterHumid, middle, StayWeights.Source));
        return clock > 0 && clock2 > 0 ? ((source2 / clock2) - (source / clock)) * over : 0;
    }

    private static double Dot(ReadOnlySpan<double> sums, int family, double[] weights, int row)
    {
        var sum = 0.0;
        for (var k = 0; k < TemperatureBasis.Nodes; k++)
            sum += sums[family + k] * weights[row + k];
        return sum;
    }
}
