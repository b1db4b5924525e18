using System.Runtime.CompilerServices;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>One gas over one step: sums of conductance times the climate.</summary>
internal struct GasSums<T>
    where T : struct, ILane<T>
{
    /// <summary>ΣG∫fT, and its harmonic.</summary>
    public T Rate, RateCos, RateSin;

    /// <summary>ΣG∫f·p_room, and its harmonic.</summary>
    public T Source, SourceCos, SourceSin;

    /// <summary>ΣG∫fP and ΣG∫f·psat, for packages whose pressure is the room's.</summary>
    public T Pressure, Saturation;
}

/// <summary>The numbers of one lane of draws during one stay, and what the climate makes of them step by step.</summary>
internal sealed class StayDraw<T>
    where T : struct, ILane<T>
{
    private const double Day = PackageModel.SecondsPerDay;

    private readonly StayPlan plan;
    private readonly T[] conductances;
    private readonly T[] viscousOfPath;
    private readonly double[][] fromDay;
    private readonly bool[] allAlong;
    private readonly T[] fractions;
    private readonly T[] offsetWeights;
    private readonly T[] heatWeights;
    private readonly T[] q10Weights;
    private readonly T humidityOffset;
    private readonly bool dampens;
    private readonly bool vented;

    public StayDraw(StayPlan plan, int draw, int draws, PerDraw heat)
    {
        this.plan = plan;
        var stay = plan.Stay;
        var paths = stay.Paths;
        T Of(PerDraw values) => LaneOf<T>.Draws(values, draw, draws);
        (conductances, fractions, viscousOfPath) = (new T[4 * paths.Count], new T[paths.Count], new T[paths.Count]);
        (fromDay, allAlong) = (new double[paths.Count][], new bool[paths.Count]);
        for (var p = 0; p < paths.Count; p++)
        {
            var path = paths[p];
            conductances[4 * p] = T.Of(path.Median.Water.AtReference * Day * PhysicalConstants.MolarMassOfWater) * Of(path.Water);
            conductances[(4 * p) + 1] = T.Of(path.Median.Oxygen.AtReference * Day) * Of(path.Oxygen);
            conductances[(4 * p) + 2] = T.Of(path.Median.CarbonDioxide.AtReference * Day) * Of(path.CarbonDioxide);
            conductances[(4 * p) + 3] = T.Of(path.Median.Nitrogen.AtReference * Day) * Of(path.Nitrogen);
            viscousOfPath[p] = T.Of(path.Median.Viscous * Day) * Of(path.Viscous);
            fromDay[p] = [.. Enumerable.Range(0, T.Count).Select(i => path.FromDay[Math.Min(draw + i, draws - 1)])];
            allAlong[p] = fromDay[p].All(double.IsNegativeInfinity);
        }

        offsetWeights = LaneOf<T>.Weights(plan.Offsets, draw, draws);
        heatWeights = LaneOf<T>.Weights(plan.Heats, draw, draws);
        q10Weights = LaneOf<T>.Weights(plan.Q10s, draw, draws);
        dampens = stay.HumidityOffset.Range != (0, 0);
        humidityOffset = Of(stay.HumidityOffset);
        TemperatureOffset = Of(stay.TemperatureOffset);
        TakesLeaf = stay.LeafTakenPerDay.Range.Highest > 0;
        LeafTakenPerDay = Of(stay.LeafTakenPerDay);
        Heat = Of(heat);
        IsWarm = heat.Range != (0, 0);
        (Minimum, Maximum) = stay.Headspace switch
        {
            HeadspaceDraws.Rigid rigid => (Of(rigid.Volume), Of(rigid.Volume)),
            HeadspaceDraws.Flexible flexible => (Of(flexible.Minimum), Of(flexible.Maximum)),
            _ => throw new InvalidOperationException($"No headspace {stay.Headspace}."),
        };
        PerVolume = T.Of(PhysicalConstants.GasConstant) / Maximum;
        Flexible = stay.Headspace is HeadspaceDraws.Flexible;
        UptakeRate = Of(stay.Uptake.Rate) * T.Of(Day);
        (UptakeIsPerPascal, UptakeIsPerKilogram) = (stay.Uptake.Basis == UptakeBasis.PerPascal, stay.Uptake.PerKilogram);
        RespiratoryQuotient = Of(stay.Uptake.RespiratoryQuotient);
        vented = !plan.Simple;
    }

    /// <summary>False where leaf is taken out steadily, so that no year is like the one before.</summary>
    public bool CanRepeat => !TakesLeaf;

    /// <summary>True where no path of a draw of the lane has come since that day or will come.</summary>
    public bool IsSettledSince(double day, int draw) => Array.TrueForAll(fromDay, path => path[draw] <= day || double.IsPositiveInfinity(path[draw]));

    public T TemperatureOffset { get; }

    public bool TakesLeaf { get; }

    public T LeafTakenPerDay { get; }

    public T Heat { get; }

    /// <summary>False where no draw has a heat of sorption.</summary>
    public bool IsWarm { get; }

    public T Minimum { get; }

    public T Maximum { get; }

    /// <summary>R/V of the (larger) volume.</summary>
    public T PerVolume { get; }

    public bool Flexible { get; }

    public T UptakeRate { get; }

    public bool UptakeIsPerPascal { get; }

    public bool UptakeIsPerKilogram { get; }

    public T RespiratoryQuotient { get; }

    public double[] Trend { get; } = new double[StayPlan.TrendWidth];

    public GasSums<T>[] Gases { get; } = new GasSums<T>[3];

    /// <summary>Length of the step or of the row's day.</summary>
    public double Length { get; private set; }

    /// <summary>kg/Pa times ∫f·s·psat and times ∫f·e.</summary>
    public T WaterClock { get; private set; }

    public T WaterSource { get; private set; }

    /// <summary>Means over the step: K, Pa.</summary>
    public T Kelvin { get; private set; }

    public T KelvinCos { get; private set; }

    public T KelvinSin { get; private set; }

    public T RoomPressure { get; private set; }

    public T RoomVapour { get; private set; }

    public T RoomVapourCos { get; private set; }

    public T RoomVapourSin { get; private set; }

    public T RoomPressureCos { get; private set; }

    public T RoomPressureSin { get; private set; }

    public T Saturation { get; private set; }

    public T ShiftedSaturation { get; private set; }

    public T Breath { get; private set; }

    public T BreathPerActivity { get; private set; }

    /// <summary>∫ of the uptake's factor, and its harmonic, times the rate of the draw.</summary>
    public T Uptake { get; private set; }

    public T UptakeCos { get; private set; }

    public T UptakeSin { get; private set; }

    /// <summary>Viscous conductance, mol/(day·Pa).</summary>
    public T Viscous { get; private set; }

    /// <summary>s(T) at the mean temperature about the end of a step.</summary>
    public T ShiftAtEdge(int edge) => IsWarm ? Shift(T.Of(plan.EdgeKelvin[edge]) + TemperatureOffset) : T.Of(1);

    /// <summary>s(T).</summary>
    public T Shift(T kelvin) => IsWarm
        ? LaneExp.Of(Heat * T.Of(1 / PhysicalConstants.GasConstant) * (T.Of(1 / SorptionShift.ReferenceKelvin) - (T.Of(1) / kelvin)))
        : T.Of(1);

    /// <summary>Gathers a step.</summary>
    public void ReadStep(int step)
    {
        plan.Trends(step).CopyTo(Trend);
        Read(plan.Sums(step), plan.Start[step], plan.Length[step]);
    }

    /// <summary>Gathers the day of a row.</summary>
    public void ReadRow(int row)
    {
        Array.Clear(Trend);
        Read(plan.RowSums(row), plan.Start[plan.Rows[row].AfterStep], 1);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Read(ReadOnlySpan<double> sums, double start, double length)
    {
        Length = length;
        Span<double> part = stackalloc double[T.Count];
        Viscous = T.Of(0);
        for (var p = 0; p < fractions.Length; p++)
        {
            if (allAlong[p])
            {
                fractions[p] = T.Of(1);
            }
            else
            {
                for (var i = 0; i < part.Length; i++)
                    part[i] = Math.Clamp((start + length - fromDay[p][i]) / length, 0, 1);
                fractions[p] = T.Load(part);
            }

            if (vented)
                Viscous += fractions[p] * viscousOfPath[p];
        }

        var nought = T.Of(0);
        (WaterClock, WaterSource, Kelvin, KelvinCos, KelvinSin, RoomPressure, RoomVapour) = (nought, nought, nought, nought, nought, nought, nought);
        (Saturation, ShiftedSaturation, Breath, BreathPerActivity, Uptake, UptakeCos, UptakeSin) = (nought, nought, nought, nought, nought, nought, nought);
        (RoomVapourCos, RoomVapourSin, RoomPressureCos, RoomPressureSin) = (nought, nought, nought, nought);
        Array.Clear(Gases);
        var block = plan.Block;
        for (var node = 0; node < offsetWeights.Length; node++)
            Add(sums.Slice(node * block.Width, block.Width), offsetWeights[node]);
        var per = T.Of(1 / length);
        (Kelvin, KelvinCos, KelvinSin, RoomPressure, RoomVapour) = (Kelvin * per, KelvinCos * per, KelvinSin * per, RoomPressure * per, RoomVapour * per);
        (Saturation, ShiftedSaturation) = (Saturation * per, ShiftedSaturation * per);
        (RoomVapourCos, RoomVapourSin) = (RoomVapourCos * per, RoomVapourSin * per);
        (RoomPressureCos, RoomPressureSin) = (RoomPressureCos * per, RoomPressureSin * per);
        RoomVapour += humidityOffset * Saturation;
        (Uptake, UptakeCos, UptakeSin) = (Uptake * UptakeRate, UptakeCos * UptakeRate, UptakeSin * UptakeRate);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Add(ReadOnlySpan<double> block, T weight)
    {
        Kelvin += weight * T.Of(block[StepBlock.Kelvin]);
        KelvinCos += weight * T.Of(block[StepBlock.KelvinCos]);
        KelvinSin += weight * T.Of(block[StepBlock.KelvinSin]);
        RoomPressure += weight * T.Of(block[StepBlock.Pressure]);
        RoomVapour += weight * T.Of(block[StepBlock.Vapour]);
        Saturation += weight * T.Of(block[StepBlock.Saturation]);
        if (vented)
        {
            RoomVapourCos += weight * T.Of(block[StepBlock.VapourCos]);
            RoomVapourSin += weight * T.Of(block[StepBlock.VapourSin]);
            RoomPressureCos += weight * T.Of(block[StepBlock.PressureCos]);
            RoomPressureSin += weight * T.Of(block[StepBlock.PressureSin]);
            Breath += weight * T.Of(block[StepBlock.Breath]);
            BreathPerActivity += weight * T.Of(block[StepBlock.BreathPerActivity]);
        }

        ShiftedSaturation += weight * Mixed(block[StepBlock.ShiftedSaturation..], heatWeights, 1);
        var uptake = block[plan.Block.Uptake..];
        Uptake += weight * Mixed(uptake, q10Weights, 3);
        UptakeCos += weight * Mixed(uptake[1..], q10Weights, 3);
        UptakeSin += weight * Mixed(uptake[2..], q10Weights, 3);
        var air = plan.Stay.Air;
        for (var p = 0; p < fractions.Length; p++)
        {
            var share = weight * fractions[p];
            var at = block[plan.Block.Path(p)..];
            var water = share * conductances[4 * p];
            WaterClock += water * Mixed(at, heatWeights, 1);
            at = at[heatWeights.Length..];
            WaterSource += water * (T.Of(at[1]) + (humidityOffset * T.Of(at[0])));
            at = at[2..];
            AddGas(ref Gases[0], at, share * conductances[(4 * p) + 1], air.Oxygen, air.Moist);
            AddGas(ref Gases[1], at[StepBlock.GasWidth..], share * conductances[(4 * p) + 2], air.CarbonDioxide, air.Moist);
            AddGas(ref Gases[2], at[(2 * StepBlock.GasWidth)..], share * conductances[(4 * p) + 3], air.Nitrogen, air.Moist);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void AddGas(ref GasSums<T> gas, ReadOnlySpan<double> at, T conductance, double fraction, bool moist)
    {
        var part = conductance * T.Of(fraction);
        gas.Rate += conductance * T.Of(at[StepBlock.FT]);
        gas.RateCos += conductance * T.Of(at[StepBlock.FTCos]);
        gas.RateSin += conductance * T.Of(at[StepBlock.FTSin]);
        if (vented)
        {
            gas.Pressure += conductance * T.Of(at[StepBlock.F]);
            gas.Saturation += conductance * T.Of(at[StepBlock.A]);
        }

        var vapour = moist ? 1 : 0;
        gas.Source += part * T.Of(at[StepBlock.F] - (vapour * at[StepBlock.E]));
        gas.SourceCos += part * T.Of(at[StepBlock.FCos] - (vapour * at[StepBlock.ECos]));
        gas.SourceSin += part * T.Of(at[StepBlock.FSin] - (vapour * at[StepBlock.ESin]));
        if (moist && dampens)
            gas.Source -= part * humidityOffset * T.Of(at[StepBlock.A]);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Mixed(ReadOnlySpan<double> values, T[] weights, int stride)
    {
        if (weights.Length == 1)
            return T.Of(values[0]);
        var sum = T.Of(0);
        for (var i = 0; i < weights.Length; i++)
            sum += weights[i] * T.Of(values[i * stride]);
        return sum;
    }
}
