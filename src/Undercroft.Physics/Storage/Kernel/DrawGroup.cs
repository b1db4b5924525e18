using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>Draws of a course that are stepped together: alike in speed, so that they share the length of their steps.</summary>
internal sealed class DrawGroup
{
    /// <summary>Draws in a group: four of the widest vectors, enough to keep a core busy while each waits for itself.</summary>
    public const int Size = 64;

    /// <summary>Draws in a group whose leaf is read off between nodes: only gas is theirs, whose speed has nothing to do with the leaf's. As many as fit the second cache.</summary>
    public const int WideSize = 128;

    private const int WidestLane = 16;

    public DrawGroup(int[] draws, PerDraw dryMass, PerDraw heat, CourseLeaf leaf, bool withGas)
    {
        (Draws, WithGas, Heat) = (draws, withGas, heat);
        Slots = (draws.Length + WidestLane - 1) / WidestLane * WidestLane;
        float[] Room() => new float[Slots];
        (Dry, Activity) = (new double[Slots], new double[Slots]);
        (PerDry, PerSlope, PerVolume, HumidityOffset, TemperatureOffset, Quotient, Heats) = (Room(), Room(), Room(), Room(), Room(), Room(), Room());
        (Before, Clock, Pull) = (Room(), Room(), Room());
        Moles = [Room(), Room(), Room()];
        for (var slot = 0; slot < Slots; slot++)
            Dry[slot] = dryMass[DrawOf(slot)];
        Fill(heat, Heats);
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
    public float[] PerDry { get; }

    /// <summary>J/mol.</summary>
    public float[] Heats { get; }

    /// <summary>a22: the one sum of many small changes, and so in double precision.</summary>
    public double[] Activity { get; }

    /// <summary>da/dX at the middle of the last step.</summary>
    public float[] PerSlope { get; }

    /// <summary>Oxygen, carbon dioxide, nitrogen, mol.</summary>
    public float[][] Moles { get; }

    /// <summary>R/V of the stay.</summary>
    public float[] PerVolume { get; }

    /// <summary>Fraction.</summary>
    public float[] HumidityOffset { get; }

    /// <summary>K.</summary>
    public float[] TemperatureOffset { get; }

    /// <summary>Respiratory quotient.</summary>
    public float[] Quotient { get; }

    /// <summary>Of the last step, for whoever looks for limits: activity before it, its length in time constants, and that times the distance to the room.</summary>
    public float[] Before { get; }

    /// <inheritdoc cref="Before"/>
    public float[] Clock { get; }

    /// <inheritdoc cref="Before"/>
    public float[] Pull { get; }

    /// <summary>The draw in a slot.</summary>
    public int DrawOf(int slot) => Draws[Math.Min(slot, Draws.Length - 1)];

    /// <summary>Values of the draws, slot by slot.</summary>
    public void Fill(PerDraw values, float[] into)
    {
        if (values.IsSame)
            Array.Fill(into, (float)values[0]);
        for (var slot = 0; slot < Slots && !values.IsSame; slot++)
            into[slot] = (float)values[DrawOf(slot)];
    }

    /// <summary>After a change of the dry mass.</summary>
    public void Weigh()
    {
        for (var slot = 0; slot < Slots; slot++)
            PerDry[slot] = (float)(1 / Dry[slot]);
    }
}
