using Undercroft.Physics.Leaf;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>One output day of all draws of a course, group after group, before anything is done with it.</summary>
/// <param name="size">Slots of all groups.</param>
internal sealed class RowBuffer(int size)
{
    /// <summary>Which row it is.</summary>
    public int Row { get; set; }

    /// <summary>kg/kg.</summary>
    public double[] Moisture { get; } = new double[size];

    /// <summary>Fraction.</summary>
    public double[] WetBasis { get; } = new double[size];

    /// <summary>Pa.</summary>
    public double[] Total { get; } = new double[size];

    /// <summary>At the mean temperature of the day.</summary>
    public double[] Activity { get; } = new double[size];

    /// <summary>kg.</summary>
    public double[] Dry { get; } = new double[size];

    /// <summary>Pa.</summary>
    public double[] Vapour { get; } = new double[size];

    /// <summary>Pa.</summary>
    public double[] Oxygen { get; } = new double[size];

    /// <summary>Pa.</summary>
    public double[] CarbonDioxide { get; } = new double[size];

    /// <summary>Pa.</summary>
    public double[] Nitrogen { get; } = new double[size];

    /// <summary>The rest of what a group tells: its dry mass, and its activity from 22 °C to the mean temperature of the day.</summary>
    public void Finish(DrawGroup group, int place, double kelvin)
    {
        group.Dry.CopyTo(Dry, place);
        if (group.Heat is { IsSame: true } heat && heat[0] == 0)
            return;
        for (var slot = 0; slot < group.Slots; slot++)
            Activity[place + slot] *= SorptionShift.FactorOf(group.Heat[group.DrawOf(slot)], kelvin + group.TemperatureOffset[slot]);
    }
}

/// <summary>Takes rows as they are done.</summary>
internal interface IRowTaker
{
    /// <summary>One row; the buffer is used again afterwards.</summary>
    /// <param name="row">Values, slot by slot.</param>
    /// <param name="order">For each slot its draw; slots beyond the draws repeat one and are not listed.</param>
    void Take(RowBuffer row, IReadOnlyList<DrawGroup> order);
}
