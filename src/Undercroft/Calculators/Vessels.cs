using Undercroft.Ledger;
using Undercroft.Physics.Air;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Calculators;

/// <summary>The gas in a container with leaf.</summary>
/// <param name="GasMl">Pores of the leaf included.</param>
/// <param name="OxygenMl">At the temperature asked for and 101 325 Pa.</param>
/// <param name="OxygenMg">The same as a mass.</param>
public sealed record HeadspaceFigures(double GasMl, double OxygenMl, double OxygenMg);

/// <summary>Pressure in a closed rigid vessel.</summary>
/// <param name="GaugeKPa">Against the air outside at the destination.</param>
public sealed record VesselPressureFigures(double GaugeKPa);

/// <summary>Closed containers.</summary>
public static class Vessels
{
    /// <summary>Gas and oxygen that stay in a container when leaf was put in.</summary>
    /// <exception cref="Refusal">The leaf alone fills the container.</exception>
    public static HeadspaceFigures Headspace(Volume container, Mass leaf, Moisture moisture, Temperature temperature)
    {
        var gas = container - Written.Within(() => LeafVolume.Of(leaf, moisture));
        if (!(gas.CubicMetres > 0))
        {
            throw new Refusal(
                $"{leaf.Grams.As("0.#")} g of leaf fill {(container - gas).Millilitres.As("0")} ml even without pores: more than the container's {container.Millilitres.As("0")} ml. Check the two.");
        }

        var oxygen = gas * PhysicalConstants.OxygenInDryAir;
        var moles = PhysicalConstants.StandardAtmosphere * oxygen.CubicMetres / (PhysicalConstants.GasConstant * temperature.Kelvin);
        return new(gas.Millilitres, oxygen.Millilitres, moles * PhysicalConstants.MolarMassOfOxygen * 1e6);
    }

    /// <summary>Pressure after a move and a change of temperature.</summary>
    /// <param name="from">When it was closed.</param>
    /// <param name="to">At the destination.</param>
    /// <param name="fromAltitude">Where it was closed.</param>
    /// <param name="toAltitude">Of the destination.</param>
    /// <param name="activity">Of what is inside; 0 for dry air.</param>
    /// <exception cref="Refusal">A temperature outside −60 … 100 °C.</exception>
    public static VesselPressureFigures Pressure(Temperature from, Temperature to, Length fromAltitude, Length toAltitude, WaterActivity activity)
    {
        Written.AtHome(from, to);

        return Written.Within(() =>
            new VesselPressureFigures((ClosedVessel.PressureAt(StandardAtmosphere.At(fromAltitude), from, to, activity) - StandardAtmosphere.At(toAltitude)).Kilopascals));
    }
}
