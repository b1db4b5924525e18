using Undercroft.Physics.Quantities;
using Undercroft.Physics.Roots;

namespace Undercroft.Physics.Leaf;

/// <summary>Water activity over a solution of one humectant in water.</summary>
/// <remarks>
/// <para><b>Equation</b> a = (1 − x) exp(−K x²), x the mole fraction of the humectant; inverse by safeguarded Newton.</para>
/// <para><b>Source</b> [Norrish1966] for the form; K = 1.16 for glycerol from table 3 of [IntJDent2010], which quotes earlier work. K = 0 is Raoult's law.</para>
/// <para><b>Valid</b> 25 °C; activity above about 0.3 for glycerol.</para>
/// <para><b>Error</b> about 0.02 of activity.</para>
/// </remarks>
public static class NorrishSolution
{
    /// <summary>K of glycerol.</summary>
    public const double Glycerol = 1.16;

    /// <summary>The lowest activity at which the equation is trusted for glycerol.</summary>
    public const double LowestTrustedActivity = 0.3;

    /// <summary>Activity over a solution of given composition.</summary>
    /// <param name="massFraction">Humectant over the whole mass, 0 to 1.</param>
    /// <param name="k">Norrish's constant, not negative.</param>
    /// <param name="molarMass">Of the humectant, kg/mol.</param>
    /// <exception cref="ArgumentOutOfRangeException">Any argument outside its range.</exception>
    public static WaterActivity ActivityAt(double massFraction, double k = Glycerol, double molarMass = PhysicalConstants.MolarMassOfGlycerol)
    {
        if (massFraction is not (>= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(massFraction), massFraction, "The share of humectant lies from 0 to 1.");
        CheckConstants(k, molarMass);
        var solute = massFraction / molarMass;
        return new(ActivityOf(solute / (solute + ((1 - massFraction) / PhysicalConstants.MolarMassOfWater)), k));
    }

    /// <summary>Water held by a kilogram of humectant in balance with an activity, kg/kg.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Activity not in [0, 1), or a constant outside its range.</exception>
    public static double WaterPerHumectant(WaterActivity activity, double k = Glycerol, double molarMass = PhysicalConstants.MolarMassOfGlycerol)
    {
        if (activity.Fraction is not (>= 0 and < 1))
            throw new ArgumentOutOfRangeException(nameof(activity), activity.Fraction, "A humectant balances activities from 0 up to, but not including, 1.");
        CheckConstants(k, molarMass);
        return WaterOf(MoleFractionOf(activity.Fraction, k), molarMass);
    }

    /// <summary>The bare equation.</summary>
    public static double ActivityOf(double moleFraction, double k) => (1 - moleFraction) * Math.Exp(-k * moleFraction * moleFraction);

    /// <summary>The bare da/dx, below zero.</summary>
    public static double SlopeOf(double moleFraction, double k) =>
        -Math.Exp(-k * moleFraction * moleFraction) * (1 + (2 * k * moleFraction * (1 - moleFraction)));

    /// <summary>The bare inverse, for 0 ≤ activity ≤ 1.</summary>
    public static double MoleFractionOf(double activity, double k) => MonotoneRoot.Find(new Curve(activity, k), 0, 1, 1e-15);

    /// <summary>kg of water per kg of humectant at a mole fraction of the humectant above 0.</summary>
    public static double WaterOf(double moleFraction, double molarMass) => (1 - moleFraction) / moleFraction * PhysicalConstants.MolarMassOfWater / molarMass;

    internal static void CheckConstants(double k, double molarMass)
    {
        if (k is not (>= 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(k), k, "Norrish's constant is not negative and finite.");
        if (molarMass is not (> 0 and < double.PositiveInfinity))
            throw new ArgumentOutOfRangeException(nameof(molarMass), molarMass, "A molar mass is above zero and finite.");
    }

    private readonly record struct Curve(double Target, double K) : ICurve
    {
        public (double Value, double Slope) At(double x) => (ActivityOf(x, K) - Target, SlopeOf(x, K));
    }
}
