using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Air;

/// <summary>Humidity of air that is brought to another temperature without gaining or losing water.</summary>
/// <remarks>
/// <para><b>Equation</b> RH₂ = RH₁ psat(T₁)/psat(T₂): the same vapour pressure. Not clipped: above 1 water condenses.</para>
/// <para><b>Source</b> the definition of relative humidity; psat of <see cref="SaturationPressure"/>.</para>
/// <para><b>Valid</b> at constant total pressure, where psat is.</para>
/// <para><b>Error</b> that of psat; a real room adds water of its own.</para>
/// </remarks>
public static class WarmedAir
{
    /// <summary>Humidity over liquid water at the second temperature.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Humidity negative, or a temperature outside the range of psat.</exception>
    public static RelativeHumidity HumidityAt(RelativeHumidity humidity, Temperature from, Temperature to) => humidity.Fraction is >= 0 and < double.PositiveInfinity
        ? new(humidity.Fraction * SaturationPressure.OverWater(from).Pascals / SaturationPressure.OverWater(to).Pascals)
        : throw new ArgumentOutOfRangeException(nameof(humidity), humidity.Fraction, "A humidity is not negative.");
}
