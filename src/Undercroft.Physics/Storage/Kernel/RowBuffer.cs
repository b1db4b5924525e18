using Undercroft.Physics.Leaf;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>One output day of all draws of a course, group after group, before anything is done with it.</summary>
/// <param name="size">Slots of all groups.</param>
internal sealed class RowBuffer(int size)
{
    /// <summary>Which row it is.</summary>
    public int Row { get; set; }

    /// <summary>Its day of the year, where years repeat.</summary>
    public int Date { get; set; }

    /// <summary>True where the leaf of all draws is what it was at the last row of this date.</summary>
    public bool SameLeaf { get; set; }

    /// <summary>True where the gas of all draws is what it was at the last row of this date.</summary>
    public bool SameGas { get; set; }

    /// <summary>Fraction.</summary>
    public float[] WetBasis { get; } = new float[size];

    /// <summary>Pa.</summary>
    public float[] Total { get; } = new float[size];

    /// <summary>At the mean temperature of the day.</summary>
    public float[] Activity { get; } = new float[size];

    /// <summary>Pa.</summary>
    public float[] Vapour { get; } = new float[size];

    /// <summary>Pa.</summary>
    public float[] Oxygen { get; } = new float[size];

    /// <summary>Pa.</summary>
    public float[] CarbonDioxide { get; } = new float[size];

    /// <summary>Pa.</summary>
    public float[] Nitrogen { get; } = new float[size];

    /// <summary>The total pressure of some slots from its parts.</summary>
    public void AddUp<T>(int place, int slots)
        where T : struct, ISingleLane<T>
    {
        for (var at = place; at < place + slots; at += T.Count)
            (T.At(Oxygen, at) + T.At(CarbonDioxide, at) + T.At(Nitrogen, at) + T.At(Vapour, at)).Put(Total, at);
    }

    /// <summary>Takes the activity of a group from 22 °C to the mean temperature of the day.</summary>
    public void Warm<T>(DrawGroup group, int place, double kelvin)
        where T : struct, ISingleLane<T>
    {
        if (group.Heat is { IsSame: true } heat && heat[0] == 0)
            return;
        for (var at = 0; at < group.Slots; at += T.Count)
        {
            var warmer = T.Of(kelvin - SorptionShift.ReferenceKelvin) + T.At(group.TemperatureOffset, at);
            (T.At(Activity, place + at) * LaneExp.Of(StayWeights.SorptionLog(T.At(group.Heats, at), warmer))).Put(Activity, place + at);
        }
    }
}

/// <summary>Takes rows as they are done.</summary>
internal interface IRowTaker
{
    /// <summary>One row; the buffer is used again afterwards.</summary>
    /// <param name="row">Values, slot by slot.</param>
    /// <param name="order">For each slot its draw; slots beyond the draws repeat one and are not listed.</param>
    void Take(RowBuffer row, IReadOnlyList<DrawGroup> order);

    /// <summary>A row that is in all the last one of its date.</summary>
    /// <param name="row">Which.</param>
    /// <param name="before">That one.</param>
    void Repeat(int row, int before);
}
