using Undercroft.Physics.Air;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Storage;

/// <summary>What changes in a package: the water of the leaf and the gas of the headspace.</summary>
/// <param name="Water">Held by leaf and casing.</param>
/// <param name="OxygenMoles">mol.</param>
/// <param name="CarbonDioxideMoles">mol.</param>
/// <param name="NitrogenMoles">mol, argon included.</param>
public readonly record struct PackageState(Mass Water, double OxygenMoles, double CarbonDioxideMoles, double NitrogenMoles)
{
    /// <summary>Dry gas, mol.</summary>
    public double GasMoles => OxygenMoles + CarbonDioxideMoles + NitrogenMoles;

    /// <summary>Leaf and room air of one moment closed in together; total pressure inside equals <paramref name="total"/>.</summary>
    /// <param name="model">The package.</param>
    /// <param name="moisture">Of the leaf.</param>
    /// <param name="kelvin">While sealing, K.</param>
    /// <param name="total">Pressure left inside: the room's, or what evacuation left.</param>
    /// <param name="volume">Gas volume while sealing; null for a rigid package's own and a flexible one's pore volume.</param>
    /// <remarks>Where the air's fractions are of the dry part, the vapour of the leaf takes its share of the total first.</remarks>
    public static PackageState Sealed(PackageModel model, Moisture moisture, double kelvin, Pressure total, Volume? volume = null)
    {
        ArgumentNullException.ThrowIfNull(model);
        var vapour = model.Air.Moist
            ? model.Leaf.ActivityAt(moisture).Fraction * SorptionShift.FactorOf(model.Leaf.SorptionHeat, kelvin) * SaturationPressure.PascalOverWater(kelvin)
            : 0;
        var cubic = volume ?? model.Headspace switch
        {
            Headspace.Rigid rigid => rigid.Volume,
            Headspace.Flexible flexible => flexible.Minimum,
            _ => throw new InvalidOperationException($"No headspace {model.Headspace}."),
        };
        var moles = Math.Max(0, total.Pascals - vapour) * cubic.CubicMetres / (PhysicalConstants.GasConstant * kelvin);
        return new(
            new(moisture.DryBasis * model.DryMass.Kilograms), moles * model.Air.Oxygen, moles * model.Air.CarbonDioxide, moles * model.Air.Nitrogen);
    }

    /// <summary>This state after a breathing package has come to the room's pressure: room air has flowed in, or its own air out. Other packages keep theirs.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Leaf beyond its isotherm.</exception>
    public PackageState Settled(PackageModel model, in RoomMoment room)
    {
        ArgumentNullException.ThrowIfNull(model);
        if (!model.Breathes || model.Headspace is not Headspace.Rigid rigid)
            return this;
        var vapour = model.Leaf.ActivityAt(new(Water.Kilograms / model.DryMass.Kilograms)).Fraction
            * SorptionShift.FactorOf(model.Leaf.SorptionHeat, room.Kelvin) * SaturationPressure.PascalOverWater(room.Kelvin);
        var wanted = Math.Max(0, room.Pascals - vapour) * rigid.Volume.CubicMetres / (PhysicalConstants.GasConstant * room.Kelvin);
        var missing = wanted - GasMoles;
        if (missing <= 0)
        {
            var left = wanted / GasMoles;
            return this with { OxygenMoles = OxygenMoles * left, CarbonDioxideMoles = CarbonDioxideMoles * left, NitrogenMoles = NitrogenMoles * left };
        }

        var share = missing / (model.Air.Oxygen + model.Air.CarbonDioxide + model.Air.Nitrogen);
        return this with
        {
            OxygenMoles = OxygenMoles + (share * model.Air.Oxygen),
            CarbonDioxideMoles = CarbonDioxideMoles + (share * model.Air.CarbonDioxide),
            NitrogenMoles = NitrogenMoles + (share * model.Air.Nitrogen),
        };
    }
}

/// <summary>The gas of a headspace as its leaf and walls feel it.</summary>
/// <param name="Volume">m³.</param>
/// <param name="Oxygen">Partial pressure, Pa.</param>
/// <param name="CarbonDioxide">Partial pressure, Pa.</param>
/// <param name="Nitrogen">Partial pressure, Pa.</param>
/// <param name="Vapour">Partial pressure of water, Pa.</param>
public readonly record struct InsideAir(double Volume, double Oxygen, double CarbonDioxide, double Nitrogen, double Vapour)
{
    /// <summary>Total pressure, Pa.</summary>
    public double Total => Oxygen + CarbonDioxide + Nitrogen + Vapour;

    /// <summary>The gas of a package at a moment of its room.</summary>
    /// <param name="model">The package.</param>
    /// <param name="oxygen">mol.</param>
    /// <param name="carbonDioxide">mol.</param>
    /// <param name="nitrogen">mol.</param>
    /// <param name="vapour">a·psat(T), Pa.</param>
    /// <param name="room">The room.</param>
    /// <remarks>
    /// <para><b>Equation</b> rigid: p_i = n_i R T/V. Flexible: V* = Σn R T/(P − a·psat) held between pore and taut volume; p_i = n_i R T/V.
    /// Breathing: p = P, so p_i = n_i/Σn · (P − a·psat).</para>
    /// <para><b>Source</b> ideal gas; the storage model's own statement.</para>
    /// <para><b>Valid</b> pressures near or below the atmosphere's.</para>
    /// <para><b>Error</b> of ideality below 0.1 %.</para>
    /// </remarks>
    public static InsideAir Of(PackageModel model, double oxygen, double carbonDioxide, double nitrogen, double vapour, in RoomMoment room)
    {
        var moles = oxygen + carbonDioxide + nitrogen;
        var energy = PhysicalConstants.GasConstant * room.Kelvin;
        double volume;
        switch (model.Headspace)
        {
            case Headspace.Rigid rigid:
                volume = rigid.Volume.CubicMetres;
                if (model.Breathes)
                {
                    var share = (room.Pascals - vapour) / moles;
                    return new(volume, oxygen * share, carbonDioxide * share, nitrogen * share, vapour);
                }

                break;
            case Headspace.Flexible flexible:
                var slack = room.Pascals - vapour;
                volume = slack > 0 ? moles * energy / slack : double.PositiveInfinity;
                volume = Math.Clamp(volume, flexible.Minimum.CubicMetres, flexible.Maximum.CubicMetres);
                break;
            default:
                throw new InvalidOperationException($"No headspace {model.Headspace}.");
        }

        var perMole = energy / volume;
        return new(volume, oxygen * perMole, carbonDioxide * perMole, nitrogen * perMole, vapour);
    }
}
