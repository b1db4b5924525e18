using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Leaf;

/// <summary>How much water leaf holds in balance with air, at 22 °C, and how that curve shifts with temperature.</summary>
/// <param name="SorptionHeat">q of a(X, T) = a22(X)·exp[(q/R)(1/295.15 K − 1/T)], J/mol.</param>
public abstract record Isotherm(double SorptionHeat)
{
    /// <summary>Moisture in balance with an activity at 22 °C.</summary>
    public abstract Moisture MoistureAt(WaterActivity activityAt22C);

    /// <summary>Activity at 22 °C of leaf of this moisture: the inverse of <see cref="MoistureAt"/>.</summary>
    public abstract WaterActivity ActivityAt(Moisture moisture);

    /// <summary>dX/da at 22 °C, kg/kg: how much water a step of activity costs.</summary>
    public abstract double Slope(WaterActivity activityAt22C);
}
