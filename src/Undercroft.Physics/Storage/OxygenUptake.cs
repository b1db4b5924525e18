namespace Undercroft.Physics.Storage;

/// <summary>How fast leaf takes up oxygen and gives carbon dioxide.</summary>
/// <param name="Rate">At the reference temperature: per second of the oxygen present (<see cref="UptakeBasis.PerMole"/>) or mol/(s·Pa) of its partial pressure.</param>
/// <param name="ReferenceKelvin">Temperature of <paramref name="Rate"/>, K.</param>
/// <param name="Q10">Factor per 10 K.</param>
/// <param name="RespiratoryQuotient">mol of carbon dioxide that appear per mol of oxygen gone.</param>
/// <param name="Basis">What the rate multiplies.</param>
/// <remarks>No rate for stored pipe leaf has been published: an assumption wherever it is used, never a date.</remarks>
public readonly record struct OxygenUptake(double Rate, double ReferenceKelvin, double Q10, double RespiratoryQuotient, UptakeBasis Basis);

/// <summary>What an uptake rate multiplies.</summary>
public enum UptakeBasis
{
    /// <summary>The amount of oxygen in the headspace.</summary>
    PerMole,

    /// <summary>The partial pressure of oxygen in the headspace.</summary>
    PerPascal,
}
