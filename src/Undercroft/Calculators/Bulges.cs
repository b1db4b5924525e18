using Undercroft.Ledger;
using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;

namespace Undercroft.Calculators;

/// <summary>What pushes or pulls at a lid, part by part; the parts add up.</summary>
/// <param name="HeatKPa">By the change of temperature, vapour included.</param>
/// <param name="AltitudeKPa">By thinner air outside.</param>
/// <param name="VacuumKPa">By the vacuum pulled at closing; not above zero.</param>
/// <param name="GasKPa">By gas set free inside.</param>
/// <param name="GaugeKPa">All of it: inside less outside.</param>
/// <param name="AbsoluteKPa">Inside.</param>
/// <param name="LidForceN">On the lid, outwards above zero; null where no lid was named.</param>
/// <param name="GasForTenKPaMg">Carbon dioxide that would raise the pressure by 10 kPa more; null where no gas space was named.</param>
public sealed record BulgeFigures(
    double HeatKPa, double AltitudeKPa, double VacuumKPa, double GasKPa, double GaugeKPa, double AbsoluteKPa, double? LidForceN, double? GasForTenKPaMg);

/// <summary>Why a lid stands up or is drawn in.</summary>
public static class Bulges
{
    /// <summary>Takes the pressure of a rigid, tight vessel apart.</summary>
    /// <param name="from">Temperature when it was closed.</param>
    /// <param name="to">Temperature now.</param>
    /// <param name="fromAltitude">Where it was closed.</param>
    /// <param name="toAltitude">Where it stands.</param>
    /// <param name="activity">Of what is inside; 0 for dry air.</param>
    /// <param name="vacuum">Pulled at closing, below the air there; zero for none.</param>
    /// <param name="gas">Carbon dioxide set free since; zero for none.</param>
    /// <param name="headspace">Gas space; null where nobody knows.</param>
    /// <param name="lid">Diameter; null where nobody asks for the force.</param>
    /// <exception cref="Refusal">Temperatures outside −60 … 100 °C, a vacuum beyond what there is, or gas without a gas space.</exception>
    public static BulgeFigures Of(
        Temperature from, Temperature to, Length fromAltitude, Length toAltitude, WaterActivity activity, Pressure vacuum, Mass gas, Volume? headspace, Length? lid)
    {
        if (gas.Kilograms > 0 && headspace is null)
            throw new Refusal("--gas needs --headspace: the same gas is nothing in a litre and much in a spoonful.");
        Written.AtHome(from, to);

        var (start, outside) = (StandardAtmosphere.At(fromAltitude), StandardAtmosphere.At(toAltitude));
        var closed = start - vacuum;
        var vapour = SaturationPressure.OverWater(from) * activity.Fraction;
        if (!(closed > vapour))
            throw new Refusal($"A vacuum of {vacuum.Kilopascals.As("0.#")} kPa leaves less than the vapour of the leaf: at most {(start - vapour).Kilopascals.As("0.#")} kPa can be pulled there.");
        return Written.Within(() =>
        {
            var heat = ClosedVessel.PressureAt(closed, from, to, activity) - closed;
            var made = headspace is { } space ? GasMade.Rise(gas, space, to) : new Pressure(0);
            var gauge = closed + heat + made - outside;
            return new BulgeFigures(
                heat.Kilopascals, (start - outside).Kilopascals, vacuum.Pascals == 0 ? 0 : -vacuum.Kilopascals, made.Kilopascals, gauge.Kilopascals, (gauge + outside).Kilopascals,
                lid is { } across ? LidForce.Newtons(gauge, across) : null,
                headspace is { } room ? 10 / GasMade.Rise(Mass.FromGrams(1e-3), room, to).Kilopascals : null);
        });
    }
}
