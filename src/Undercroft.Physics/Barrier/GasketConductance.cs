using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Barrier;

/// <summary>Gas through the body of a compressed ring.</summary>
/// <remarks>
/// <para><b>Equation</b> G = P·(perimeter·height)/path: height is the compressed gap between lid and rim, path the way from inside to outside through the rubber.</para>
/// <para><b>Source</b> Steady permeation through a slab; standard, no single source.</para>
/// <para><b>Valid</b> A ring in full contact. A strand of leaf, a nick or a dry ring makes a channel, which this does not know.</para>
/// <para><b>Error</b> Factor 2 from section and compound; the material matters more (silicone passes some 25 times natural rubber).</para>
/// </remarks>
public static class GasketConductance
{
    /// <summary>Conductance of a ring, mol/(s·Pa) at the temperature of <paramref name="permeability"/>.</summary>
    public static double Of(Permeability permeability, Length perimeter, Length height, Length path) =>
        Positive.OrZero(permeability.MolMPerM2SPa) * Positive.Number(perimeter.Metres) * Positive.Number(height.Metres) / Positive.Number(path.Metres);

    /// <summary>Conductance of a ring referred to 23 °C.</summary>
    public static Conductance Of(Permeability permeability, Temperature test, double activationEnergy, Length perimeter, Length height, Length path) =>
        FilmConductance.Of(new Permeance(Of(permeability, perimeter, height, path)), test, activationEnergy, new Area(1));
}
