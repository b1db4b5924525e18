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

    private StayWeights(int slots, bool withGas) => (Slots, Values) = (slots, new double[slots * (withGas ? Rows : Gas)]);

    /// <summary>True where no draw has a heat of sorption or an offset of humidity, so that clock and source share their weights.</summary>
    public bool IsPlain { get; private init; }

    /// <summary>True where all draws feel the weather alike, up to a factor.</summary>
    public bool IsShared { get; set; }

    /// <summary>Row length.</summary>
    public int Slots { get; }

    /// <summary>All rows.</summary>
    public double[] Values { get; }

    /// <summary>One row.</summary>
    public Span<double> Row(int row) => Values.AsSpan(row * Slots, Slots);

    /// <summary>The weights of the paths that are there on the first day, and of those that come in the course of the stay (one object per such path).</summary>
    public static (StayWeights Now, List<(PathDraws Path, StayWeights Weights)> Later) Of<T>(DrawGroup group, Stay stay)
        where T : struct, ILane<T>
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

    /// <summary>Adds a share of other weights for one draw.</summary>
    public void Add(StayWeights more, int slot, double share)
    {
        for (var at = slot; at < Values.Length; at += Slots)
            Values[at] += share * more.Values[at];
    }

    private void AddVapour<T>(DrawGroup group, Stay stay, Node[] nodes)
        where T : struct, ILane<T>
    {
        var alike = group.Heat.IsSame && stay.TemperatureOffset.IsSame;
        for (var k = 0; k < Nodes; k++)
        {
            var node = nodes[k];
            var value = T.Of(0);
            for (var at = 0; at < Slots; at += T.Count)
            {
                if (at == 0 || !alike)
                {
                    var kelvin = Kelvin<T>(group, stay, node, at);
                    value = LaneExp.Of(node.LogSaturation(kelvin) + SorptionLog(group.Lane<T>(group.Heat, at), kelvin) - T.Of(node.LogReference + node.LogOfSaturation));
                }

                value.Put(Values, ((Vapour + k) * Slots) + at);
            }
        }
    }

    private void AddUptake<T>(DrawGroup group, Stay stay, Node[] nodes)
        where T : struct, ILane<T>
    {
        var uptake = stay.Uptake;
        var perPascal = uptake.Basis == UptakeBasis.PerPascal;
        var alike = uptake.Q10.IsSame && stay.TemperatureOffset.IsSame;
        for (var k = 0; k < Nodes; k++)
        {
            var node = nodes[k];
            var (kelvin, warmth) = (T.Of(0), T.Of(0));
            for (var at = 0; at < Slots; at += T.Count)
            {
                if (at == 0 || !alike)
                {
                    kelvin = Kelvin<T>(group, stay, node, at);
                    warmth = LaneExp.Of((group.Log<T>(uptake.Q10, at) * T.Of(0.1) * (kelvin - T.Of(uptake.ReferenceKelvin))) - T.Of(node.LogReference));
                }

                var value = group.Lane<T>(uptake.Rate, at) * T.Of(Day) * warmth;
                if (perPascal)
                    value *= kelvin * T.At(group.PerVolume, at);
                if (uptake.PerKilogram)
                    value *= T.At(group.Dry, at);
                value.Put(Values, ((Uptake + k) * Slots) + at);
            }
        }
    }
    private void AddPath<T>(DrawGroup group, Stay stay, Node[] nodes, PathDraws path, StayWeights known, Func<double, bool> isThere)
        where T : struct, ILane<T>
    {
        var there = new double[Slots];
        for (var slot = 0; slot < there.Length; slot++)
            there[slot] = isThere(path.FromDay[group.DrawOf(slot)]) ? 1 : 0;
        if (!there.Any(part => part > 0))
            return;
        var median = path.Median;
        AddWater<T>(group, stay, nodes, there, known, median.Water.AtReference * Day * PhysicalConstants.MolarMassOfWater, path.Water, path.Energies?.Water ?? median.Water.ActivationEnergy);
        if (!group.WithGas)
            return;
        AddGas<T>(group, stay, nodes, there, 0, median.Oxygen.AtReference * Day, path.Oxygen, path.Energies?.Oxygen ?? median.Oxygen.ActivationEnergy, stay.Air.Oxygen);
        AddGas<T>(group, stay, nodes, there, 1, median.CarbonDioxide.AtReference * Day, path.CarbonDioxide, path.Energies?.CarbonDioxide ?? median.CarbonDioxide.ActivationEnergy, stay.Air.CarbonDioxide);
        AddGas<T>(group, stay, nodes, there, 2, median.Nitrogen.AtReference * Day, path.Nitrogen, path.Energies?.Nitrogen ?? median.Nitrogen.ActivationEnergy, stay.Air.Nitrogen);
    }
    private void AddWater<T>(DrawGroup group, Stay stay, Node[] nodes, double[] there, StayWeights known, double conductance, PerDraw factor, PerDraw energy)
        where T : struct, ILane<T>
    {
        if (conductance == 0)
            return;
        var alike = energy.IsSame && stay.TemperatureOffset.IsSame;
        for (var k = 0; k < Nodes; k++)
        {
            var node = nodes[k];
            var vapour = (Vapour + k) * Slots;
            var (clock, source) = ((Clock + k) * Slots, (Source + k) * Slots);
            var (warmth, dry) = (T.Of(0), T.Of(0));
            for (var at = 0; at < Slots; at += T.Count)
            {
                if (at == 0 || !alike)
                {
                    var kelvin = Kelvin<T>(group, stay, node, at);
                    var log = WarmthLog(group.Lane<T>(energy, at), kelvin) - T.Of(node.LogReference);
                    dry = LaneExp.Of(log + node.LogSaturation(kelvin) - T.Of(node.LogOfSaturation));
                    warmth = LaneExp.Of(log);
                }

                var part = T.Of(conductance) * group.Lane<T>(factor, at) * T.At(there, at);
                // `vapour` is s psat over the reference with its energy: taken again times that energy's factor.
                (T.At(Values, source + at) + (part * dry)).Put(Values, source + at);
                (T.At(Values, clock + at) + (part * warmth * T.At(known.Values, vapour + at) * T.Of(Math.Exp(node.LogReference)))).Put(Values, clock + at);
            }
        }
    }
    private void AddGas<T>(DrawGroup group, Stay stay, Node[] nodes, double[] there, int gas, double conductance, PerDraw factor, PerDraw energy, double fraction)
        where T : struct, ILane<T>
    {
        if (conductance == 0)
            return;
        var alike = energy.IsSame && stay.TemperatureOffset.IsSame;
        var moist = stay.Air.Moist ? fraction : 0;
        for (var k = 0; k < Nodes; k++)
        {
            var node = nodes[k];
            var family = Gas + (gas * GasWidth) + k;
            var (rate, pressed, humid) = (family * Slots, (family + Nodes) * Slots, (family + (2 * Nodes)) * Slots);
            var (kelvin, warmth, saturation) = (T.Of(0), T.Of(0), T.Of(0));
            for (var at = 0; at < Slots; at += T.Count)
            {
                if (at == 0 || !alike)
                {
                    kelvin = Kelvin<T>(group, stay, node, at);
                    warmth = LaneExp.Of(WarmthLog(group.Lane<T>(energy, at), kelvin) - T.Of(node.LogReference));
                    saturation = LaneExp.Of(node.LogSaturation(kelvin));
                }

                var part = T.Of(conductance) * group.Lane<T>(factor, at) * T.At(there, at) * warmth;
                (T.At(Values, rate + at) + (part * kelvin * T.At(group.PerVolume, at))).Put(Values, rate + at);
                (T.At(Values, pressed + at) + (part * T.Of(fraction))).Put(Values, pressed + at);
                (T.At(Values, humid + at) - (part * T.Of(moist) * saturation)).Put(Values, humid + at);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Kelvin<T>(DrawGroup group, Stay stay, Node node, int at)
        where T : struct, ILane<T> => T.Of(node.Kelvin) + group.Lane<T>(stay.TemperatureOffset, at);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T WarmthLog<T>(T energy, T kelvin)
        where T : struct, ILane<T> => energy * T.Of(1 / R) * (T.Of(1 / Conductance.ReferenceKelvin) - (T.Of(1) / kelvin));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T SorptionLog<T>(T heat, T kelvin)
        where T : struct, ILane<T> => heat * T.Of(1 / R) * (T.Of(1 / SorptionShift.ReferenceKelvin) - (T.Of(1) / kelvin));

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

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public T LogSaturation<T>(T kelvin)
            where T : struct, ILane<T>
        {
            var offset = kelvin - T.Of(Kelvin);
            return T.Of(LogOfSaturation) + (offset * (T.Of(slope) + (offset * (T.Of(bend) + (offset * T.Of(twist))))));
        }
    }
}
