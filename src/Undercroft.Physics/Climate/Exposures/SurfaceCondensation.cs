using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate.Exposures;

/// <summary>Room air against something cooler: a wall, a jar that has just come from the cold.</summary>
/// <remarks>
/// <para><b>Equation</b> RH at the surface = RH psat(T air)/psat(T surface); water condenses where that passes 1.</para>
/// <para><b>Source</b> the definition of relative humidity; psat of <see cref="SaturationPressure"/>.</para>
/// <para><b>Valid</b> air that is mixed up to the surface; no salt or dirt on it, which wets earlier.</para>
/// <para><b>Error</b> that of the surface temperature: 1 K is about 6 % of the value.</para>
/// </remarks>
public static class SurfaceCondensation
{
    /// <summary>Humidity at a surface, not clipped: above 1 water condenses.</summary>
    /// <exception cref="ArgumentOutOfRangeException">As <see cref="WarmedAir.HumidityAt"/>.</exception>
    public static RelativeHumidity HumidityAt(Temperature air, RelativeHumidity humidity, Temperature surface) => WarmedAir.HumidityAt(humidity, air, surface);

    /// <summary>Time during which water condenses on a surface that is always so much cooler than the air.</summary>
    /// <param name="air">As logged.</param>
    /// <param name="coolerKelvin">K by which the surface is cooler; not negative.</param>
    public static Duration Time(LoggedAir air, double coolerKelvin)
    {
        if (!(coolerKelvin >= 0 && coolerKelvin < 60))
            throw new ArgumentOutOfRangeException(nameof(coolerKelvin), coolerKelvin, "A wall is from 0 to 60 K cooler than the air.");
        return TimeBeyond.Of(air, moment =>
            (moment.Humidity * SaturationPressure.PascalOverWater(moment.Kelvin) / SaturationPressure.PascalOverWater(moment.Kelvin - coolerKelvin)) - 1);
    }
}
