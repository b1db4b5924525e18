using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Air;

/// <summary>Pressure in a rigid, tight vessel after a change of temperature.</summary>
/// <remarks>
/// <para><b>Equation</b> p₂ = (p₁ − a psat(T₁)) T₂/T₁ + a psat(T₂): dry gas by the gas law, vapour held at activity a by what is inside.</para>
/// <para><b>Source</b> the gas law; worked example with dry air in [GasLawExample].</para>
/// <para><b>Valid</b> no flow, no reaction, constant volume; activity taken as constant (it moves by about 0.002 per K).</para>
/// <para><b>Error</b> below 0.2 kPa between 0 and 40 °C for tight glass.</para>
/// </remarks>
public static class ClosedVessel
{
    /// <summary>Pressure inside at the second temperature.</summary>
    /// <param name="closedAt">Total pressure when it was closed.</param>
    /// <param name="from">Temperature when it was closed.</param>
    /// <param name="to">Temperature now.</param>
    /// <param name="activity">Of what is inside; 0 for dry air.</param>
    /// <exception cref="ArgumentOutOfRangeException">Activity not in [0, 1], a temperature outside the range of psat, or vapour that alone exceeds the first pressure.</exception>
    public static Pressure PressureAt(Pressure closedAt, Temperature from, Temperature to, WaterActivity activity)
    {
        if (activity.Fraction is not (>= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(activity), activity.Fraction, "An activity lies from 0 to 1.");
        var before = SaturationPressure.OverWater(from) * activity.Fraction;
        var after = SaturationPressure.OverWater(to) * activity.Fraction;
        if (!(before < closedAt))
            throw new ArgumentOutOfRangeException(nameof(closedAt), closedAt.Pascals, "The vapour alone exceeds the pressure at which the vessel was closed.");
        return ((closedAt - before) * (to.Kelvin / from.Kelvin)) + after;
    }
}
