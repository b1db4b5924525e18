using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Storage;

/// <summary>One closed package: what does not change between two events.</summary>
/// <param name="DryMass">Leaf with its non-volatile humectant, without water.</param>
/// <param name="Leaf">How it holds water.</param>
/// <param name="Headspace">The gas space.</param>
/// <param name="Paths">Ways in and out; none for a perfect seal.</param>
/// <param name="Uptake">Oxygen taken up by the leaf, for the whole package.</param>
/// <param name="Air">What the room's air is made of.</param>
public sealed record PackageModel(
    Mass DryMass, Isotherm Leaf, Headspace Headspace, IReadOnlyList<ExchangePath> Paths, OxygenUptake Uptake, RoomAir Air)
{
    /// <summary>Sum of the viscous conductances, mol/(s·Pa).</summary>
    public double Viscous => Paths.Sum(path => path.Viscous);

    /// <summary>True where air flows so freely that the pressure inside is the room's: a rigid package whose V/(Gv R T) is under a day.</summary>
    public bool Breathes => Headspace is Headspace.Rigid rigid
        && rigid.Volume.CubicMetres / (Viscous * PhysicalConstants.GasConstant * Conductance.ReferenceKelvin) < SecondsPerDay;

    /// <summary>Refuses what no package is.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Says which quantity is impossible.</exception>
    public PackageModel Checked()
    {
        Require(DryMass.Kilograms > 0 && double.IsFinite(DryMass.Kilograms), nameof(DryMass), DryMass.Kilograms, "The dry mass is above zero.");
        switch (Headspace)
        {
            case Headspace.Rigid rigid:
                Require(rigid.Volume.CubicMetres > 0 && double.IsFinite(rigid.Volume.CubicMetres), nameof(Headspace), rigid.Volume.CubicMetres, "The headspace is above zero.");
                break;
            case Headspace.Flexible flexible:
                Require(flexible.Minimum.CubicMetres > 0, nameof(Headspace), flexible.Minimum.CubicMetres, "The pore volume of pressed leaf is above zero.");
                Require(flexible.Maximum.CubicMetres >= flexible.Minimum.CubicMetres, nameof(Headspace), flexible.Maximum.CubicMetres, "The taut volume is not below the pore volume.");
                break;
            default:
                throw new InvalidOperationException($"No headspace {Headspace}.");
        }

        foreach (var path in Paths)
        {
            foreach (var each in (ReadOnlySpan<Conductance>)[path.Water, path.Oxygen, path.CarbonDioxide, path.Nitrogen, new(path.Viscous, 0)])
            {
                Require(each.AtReference >= 0 && double.IsFinite(each.AtReference), path.Name, each.AtReference, "A conductance is not negative and finite.");
                Require(double.IsFinite(each.ActivationEnergy), path.Name, each.ActivationEnergy, "An activation energy is finite.");
            }
        }

        Require(Uptake.Rate >= 0 && double.IsFinite(Uptake.Rate), nameof(Uptake), Uptake.Rate, "The uptake rate is not negative and finite.");
        Require(Uptake.Rate == 0 || Uptake.Q10 > 0, nameof(Uptake), Uptake.Q10, "Q10 is above zero.");
        return this;
    }

    internal const double SecondsPerDay = 86400;

    private static void Require(bool holds, string name, double value, string why)
    {
        if (!holds)
            throw new ArgumentOutOfRangeException(name, value, why);
    }
}
