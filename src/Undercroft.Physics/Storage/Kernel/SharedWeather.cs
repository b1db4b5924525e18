using Undercroft.Physics.Climate;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>The weather of a span as draws feel it that differ by conductance, size and uptake alone: each of their integrals is one number of the place times one of the draw.</summary>
/// <remarks>
/// <para><b>Equation</b> Σ_k w_k(draw) I_k = w_p(draw) Σ_k (w_k/w_p) I_k, p the middle point of the basis, for the ratios w_k/w_p are the same for all such draws.</para>
/// <para><b>Source</b> elementary.</para>
/// <para><b>Valid</b> one path, its activation energies, the heat of sorption, Q10 and the offsets of the place the same for all draws.</para>
/// <para><b>Error</b> rounding only.</para>
/// </remarks>
internal sealed class SharedWeather
{
    /// <summary>Where the sums stand behind those of the basis: clock and source of water; rate of the uptake and its harmonics; six a gas.</summary>
    public const int Clock = TemperatureBasis.Width, Source = Clock + 1, Uptake = Clock + 2, Gas = Clock + 5, GasWidth = 6, End = Gas + (3 * GasWidth);

    /// <summary>The point that stands for all.</summary>
    public const int Pivot = TemperatureBasis.Nodes / 2;

    private readonly double[] shape;
    private readonly double humidity;

    private SharedWeather(double[] usual, bool plain, double humidity)
    {
        (shape, this.humidity) = (new double[usual.Length], humidity);
        Family(usual, StayWeights.Clock, StayWeights.Clock);
        if (plain)
            shape.AsSpan(StayWeights.Clock, TemperatureBasis.Nodes).CopyTo(shape.AsSpan(StayWeights.Source));
        else
            Family(usual, StayWeights.Source, StayWeights.Source);
        if (usual.Length <= StayWeights.Gas)
            return;
        Family(usual, StayWeights.Uptake, StayWeights.Uptake);
        for (var gas = 0; gas < 3; gas++)
        {
            var family = StayWeights.Gas + (gas * StayWeights.GasWidth);
            Family(usual, family, family);
            Family(usual, family + TemperatureBasis.Nodes, family + TemperatureBasis.Nodes);
            Family(usual, family + (2 * TemperatureBasis.Nodes), family + TemperatureBasis.Nodes);
        }
    }

    /// <summary>For a stay whose draws differ in nothing else; null for another.</summary>
    /// <param name="stay">Which.</param>
    /// <param name="heat">Of sorption, J/mol.</param>
    /// <param name="usual">Weights of a usual draw.</param>
    /// <param name="plain">True where clock and source share their weights.</param>
    public static SharedWeather? Of(Stay stay, PerDraw heat, double[] usual, bool plain) => IsAlike(stay, heat) ? new(usual, plain, stay.HumidityOffset[0]) : null;

    /// <summary>True for a stay whose draws differ in nothing else.</summary>
    public static bool IsAlike(Stay stay, PerDraw heat)
    {
        PerDraw[] alike = [heat, stay.HumidityOffset, stay.TemperatureOffset, stay.Uptake.Q10];
        return stay.Paths.Count == 1 && stay.Paths[0].FromDay is { IsSame: true } from && from[0] <= stay.FromDay && alike.All(each => each.IsSame)
            && (stay.Paths[0].Energies is not { } own || new[] { own.Water, own.Oxygen, own.CarbonDioxide, own.Nitrogen }.All(each => each.IsSame));
    }

    /// <summary>Fills the places behind the sums of the basis.</summary>
    /// <param name="sums">Of the basis, filled up.</param>
    /// <param name="felt">Who asks.</param>
    public void Fill(Span<double> sums, Felt felt = Felt.ByBoth)
    {
        sums[Clock] = Dot(sums, TemperatureBasis.Water, StayWeights.Clock);
        sums[Source] = Dot(sums, TemperatureBasis.WaterHumid, StayWeights.Source) + (humidity * Dot(sums, TemperatureBasis.Water, StayWeights.Source));
        if (shape.Length <= StayWeights.Gas || felt == Felt.ByLeaf)
            return;
        for (var harmonic = 0; harmonic < 3; harmonic++)
        {
            var (plain, pressed, humid) = (TemperatureBasis.Gas + (harmonic * TemperatureBasis.Nodes), TemperatureBasis.Pressed + (harmonic * TemperatureBasis.Nodes),
                TemperatureBasis.Humid + (harmonic * TemperatureBasis.Nodes));
            sums[Uptake + harmonic] = Dot(sums, plain, StayWeights.Uptake);
            for (var gas = 0; gas < 3; gas++)
            {
                var family = StayWeights.Gas + (gas * StayWeights.GasWidth);
                var to = Gas + (gas * GasWidth) + harmonic;
                sums[to] = Dot(sums, plain, family);
                sums[to + 3] = Dot(sums, pressed, family + TemperatureBasis.Nodes) + Dot(sums, humid, family + (2 * TemperatureBasis.Nodes))
                    + (humidity * Dot(sums, plain, family + (2 * TemperatureBasis.Nodes)));
            }
        }
    }

    private void Family(double[] usual, int family, int whose)
    {
        for (var k = 0; k < TemperatureBasis.Nodes; k++)
            shape[family + k] = usual[whose + Pivot] == 0 ? 0 : usual[family + k] / usual[whose + Pivot];
    }

    private double Dot(ReadOnlySpan<double> sums, int integrals, int family)
    {
        var sum = 0.0;
        for (var k = 0; k < TemperatureBasis.Nodes; k++)
            sum += shape[family + k] * sums[integrals + k];
        return sum;
    }
}
