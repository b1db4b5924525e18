using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Barrier;

/// <summary>How a leak is called by its helium rate.</summary>
public enum LeakSize
{
    /// <summary>Above 10⁻² Pa·m³/s: open.</summary>
    Open,

    /// <summary>10⁻² to 10⁻⁵ Pa·m³/s.</summary>
    Large,

    /// <summary>10⁻⁵ to 10⁻⁷ Pa·m³/s.</summary>
    Moderate,

    /// <summary>10⁻⁷ to 10⁻⁹ Pa·m³/s.</summary>
    Fine,

    /// <summary>10⁻⁹ to 10⁻¹¹ Pa·m³/s.</summary>
    UltraFine,

    /// <summary>Below the classes of the standard.</summary>
    BelowClasses,
}

/// <summary>Leak rates of test practice as conductances.</summary>
/// <remarks>
/// <para><b>Equation</b> G = Q/(R·T·Δp), Δp = 101 325 Pa of the tracer; in molecular flow other gases pass in proportion to 1/√M.</para>
/// <para><b>Source</b> Classes: [AstmF2391]. Helium to air 0.37 in molecular flow follows from the molar masses.</para>
/// <para><b>Valid</b> Partial-pressure driven flow through fine leaks (classes fine and below). Larger leaks are viscous under pressure and diffusive without: use <see cref="Pinhole"/>, <see cref="ViscousFlow"/>.</para>
/// <para><b>Error</b> The regime of a real leak is not known: factor 3.</para>
/// <para><b>Departs</b> The standard's note rounds 1 cm³·atm/s to 0.1 Pa·m³/s; here it is 0.101325.</para>
/// </remarks>
public static class LeakClass
{
    /// <summary>Molar mass of helium, kg/mol.</summary>
    public const double HeliumMolarMass = 4.0026e-3;

    /// <summary>Molar mass of air, kg/mol.</summary>
    public const double AirMolarMass = 28.966e-3;

    /// <summary>The class of a rate, Pa·m³/s.</summary>
    public static LeakSize Of(double pascalCubicMetresPerSecond) => Positive.OrZero(pascalCubicMetresPerSecond) switch
    {
        > 1e-2 => LeakSize.Open,
        > 1e-5 => LeakSize.Large,
        > 1e-7 => LeakSize.Moderate,
        > 1e-9 => LeakSize.Fine,
        > 1e-11 => LeakSize.UltraFine,
        _ => LeakSize.BelowClasses,
    };

    /// <summary>Conductance of the gas that was measured, mol/(s·Pa), under one atmosphere of it at 23 °C.</summary>
    public static double Conductance(double pascalCubicMetresPerSecond) =>
        Positive.OrZero(pascalCubicMetresPerSecond) / (PhysicalConstants.GasConstant * Storage.Conductance.ReferenceKelvin * 101325.0);

    /// <summary>The same leak for another gas in molecular flow.</summary>
    /// <param name="conductance">Of the measured gas.</param>
    /// <param name="measuredMolarMass">Of the measured gas, kg/mol.</param>
    /// <param name="permeant">The other gas.</param>
    public static double ForOther(double conductance, double measuredMolarMass, Permeant permeant) =>
        Positive.OrZero(conductance) * Math.Sqrt(Positive.Number(measuredMolarMass) / Molar.MassOf(permeant));

    /// <summary>A fine leak, stated for air, as a path of the storage model.</summary>
    public static ExchangePath Path(string name, double airPascalCubicMetresPerSecond)
    {
        var air = Conductance(airPascalCubicMetresPerSecond);
        // In molecular flow G ∝ √T/T: less than a kilojoule per mole, left out.
        Storage.Conductance Of(Permeant permeant) => new(ForOther(air, AirMolarMass, permeant), 0);
        return new ExchangePath(name, Of(Permeant.Water), Of(Permeant.Oxygen), Of(Permeant.CarbonDioxide), Of(Permeant.Nitrogen));
    }
}
