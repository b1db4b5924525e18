namespace Undercroft.Physics.Quantities;

/// <summary>Relative humidity of air over liquid water: vapour pressure divided by saturation pressure at the air's temperature.</summary>
/// <param name="Fraction">0 is bone dry, 1 is saturated; never percent.</param>
public readonly record struct RelativeHumidity(double Fraction)
{
    /// <summary>In percent.</summary>
    public double Percent => Fraction * 100;

    /// <summary>From percent.</summary>
    public static RelativeHumidity FromPercent(double percent) => new(percent / 100);
}
