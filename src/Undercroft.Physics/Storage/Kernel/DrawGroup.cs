using System.Runtime.CompilerServices;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>Draws of a course that are stepped together: alike in speed, so that they share the length of their steps.</summary>
internal sealed class DrawGroup
{
    /// <summary>Draws in a group: four of the widest vectors, enough to keep a core busy while each waits for itself.</summary>
    public const int Size = 32;

    /// <summary>Draws in a group whose leaf is read off between nodes: only gas is theirs, whose speed has nothing to do with the leaf's. As many as fit the second cache.</summary>
    public const int WideSize = 128;

    private const int WidestLane = 8;

    public DrawGroup(int[] draws, PerDraw dryMass, PerDraw heat, CourseLeaf leaf, bool withGas)
    {
        (Draws, WithGas, Heat) = (draws, withGas, heat);
        Slots = (draws.Length + WidestLane - 1) / WidestLane * WidestLane;
        double[] Room() => new double[Slots];
        (Dry, PerDry, Activity, PerSlope, PerVolume, HumidityOffset, TemperatureOffset, Quotient) = (Room(), Room(), Room(), Room(), Room(), Room(), Room(), Room());
        (Before, Clock, Pull) = (Room(), Room(), Room());
        Moles = [Room(), Room(), Room()];
        Fill(dryMass, Dry);
        Leaf = leaf.Of(this);
    }

    /// <summary>Which draws of the course.</summary>
    public int[] Draws { get; }

    /// <summary>Their number, filled up to whole vectors with the last.</summary>
    public int Slots { get; }

    /// <summary>False where only water is followed.</summary>
    public bool WithGas { get; }

    /// <summary>J/mol, of each draw of the course.</summary>
    public PerDraw Heat { get; }

    /// <summary>Isotherms of the group.</summary>
    public GroupLeaf Leaf { get; }

    /// <summary>kg.</summary>
    public double[] Dry { get; }

    /// <summary>1/kg.</summary>
    public double[] PerDry { get; }

    /// <summary>a22.</summary>
    public double[] Activity { get; }

    /// <summary>da/dX at the middle of the last step.</summary>
    public double[] PerSlope { get; }

    /// <summary>Oxygen, carbon dioxide, nitrogen, mol.</summary>
    public double[][] Moles { get; }

    /// <summary>R/V of the stay.</summary>
    public double[] PerVolume { get; }

    /// <summary>Fraction.</summary>
    public double[] HumidityOffset { get; }

    /// <summary>K.</summary>
    public double[] TemperatureOffset { get; }

    /// <summary>Respiratory quotient.</summary>
    public double[] Quotient { get; }

    /// <summary>Of the last step, for whoever looks for limits: activity before it, its length in time constants, and that times the distance to the room.</summary>
    public double[] Before { get; }

    /// <inheritdoc cref="Before"/>
    public double[] Clock { get; }

    /// <inheritdoc cref="Before"/>
    public double[] Pull { get; }

    /// <summary>The draw in a slot.</summary>
    public int DrawOf(int slot) => Draws[Math.Min(slot, Draws.Length - 1)];

    /// <summary>Values of the draws, slot by slot.</summary>
    public void Fill(PerDraw values, double[] into)
    {
        for (var slot = 0; slot < Slots; slot++)
            into[slot] = values[DrawOf(slot)];
    }

    /// <summary>The values of the draws from a slot on.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Lane<T>(PerDraw values, int at)
        where T : struct, ILane<T>
    {
        if (values.IsSame)
            return T.Of(values[0]);
        Span<double> each = stackalloc double[T.Count];
        for (var i = 0; i < each.Length; i++)
            each[i] = values[DrawOf(at + i)];
        return T.Load(each);
    }

    /// <summary>Their natural logarithms.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Log<T>(PerDraw values, int at)
        where T : struct, ILane<T>
    {
        if (values.IsSame)
            return T.Of(Math.Log(values[0]));
        Span<double> each = stackalloc double[T.Count];
        for (var i = 0; i < each.Length; i++)
            each[i] = Math.Log(values[DrawOf(at + i)]);
        return T.Load(each);
    }

    /// <summary>After a change of the dry mass.</summary>
    public void Weigh()
    {
        for (var slot = 0; slot < Slots; slot++)
            PerDry[slot] = 1 / Dry[slot];
    }
}
