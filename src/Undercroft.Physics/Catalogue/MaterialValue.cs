using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue;

/// <summary>One number of one source: how readily one gas passes one material.</summary>
/// <param name="Material">Short name of the material, such as <c>ldpe</c>; the same over all sources.</param>
/// <param name="Name">For people.</param>
/// <param name="Permeant">Which gas.</param>
/// <param name="Low">The lower end as printed; equal to <paramref name="High"/> where one number is printed.</param>
/// <param name="High">The upper end as printed.</param>
/// <param name="Test">Temperature of the test.</param>
/// <param name="Condition">Method and humidity, in words.</param>
/// <param name="LogSd">Scatter of such a material between tables.</param>
/// <param name="Evidence">Where it was read.</param>
public sealed record MaterialValue(
    string Material, string Name, Permeant Permeant, Permeability Low, Permeability High, Temperature Test, string Condition, double LogSd, Evidence Evidence)
{
    /// <summary>Geometric middle of the printed range.</summary>
    public Permeability Middle => new(Math.Sqrt(Low.MolMPerM2SPa * High.MolMPerM2SPa));
}

/// <summary>How much more passes when it is warm: the activation energy of one gas in one material.</summary>
/// <param name="Material">As in <see cref="MaterialValue"/>.</param>
/// <param name="Permeant">Which gas.</param>
/// <param name="JoulesPerMole">Of permeance.</param>
/// <param name="Evidence">Where it was read.</param>
public sealed record MaterialEnergy(string Material, Permeant Permeant, double JoulesPerMole, Evidence Evidence);
