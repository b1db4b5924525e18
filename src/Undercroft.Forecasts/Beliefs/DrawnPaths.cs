using Undercroft.Forecasts.Drawing;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Forecasts.Beliefs;

/// <summary>Ways out of a package with the activation energies of each draw.</summary>
/// <param name="draws">Where the numbers come from.</param>
/// <param name="withGas">False where only water is followed.</param>
/// <param name="meanCelsius">Of the place.</param>
/// <param name="oneByOne">True for a package that gives way or breathes: its draws share their energies, and what a draw's own would do at the place's mean temperature goes into its conductances.</param>
internal sealed class DrawnPaths(SeededDraws draws, bool withGas, double meanCelsius, bool oneByOne)
{
    /// <summary>Spread of an activation energy, as a share of it (assumption).</summary>
    public const double EnergySd = 0.2;

    private const double MostSd = 2; // beyond it the energies would leave the range for which a place is tabulated

    /// <summary>One way out. All packages of a kind share its energies: they are those of a material.</summary>
    /// <param name="kind">Of container.</param>
    /// <param name="path">Which way.</param>
    /// <param name="factor">On its conductances.</param>
    /// <param name="from">Day from which it is there.</param>
    public PathDraws Of(ContainerKind kind, PathKind path, double[] factor, PerDraw from)
    {
        var z = draws.Normal($"kind/{kind.Code}/{path.Median.Name}/energy");
        var median = withGas ? path.Median : path.Median with { Viscous = 0 };
        if (oneByOne)
            return new(median, Warmed(median.Water), Warmed(median.Oxygen), Warmed(median.CarbonDioxide), Warmed(median.Nitrogen), factor, from);
        return PathDraws.Of(median, factor, from) with
        {
            Energies = withGas
                ? new(Energy(median.Water), Energy(median.Oxygen), Energy(median.CarbonDioxide), Energy(median.Nitrogen))
                : new(Energy(median.Water), median.Oxygen.ActivationEnergy, median.CarbonDioxide.ActivationEnergy, median.Nitrogen.ActivationEnergy),
        };

        PerDraw Energy(Conductance of) => Array.ConvertAll(z, each => of.ActivationEnergy * (1 + (EnergySd * Math.Clamp(each, -MostSd, MostSd))));

        PerDraw Warmed(Conductance of)
        {
            var warmth = of.ActivationEnergy * EnergySd / PhysicalConstants.GasConstant * ((1 / Conductance.ReferenceKelvin) - (1 / Temperature.FromCelsius(meanCelsius).Kelvin));
            return factor.Select((each, i) => each * Math.Exp(warmth * Math.Clamp(z[i], -MostSd, MostSd))).ToArray();
        }
    }
}
