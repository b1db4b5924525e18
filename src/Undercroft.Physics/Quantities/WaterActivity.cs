namespace Undercroft.Physics.Quantities;

/// <summary>
/// Water activity of leaf: the relative humidity of air that neither gives it water nor takes any, at the leaf's temperature.
/// </summary>
/// <param name="Fraction">0 to 1.</param>
/// <remarks>Activity is a property of leaf, <see cref="RelativeHumidity"/> one of air; they are equal at equilibrium, and kept apart so that they are not mixed up.</remarks>
public readonly record struct WaterActivity(double Fraction)
{
    /// <summary>The humidity of air in balance with this activity.</summary>
    public RelativeHumidity AsEquilibriumHumidity => new(Fraction);

    /// <summary>The activity of leaf in balance with air of this humidity.</summary>
    public static WaterActivity InBalanceWith(RelativeHumidity humidity) => new(humidity.Fraction);
}
