using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>In which way molecules get through a hole.</summary>
public enum PoreRegime
{
    /// <summary>Knudsen number above 10: they meet the wall, hardly ever each other.</summary>
    Molecular,

    /// <summary>Between.</summary>
    Transition,

    /// <summary>Knudsen number below 0.01: ordinary diffusion.</summary>
    Continuum,
}

/// <summary>A round hole or channel between two gases of the same total pressure.</summary>
/// <remarks>
/// <para><b>Equation</b> G = D_eff·A/[R·T·(L + πd/4)], A = πd²/4, 1/D_eff = 1/D + 1/D_K, D_K = (d/3)·v.</para>
/// <para><b>Source</b> πd/4 is the exact two-sided end correction of a disc in a thin wall (limit G = D·d/(R·T)); Knudsen diffusivity with the speeds of [FitnessU46]; the
/// harmonic sum is the usual interpolation (Bosanquet; from memory).</para>
/// <para><b>Valid</b> Any diameter. The molecular branch alone holds only below some 10 nm at one atmosphere: a 1 µm hole treated as molecular passes eight times too much.</para>
/// <para><b>Error</b> 10 % in the transition, 5 % in the continuum.</para>
/// <para><b>Departs</b> Papers on perforated film use L + d/2 or L + d as the effective length; ours is the exact limit for a thin wall.</para>
/// </remarks>
public static class Pinhole
{
    /// <summary>Mean free path of air at 25 °C and one atmosphere, m (from memory).</summary>
    public const double MeanFreePathAt25 = 68e-9;

    /// <summary>Conductance, mol/(s·Pa).</summary>
    public static double Conductance(Permeant permeant, Length diameter, Length length, Temperature temperature)
    {
        var d = Positive.Number(diameter.Metres);
        var effective = 1 / ((1 / DiffusivityInAir.Of(permeant, temperature)) + (1 / KnudsenDiffusivity(permeant, diameter, temperature)));
        return effective * Section(d) / (PhysicalConstants.GasConstant * temperature.Kelvin * (Positive.OrZero(length.Metres) + (Math.PI * d / 4)));
    }

    /// <summary>Conductance as if the flow were molecular all through and ends did not matter, mol/(s·Pa): right below some 10 nm, wrong above.</summary>
    public static double MolecularConductance(Permeant permeant, Length diameter, Length length, Temperature temperature) =>
        KnudsenDiffusivity(permeant, diameter, temperature) * Section(diameter.Metres)
        / (PhysicalConstants.GasConstant * temperature.Kelvin * Positive.Number(length.Metres));

    /// <summary>D_K = (d/3)·v, m²/s.</summary>
    public static double KnudsenDiffusivity(Permeant permeant, Length diameter, Temperature temperature) =>
        Positive.Number(diameter.Metres) / 3 * MolecularSpeed.Of(permeant, temperature);

    /// <summary>Mean free path over diameter, at one atmosphere.</summary>
    public static double KnudsenNumber(Length diameter, Temperature temperature) =>
        MeanFreePathAt25 * (Positive.Number(temperature.Kelvin) / 298.15) / Positive.Number(diameter.Metres);

    /// <summary>Which regime a hole is in.</summary>
    public static PoreRegime RegimeOf(Length diameter, Temperature temperature) => KnudsenNumber(diameter, temperature) switch
    {
        > 10 => PoreRegime.Molecular,
        < 0.01 => PoreRegime.Continuum,
        _ => PoreRegime.Transition,
    };

    private static double Section(double diameter) => Math.PI * diameter * diameter / 4;
}
