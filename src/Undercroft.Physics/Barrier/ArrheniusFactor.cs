using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Barrier;

/// <summary>How a permeance grows with warmth.</summary>
/// <remarks>
/// <para><b>Equation</b> f = exp[−(E/R)(1/T − 1/T₀)], on <em>permeance</em>. A water-vapour rate at fixed humidity grows with the saturation pressure on top.</para>
/// <para><b>Source</b> Usual form for permeation through dense polymers; energies for nine commercial polyethylene films in [Moyls1998].</para>
/// <para><b>Valid</b> One phase of one polymer: not across a glass transition or a melting point. Film energies were measured from 0 to 23 °C [Moyls1998].</para>
/// <para><b>Error</b> Set by the energy: 5 kJ/mol too much or too little is 7 % for 10 K.</para>
/// </remarks>
public static class ArrheniusFactor
{
    /// <summary>Joules in a thermochemical calorie, exact.</summary>
    public const double JoulesPerCalorie = 4.184;

    /// <summary>Permeance at a temperature divided by that at another.</summary>
    /// <param name="temperature">Where the permeance is wanted.</param>
    /// <param name="reference">Where it is known.</param>
    /// <param name="activationEnergy">E, J/mol; may be zero, and negative for the rare polymer that passes less when warm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A temperature not above absolute zero, or an energy that is not finite.</exception>
    public static double Between(Temperature temperature, Temperature reference, double activationEnergy)
    {
        Positive.Number(temperature.Kelvin);
        Positive.Number(reference.Kelvin);
        if (!double.IsFinite(activationEnergy))
            throw new ArgumentOutOfRangeException(nameof(activationEnergy), activationEnergy, "Must be finite.");
        return Math.Exp(-activationEnergy / PhysicalConstants.GasConstant * ((1 / temperature.Kelvin) - (1 / reference.Kelvin)));
    }

    /// <summary>A conductance at a temperature, mol/(s·Pa).</summary>
    public static double At(Temperature temperature, Conductance conductance) =>
        conductance.AtReference * Between(temperature, new Temperature(Conductance.ReferenceKelvin), conductance.ActivationEnergy);

    /// <summary>The energy that explains two measured permeances, J/mol.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A permeance or temperature not above zero, or equal temperatures.</exception>
    public static double EnergyFrom(double permeance1, Temperature temperature1, double permeance2, Temperature temperature2)
    {
        Positive.Number(permeance1);
        Positive.Number(permeance2);
        var span = (1 / Positive.Number(temperature1.Kelvin)) - (1 / Positive.Number(temperature2.Kelvin));
        if (!(Math.Abs(span) > 0))
            throw new ArgumentOutOfRangeException(nameof(temperature2), temperature2.Kelvin, "Two different temperatures are needed.");
        return PhysicalConstants.GasConstant * Math.Log(permeance2 / permeance1) / span;
    }
}
