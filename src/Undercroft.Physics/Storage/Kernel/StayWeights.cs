using System.Runtime.CompilerServices;
using Undercroft.Physics.Air;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>
/// What each draw of a group makes of the weather of a stay: for each of its integrals the values of its function of temperature at the basis' points.
/// A stay's paths, energies, heats and offsets come down to these sixty-five numbers a draw.
/// </summary>
/// <remarks>Rows of <see cref="DrawGroup.Slots"/> doubles; row = family + point.</remarks>
internal sealed class StayWeights
{
    /// <summary>Families: ΣG f s psat, ΣG f psat, s psat; then for each gas the rate, the room's pressure, the room's vapour; the uptake.</summary>
    public const int Clock = 0, Source = 5, Vapour = 10, Gas = 15, GasWidth = 15, Uptake = 60, Rows = 65;

    private const double Day = PackageModel.SecondsPerDay;
    private const double R = PhysicalConstants.GasConstant;
    private const int Nodes = TemperatureBasis.Nodes;

    private StayWeights(int slots, bool withGas) => (Slots, Values) = (slots, new float[slots * (withGas ? Rows : Gas)]);

    /// <summary>True where no draw has a heat of sorption or an offset of humidity, so that clock and source share their weights.</summary>
    public bool IsPlain { get; private init; }

    /// <summary>True where all draws feel the weather alike, up to a factor.</summary>
    public bool IsShared { get; set; }

    /// <summary>Row length.</summary>
    public int Slots { get; }

    /// <summary>All rows.</summary>
    public float[] Values { get; }

    /// <summary>One row.</summary>
    public Span<float> Row(int row) => Values.AsSpan(row * Slots, Slots);

    /// <summary>The weights of the paths that are there on the first day, and of those that come in the course of the stay (one object per such path).</summary>
    public static (StayWeights Now, List<(PathDraws Path, StayWeights Weights)> Later) Of<T>(DrawGroup group, Stay stay)
        where T : struct, ISingleLane<T>
    {
        StayWeights now = new(group.Slots, group.WithGas) { IsPlain = group.Heat.Range == (0, 0) && stay.HumidityOffset.Range == (0, 0) };
        List<(PathDraws, StayWeights)> later = [];
        Node[] nodes = [.. stay.Place.Basis.NodeKelvin.Select(kelvin => new Node(kelvin))];
        now.AddVapour<T>(group, stay, nodes);
        if (group.WithGas)
            now.AddUptake<T>(group, stay, nodes);
        foreach (var path in stay.Paths)
        {
            now.AddPath<T>(group, stay, nodes, path, now, day => day <= stay.FromDay);
            if (path.FromDay.IsSame ? Comes(path.FromDay[0]) : group.Draws.Any(draw => Comes(path.FromDay[draw])))
            {
                StayWeights more = new(group.Slots, group.WithGas);
                more.AddPath<T>(group, stay, nodes, path, now, Comes);
                later.Add((path, more));
            }
        }

        return (now, later);

        bool Comes(double day) => day > stay.FromDay && day < stay.ToDay;
    }

    /// <summary>Σ w_k I_k of a family for the draws from a slot on.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Of<T>(int family, ReadOnlySpan<double> integrals, int at)
        where T : struct, ISingleLane<T>
    {
        var sum = T.Of(0f);
        for (var k = 0; k < Nodes; k++)
            sum = T.MulAdd(T.At(Values, ((family + k) * Slots) + at), T.Of(integrals[k]), sum);
        return sum;
    }

    /// <summary>Adds a share of other weights for one draw.</summary>
    public void Add(StayWeights more, int slot, double share)
    {
        for (var at = slot; at < Values.Length; at += Slots)
            Values[at] += (float)share * more.Values[at];
    }

    private void AddVapour<T>(DrawGroup group, Stay stay, Node[] nodes)
        where T : struct, ISingleLane<T>
    {
        var alike = group.Heat.IsSame && stay.TemperatureOffset.IsSame;
        for (var k = 0; k < Nodes; k++)
        {
            var node = nodes[k];
            var value = T.Of(0f);
            for (var at = 0; at < Slots; at += T.Count)
            {
                if (at == 0 || !alike)
                {
                    var offset = T.At(group.TemperatureOffset, at);
                    var shift = SorptionLog(T.At(group.Heats, at), T.Of(node.Kelvin - SorptionShift.ReferenceKelvin) + offset);
                    value = LaneExp.Of(node.SaturationRise(offset) + shift - T.Of(node.LogReference));
                }

                value.Put(Values, ((Vapour + k) * Slots) + at);
            }
        }
    }

    private void AddUptake<T>(DrawGroup group, Stay stay, Node[] nodes)
        where T : struct, ISingleLane<T>
    {
        var uptake = stay.Uptake;
        var perPascal = uptake.Basis == UptakeBasis.PerPascal;
        var alike = uptake.Q10.IsSame && stay.TemperatureOffset.IsSame;
        var (rate, tenth) = (new float[Slots], new float[Slots]);
        group.Fill(uptake.Rate, rate);
        for (var slot = 0; slot < Slots; slot++)
            tenth[slot] = slot > 0 && uptake.Q10.IsSame ? tenth[0] : (float)(Math.Log(uptake.Q10[group.DrawOf(slot)]) / 10);
        for (var k = 0; k < Nodes; k++)
        {
            var node = nodes[k];
            var warmth = T.Of(0f);
            for (var at = 0; at < Slots; at += T.Count)
            {
                var offset = T.At(group.TemperatureOffset, at);
                if (at == 0 || !alike)
                    warmth = LaneExp.Of((T.At(tenth, at) * (T.Of(node.Kelvin - uptake.ReferenceKelvin) + offset)) - T.Of(node.LogReference));
                var value = T.At(rate, at) * T.Of(Day) * warmth;
                if (perPascal)
                    value *= (T.Of(node.Kelvin) + offset) * T.At(group.PerVolume, at);
                if (uptake.PerKilogram)
                    value *= T.At(group.Dry, at);
                value.Put(Values, ((Uptake + k) * Slots) + at);
            }
        }
    }

    private void AddPath<T>(DrawGroup group, Stay stay, Node[] nodes, PathDraws path, StayWeights known, Func<double, bool> isThere)
        where T : struct, ISingleLane<T>
    {
        var there = new bool[Slots];
        for (var slot = 0; slot < there.Length; slot++)
            there[slot] = isThere(path.FromDay[group.DrawOf(slot)]);
        if (!there.Contains(true))
            return;
        var (median, own) = (path.Median, path.Energies);
        AddWater<T>(group, stay, nodes, there, known, path.Water, median.Water.AtReference * Day * PhysicalConstants.MolarMassOfWater, own?.Water ?? median.Water.ActivationEnergy);
        if (!group.WithGas)
            return;
        AddGas<T>(group, stay, nodes, there, 0, path.Oxygen, median.Oxygen.AtReference * Day, own?.Oxygen ?? median.Oxygen.ActivationEnergy);
        AddGas<T>(group, stay, nodes, there, 1, path.CarbonDioxide, median.CarbonDioxide.AtReference * Day, own?.CarbonDioxide ?? median.CarbonDioxide.ActivationEnergy);
        AddGas<T>(group, stay, nodes, there, 2, path.Nitrogen, median.Nitrogen.AtReference * Day, own?.Nitrogen ?? median.Nitrogen.ActivationEnergy);
    }

    private void AddWater<T>(DrawGroup group, Stay stay, Node[] nodes, bool[] there, StayWeights known, PerDraw factor, double conductance, PerDraw energy)
        where T : struct, ISingleLane<T>
    {
        if (conductance == 0)
            return;
        var alike = energy.IsSame && stay.TemperatureOffset.IsSame;
        var (parts, energies) = (Parts(group, there, factor, conductance), new float[Slots]);
        group.Fill(energy, energies);
        for (var k = 0; k < Nodes; k++)
        {
            var node = nodes[k];
            var vapour = (Vapour + k) * Slots;
            var (clock, source) = ((Clock + k) * Slots, (Source + k) * Slots);
            var (warmth, dry) = (T.Of(0f), T.Of(0f));
            for (var at = 0; at < Slots; at += T.Count)
            {
                if (at == 0 || !alike)
                {
                    var offset = T.At(group.TemperatureOffset, at);
                    var log = WarmthLog(T.At(energies, at), node, offset) - T.Of(node.LogReference);
                    dry = LaneExp.Of(log + node.SaturationRise(offset));
                    warmth = LaneExp.Of(log) * T.Of(Math.Exp(node.LogReference));
                }

                // `vapour` is s psat over the reference with its energy: taken again times that energy's factor.
                var part = T.At(parts, at);
                T.MulAdd(part, dry, T.At(Values, source + at)).Put(Values, source + at);
                T.MulAdd(part * warmth, T.At(known.Values, vapour + at), T.At(Values, clock + at)).Put(Values, clock + at);
            }
        }
    }

    private void AddGas<T>(DrawGroup group, Stay stay, Node[] nodes, bool[] there, int gas, PerDraw factor, double conductance, PerDraw energy)
        where T : struct, ISingleLane<T>
    {
        if (conductance == 0)
            return;
        var alike = energy.IsSame && stay.TemperatureOffset.IsSame;
        var fraction = gas == 0 ? stay.Air.Oxygen : gas == 1 ? stay.Air.CarbonDioxide : stay.Air.Nitrogen;
        var moist = stay.Air.Moist ? fraction : 0;
        var (parts, energies) = (Parts(group, there, factor, conductance), new float[Slots]);
        group.Fill(energy, energies);
        for (var k = 0; k < Nodes; k++)
        {
            var node = nodes[k];
            var family = Gas + (gas * GasWidth) + k;
            var (rate, pressed, humid) = (family * Slots, (family + Nodes) * Slots, (family + (2 * Nodes)) * Slots);
            var (warmth, saturation) = (T.Of(0f), T.Of(0f));
            for (var at = 0; at < Slots; at += T.Count)
            {
                var offset = T.At(group.TemperatureOffset, at);
                if (at == 0 || !alike)
                {
                    warmth = LaneExp.Of(WarmthLog(T.At(energies, at), node, offset) - T.Of(node.LogReference));
                    saturation = LaneExp.Of(node.SaturationRise(offset)) * T.Of(moist * Math.Exp(node.LogOfSaturation));
                }

                var part = T.At(parts, at) * warmth;
                T.MulAdd(part, (T.Of(node.Kelvin) + offset) * T.At(group.PerVolume, at), T.At(Values, rate + at)).Put(Values, rate + at);
                T.MulAdd(part, T.Of(fraction), T.At(Values, pressed + at)).Put(Values, pressed + at);
                T.MulFrom(part, saturation, T.At(Values, humid + at)).Put(Values, humid + at);
            }
        }
    }

    /// <summary>Conductances of the draws for which a path is there.</summary>
    private static float[] Parts(DrawGroup group, bool[] there, PerDraw factor, double conductance)
    {
        var parts = new float[there.Length];
        for (var slot = 0; slot < parts.Length; slot++)
            parts[slot] = there[slot] ? (float)(conductance * factor[group.DrawOf(slot)]) : 0;
        return parts;
    }

    /// <summary>ln f(T), (E/R)(1/T₀ − 1/T), by how far the temperature is from the one of reference.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T WarmthLog<T>(T energy, Node node, T offset)
        where T : struct, ISingleLane<T> => Log(energy, Conductance.ReferenceKelvin, T.Of(node.Kelvin - Conductance.ReferenceKelvin) + offset);

    /// <summary>ln s(T), (q/R)(1/T₀ − 1/T), by how far the temperature is from the one of reference.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static T SorptionLog<T>(T heat, T apart)
        where T : struct, ISingleLane<T> => Log(heat, SorptionShift.ReferenceKelvin, apart);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Log<T>(T energy, double reference, T apart)
        where T : struct, ISingleLane<T> => energy * T.Of(1 / (R * reference)) * apart / (T.Of(reference) + apart);

    /// <summary>One point of the basis, with ln psat about it to the third order in an offset of a few kelvin.</summary>
    private sealed class Node
    {
        private const double Apart = 0.5;
        private readonly double slope;
        private readonly double bend;
        private readonly double twist;

        public Node(double kelvin)
        {
            Kelvin = kelvin;
            LogReference = TemperatureBasis.LogReference(kelvin);
            LogOfSaturation = Math.Log(SaturationPressure.PascalOverWater(kelvin));
            slope = SaturationPressure.LogSlopeOverWater(kelvin);
            var (below, above) = (SaturationPressure.LogSlopeOverWater(kelvin - Apart), SaturationPressure.LogSlopeOverWater(kelvin + Apart));
            bend = (above - below) / (2 * Apart) / 2;
            twist = (above - (2 * slope) + below) / (Apart * Apart) / 6;
        }

        public double Kelvin { get; }

        public double LogReference { get; }

        public double LogOfSaturation { get; }

        /// <summary>ln psat beyond that of the point itself.</summary>
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public T SaturationRise<T>(T offset)
            where T : struct, ISingleLane<T> => offset * T.MulAdd(offset, T.MulAdd(offset, T.Of(twist), T.Of(bend)), T.Of(slope));
    }
}
