using Undercroft.Physics.Quantities;
using Undercroft.Physics.Roots;

namespace Undercroft.Physics.Leaf;

/// <summary>Leaf cased with one non-volatile humectant.</summary>
/// <param name="Leaf">The leaf alone; its own heat of sorption is not used.</param>
/// <param name="HumectantShare">Humectant over the whole dry mass (leaf with humectant), 0 up to, but not including, 1.</param>
/// <param name="NorrishK">Norrish's constant of the humectant.</param>
/// <param name="HumectantMolarMass">kg/mol.</param>
/// <param name="SorptionHeat">q of the shift by temperature, J/mol, applied once to the mixture.</param>
/// <remarks>
/// <para><b>Equation</b> X(a) = (1 − w) X_leaf(a) + w X_humectant(a), X_humectant by <see cref="NorrishSolution"/>.
/// The inverse is sought in the mole fraction of the humectant, in which both terms are closed forms.</para>
/// <para><b>Source</b> the additive rule of food engineering, from memory; [Norrish1966].</para>
/// <para><b>Valid</b> where the leaf's isotherm is.</para>
/// <para><b>Error</b> the rule ignores what leaf and humectant do to each other: some tenths of a point of moisture at 5 % humectant.</para>
/// </remarks>
public sealed record HumectantIsotherm(Isotherm Leaf, double HumectantShare, double NorrishK, double HumectantMolarMass, double SorptionHeat)
    : Isotherm(SorptionHeat)
{
    /// <summary>The leaf alone.</summary>
    public Isotherm Leaf { get; init; } = Leaf ?? throw new ArgumentNullException(nameof(Leaf));

    /// <summary>Humectant over the whole dry mass.</summary>
    public double HumectantShare { get; init; } = HumectantShare is >= 0 and < 1
        ? HumectantShare
        : throw new ArgumentOutOfRangeException(nameof(HumectantShare), HumectantShare, "The share of humectant lies from 0 up to, but not including, 1.");

    /// <summary>Leaf cased with glycerol; q is the leaf's.</summary>
    /// <param name="leaf">The leaf alone.</param>
    /// <param name="share">Glycerol over the whole dry mass.</param>
    /// <exception cref="ArgumentOutOfRangeException">Share not in [0, 1).</exception>
    public static HumectantIsotherm WithGlycerol(Isotherm leaf, double share)
    {
        ArgumentNullException.ThrowIfNull(leaf);
        return new(leaf, share, NorrishSolution.Glycerol, PhysicalConstants.MolarMassOfGlycerol, leaf.SorptionHeat);
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">Activity not in [0, 1), or beyond the leaf's isotherm.</exception>
    public override Moisture MoistureAt(WaterActivity activityAt22C)
    {
        var leaf = Leaf.MoistureAt(activityAt22C);
        return HumectantShare == 0
            ? leaf
            : new(((1 - HumectantShare) * leaf.DryBasis)
                + (HumectantShare * NorrishSolution.WaterPerHumectant(activityAt22C, NorrishK, HumectantMolarMass)));
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">Moisture negative, not finite, or so high that the activity rounds to 1.</exception>
    public override WaterActivity ActivityAt(Moisture moisture)
    {
        if (HumectantShare == 0)
            return Leaf.ActivityAt(moisture);
        NorrishSolution.CheckConstants(NorrishK, HumectantMolarMass);
        if (moisture.DryBasis is not (>= 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(moisture), moisture.DryBasis, "Moisture on dry basis is not negative and finite.");
        if (moisture.DryBasis == 0)
            return new(0);
        var curve = new LogExcess(this, Math.Log(moisture.DryBasis));
        if (curve.At(LogOddsOfMoist).Value > 0 && curve.At(LogOddsOfDry).Value < 0)
            return new(NorrishSolution.ActivityOf(MoleFraction(MonotoneRoot.Between(curve, LogOddsOfMoist, LogOddsOfDry, rising: false)), NorrishK));
        if (curve.At(LogOddsOfNearlyPure).Value < 0)
            throw new ArgumentOutOfRangeException(nameof(moisture), moisture.DryBasis, "No activity below 1 holds so much water on this isotherm.");
        return new(NorrishSolution.ActivityOf(MoleFraction(MonotoneRoot.Find(curve, LogOddsOfNearlyPure, LogOddsOfNearlyDry)), NorrishK));
    }

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">Activity not in (0, 1), or beyond the leaf's isotherm.</exception>
    public override double Slope(WaterActivity activityAt22C)
    {
        var leaf = Leaf.Slope(activityAt22C);
        if (HumectantShare == 0)
            return leaf;
        if (activityAt22C.Fraction is not (>= 0 and < 1))
            throw new ArgumentOutOfRangeException(nameof(activityAt22C), activityAt22C.Fraction, "A humectant balances activities from 0 up to, but not including, 1.");
        return ((1 - HumectantShare) * leaf) + (HumectantShare * HumectantSlope(NorrishSolution.MoleFractionOf(activityAt22C.Fraction, NorrishK)));
    }

    private const double LogOddsOfNearlyPure = -32; // mole fraction 1e-14: activity still below 1
    private const double LogOddsOfNearlyDry = 700;
    private const double LogOddsOfMoist = -4; // nearly all leaf lies from here
    private const double LogOddsOfDry = 2; // to here

    private double HumectantSlope(double x) =>
        PhysicalConstants.MolarMassOfWater / HumectantMolarMass / (x * x) / -NorrishSolution.SlopeOf(x, NorrishK);

    private static double MoleFraction(double logOdds) => 1 / (1 + Math.Exp(-logOdds));

    /// <summary>ln X(x) − ln X as a function of the log-odds of x: falls evenly from very wet to very dry.</summary>
    private readonly record struct LogExcess(HumectantIsotherm Mixture, double LogTarget) : ICurve
    {
        public (double Value, double Slope) At(double x)
        {
            var mole = MoleFraction(x);
            var dry = 1 / (1 + Math.Exp(x)); // 1 − mole, without loss near 1
            var activity = dry * Math.Exp(-Mixture.NorrishK * mole * mole);
            var water = dry / mole * PhysicalConstants.MolarMassOfWater / Mixture.HumectantMolarMass;
            var leaf = Mixture.Leaf.MoistureAt(new(activity)).DryBasis;
            var total = ((1 - Mixture.HumectantShare) * leaf) + (Mixture.HumectantShare * water);
            var perActivity = activity > 0 ? (1 - Mixture.HumectantShare) * Mixture.Leaf.Slope(new(activity)) : 0;
            var perMole = (perActivity * NorrishSolution.SlopeOf(mole, Mixture.NorrishK))
                - (Mixture.HumectantShare * PhysicalConstants.MolarMassOfWater / Mixture.HumectantMolarMass / (mole * mole));
            return (Math.Log(total) - LogTarget, perMole * mole * dry / total);
        }
    }
}
