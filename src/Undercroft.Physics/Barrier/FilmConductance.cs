using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Barrier;

/// <summary>A film property at its test temperature becomes the conductance of an area at 23 °C.</summary>
/// <remarks>
/// <para><b>Equation</b> G = Π·A·exp[−(E/R)(1/296.15 K − 1/T_test)].</para>
/// <para><b>Source</b> Definition of permeance with the factor of [Moyls1998] (<see cref="ArrheniusFactor"/>).</para>
/// <para><b>Valid</b> Flat, unflexed film. Flexing multiplies coated films by 3 to 11; folds and seals come on top as paths of their own.</para>
/// <para><b>Error</b> Data sheet and measurement differ by 17, 31 and 74 % in [Moyls1998].</para>
/// </remarks>
public static class FilmConductance
{
    /// <summary>Conductance of an area.</summary>
    /// <param name="permeance">At the temperature of the test.</param>
    /// <param name="test">That temperature.</param>
    /// <param name="activationEnergy">J/mol, of permeance.</param>
    /// <param name="area">Of film that faces the room.</param>
    public static Conductance Of(Permeance permeance, Temperature test, double activationEnergy, Area area)
    {
        var reference = new Temperature(Conductance.ReferenceKelvin);
        var factor = ArrheniusFactor.Between(reference, test, activationEnergy);
        return new(Positive.OrZero(permeance.MolPerM2SPa) * Positive.OrZero(area.SquareMetres) * factor, activationEnergy);
    }
}
