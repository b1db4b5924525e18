using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>One gas over one step of one draw: sums of conductance times the climate.</summary>
internal struct GasSums
{
    /// <summary>ΣG∫fT, and its harmonic.</summary>
    public double Rate, RateCos, RateSin;

    /// <summary>ΣG∫f·p_room, and its harmonic.</summary>
    public double Source, SourceCos, SourceSin;

    /// <summary>ΣG∫fP and ΣG∫f·psat, for packages whose pressure is the room's.</summary>
    public double Pressure, Saturation;
}

/// <summary>The numbers of one draw during one stay, and what the climate makes of them step by step.</summary>
internal sealed class StayDraw
{
    private const double Day = PackageModel.SecondsPerDay;

    private readonly StayPlan plan;
    private readonly double[] conductances;
    private readonly double[] fromDay;
    private readonly double[] offsetWeights;
    private readonly double[] heatWeights;
    private readonly double[] q10Weights;
    private readonly double[] fractions;
    private readonly double humidityOffset;

    public StayDraw(StayPlan plan, int draw, double heat)
    {
        this.plan = plan;
        var stay = plan.Stay;
        var paths = stay.Paths;
        (conductances, fromDay, fractions) = (new double[4 * paths.Count], new double[paths.Count], new double[paths.Count]);
        ViscousOfPath = new double[paths.Count];
        for (var p = 0; p < paths.Count; p++)
        {
            var path = paths[p];
            conductances[4 * p] = path.Median.Water.AtReference * path.Water[draw] * Day * PhysicalConstants.MolarMassOfWater;
            conductances[(4 * p) + 1] = path.Median.Oxygen.AtReference * path.Oxygen[draw] * Day;
            conductances[(4 * p) + 2] = path.Median.CarbonDioxide.AtReference * path.CarbonDioxide[draw] * Day;
            conductances[(4 * p) + 3] = path.Median.Nitrogen.AtReference * path.Nitrogen[draw] * Day;
            ViscousOfPath[p] = path.Median.Viscous * path.Viscous[draw] * Day;
            fromDay[p] = path.FromDay[draw];
        }

        (offsetWeights, heatWeights, q10Weights) = (new double[plan.Offsets.Nodes.Length], new double[plan.Heats.Nodes.Length], new double[plan.Q10s.Nodes.Length]);
        plan.Offsets.Weights(draw, offsetWeights);
        plan.Heats.Weights(draw, heatWeights);
        plan.Q10s.Weights(draw, q10Weights);
        humidityOffset = stay.HumidityOffset[draw];
        TemperatureOffset = stay.TemperatureOffset[draw];
        LeafTakenPerDay = stay.LeafTakenPerDay[draw];
        Heat = heat;
        (Minimum, Maximum) = stay.Headspace switch
        {
            HeadspaceDraws.Rigid rigid => (rigid.Volume[draw], rigid.Volume[draw]),
            HeadspaceDraws.Flexible flexible => (flexible.Minimum[draw], flexible.Maximum[draw]),
            _ => throw new InvalidOperationException($"No headspace {stay.Headspace}."),
        };
        Flexible = stay.Headspace is HeadspaceDraws.Flexible;
        UptakeRate = stay.Uptake.Rate[draw] * Day;
        (UptakeIsPerPascal, UptakeIsPerKilogram) = (stay.Uptake.Basis == UptakeBasis.PerPascal, stay.Uptake.PerKilogram);
        RespiratoryQuotient = stay.Uptake.RespiratoryQuotient[draw];
        Simple = !Flexible && ViscousOfPath.All(each => each == 0);
    }

    public double TemperatureOffset { get; }

    public double LeafTakenPerDay { get; }

    public double Heat { get; }

    public double Minimum { get; }

    public double Maximum { get; }

    public bool Flexible { get; }

    /// <summary>True for a rigid package without viscous flow: its gases are linear and do without each other.</summary>
    public bool Simple { get; }

    public double UptakeRate { get; }

    public bool UptakeIsPerPascal { get; }

    public bool UptakeIsPerKilogram { get; }

    public double RespiratoryQuotient { get; }

    public double[] ViscousOfPath { get; }

    public double[] Trend { get; } = new double[StayPlan.TrendWidth];

    public GasSums[] Gases { get; } = new GasSums[3];

    /// <summary>Length of the step or of the row's day.</summary>
    public double Length { get; private set; }

    /// <summary>kg/Pa times ∫f·s·psat and times ∫f·e.</summary>
    public double WaterClock { get; private set; }

    public double WaterSource { get; private set; }

    /// <summary>Means over the step: K, Pa.</summary>
    public double Kelvin { get; private set; }

    public double KelvinCos { get; private set; }

    public double KelvinSin { get; private set; }

    public double RoomPressure { get; private set; }

    public double RoomVapour { get; private set; }

    public double Saturation { get; private set; }

    public double ShiftedSaturation { get; private set; }

    public double Breath { get; private set; }

    public double BreathPerActivity { get; private set; }

    /// <summary>∫ of the uptake's factor, and its harmonic, times the rate of the draw.</summary>
    public double Uptake { get; private set; }

    public double UptakeCos { get; private set; }

    public double UptakeSin { get; private set; }

    /// <summary>Viscous conductance, mol/(day·Pa).</summary>
    public double Viscous { get; private set; }

    /// <summary>True where the package keeps the room's pressure.</summary>
    public bool Breathes { get; private set; }

    /// <summary>s(T) at the mean temperature about the end of a step.</summary>
    public double ShiftAtEdge(int edge) => Heat == 0 ? 1 : SorptionShift.FactorOf(Heat, plan.EdgeKelvin[edge] + TemperatureOffset);

    /// <summary>Gathers a step.</summary>
    public void ReadStep(int step)
    {
        plan.Trends.AsSpan(step * StayPlan.TrendWidth, StayPlan.TrendWidth).CopyTo(Trend);
        Read(plan.Sums(step), plan.Start[step], plan.Length[step]);
    }

    /// <summary>Gathers the day of a row.</summary>
    public void ReadRow(int row)
    {
        Array.Clear(Trend);
        Read(plan.RowSums(row), plan.Start[plan.Rows[row].AfterStep], 1);
    }

    private void Read(ReadOnlySpan<double> sums, double start, double length)
    {
        Length = length;
        double viscous = 0;
        for (var p = 0; p < fromDay.Length; p++)
        {
            fractions[p] = double.IsNegativeInfinity(fromDay[p]) ? 1 : Math.Clamp((start + length - fromDay[p]) / length, 0, 1);
            viscous += fractions[p] * ViscousOfPath[p];
        }

        Viscous = viscous;
        Breathes = !Flexible && viscous > 0 && Maximum / (viscous * PhysicalConstants.GasConstant * Conductance.ReferenceKelvin) < 1;
        (WaterClock, WaterSource, Kelvin, KelvinCos, KelvinSin, RoomPressure, RoomVapour) = (0, 0, 0, 0, 0, 0, 0);
        (Saturation, ShiftedSaturation, Breath, BreathPerActivity, Uptake, UptakeCos, UptakeSin) = (0, 0, 0, 0, 0, 0, 0);
        Array.Clear(Gases);
        var block = plan.Block;
        for (var node = 0; node < offsetWeights.Length; node++)
            Add(sums.Slice(node * block.Width, block.Width), offsetWeights[node]);
        var per = 1 / length;
        (Kelvin, KelvinCos, KelvinSin, RoomPressure, RoomVapour) = (Kelvin * per, KelvinCos * per, KelvinSin * per, RoomPressure * per, RoomVapour * per);
        (Saturation, ShiftedSaturation) = (Saturation * per, ShiftedSaturation * per);
        RoomVapour += humidityOffset * Saturation;
        (Uptake, UptakeCos, UptakeSin) = (Uptake * UptakeRate, UptakeCos * UptakeRate, UptakeSin * UptakeRate);
    }

    private void Add(ReadOnlySpan<double> block, double weight)
    {
        Kelvin += weight * block[StepBlock.Kelvin];
        KelvinCos += weight * block[StepBlock.KelvinCos];
        KelvinSin += weight * block[StepBlock.KelvinSin];
        RoomPressure += weight * block[StepBlock.Pressure];
        RoomVapour += weight * block[StepBlock.Vapour];
        Saturation += weight * block[StepBlock.Saturation];
        Breath += weight * block[StepBlock.Breath];
        BreathPerActivity += weight * block[StepBlock.BreathPerActivity];
        ShiftedSaturation += weight * Mixed(block[StepBlock.ShiftedSaturation..], heatWeights, 1);
        var uptake = block[plan.Block.Uptake..];
        Uptake += weight * Mixed(uptake, q10Weights, 3);
        UptakeCos += weight * Mixed(uptake[1..], q10Weights, 3);
        UptakeSin += weight * Mixed(uptake[2..], q10Weights, 3);
        var air = plan.Stay.Air;
        for (var p = 0; p < fromDay.Length; p++)
        {
            var share = weight * fractions[p];
            if (share == 0)
                continue;
            var at = block[plan.Block.Path(p)..];
            var water = share * conductances[4 * p];
            WaterClock += water * Mixed(at, heatWeights, 1);
            at = at[heatWeights.Length..];
            WaterSource += water * (at[1] + (humidityOffset * at[0]));
            at = at[2..];
            AddGas(ref Gases[0], at, share * conductances[(4 * p) + 1], air.Oxygen, air.Moist);
            AddGas(ref Gases[1], at[StepBlock.GasWidth..], share * conductances[(4 * p) + 2], air.CarbonDioxide, air.Moist);
            AddGas(ref Gases[2], at[(2 * StepBlock.GasWidth)..], share * conductances[(4 * p) + 3], air.Nitrogen, air.Moist);
        }
    }

    private void AddGas(ref GasSums gas, ReadOnlySpan<double> at, double conductance, double fraction, bool moist)
    {
        var part = conductance * fraction;
        gas.Rate += conductance * at[StepBlock.FT];
        gas.RateCos += conductance * at[StepBlock.FTCos];
        gas.RateSin += conductance * at[StepBlock.FTSin];
        gas.Pressure += conductance * at[StepBlock.F];
        gas.Saturation += conductance * at[StepBlock.A];
        if (moist)
        {
            gas.Source += part * (at[StepBlock.F] - at[StepBlock.E] - (humidityOffset * at[StepBlock.A]));
            gas.SourceCos += part * (at[StepBlock.FCos] - at[StepBlock.ECos]);
            gas.SourceSin += part * (at[StepBlock.FSin] - at[StepBlock.ESin]);
        }
        else
        {
            gas.Source += part * at[StepBlock.F];
            gas.SourceCos += part * at[StepBlock.FCos];
            gas.SourceSin += part * at[StepBlock.FSin];
        }
    }

    private static double Mixed(ReadOnlySpan<double> values, double[] weights, int stride)
    {
        if (weights.Length == 1)
            return values[0];
        var sum = 0.0;
        for (var i = 0; i < weights.Length; i++)
            sum += weights[i] * values[i * stride];
        return sum;
    }
}
