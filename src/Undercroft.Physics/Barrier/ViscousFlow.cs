using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>Flow of the whole gas under a difference of total pressure.</summary>
/// <remarks>
/// <para><b>Equation</b> capillary: n = π·d⁴·(p₁² − p₂²)/(256·µ·L·R·T); slot: n = w·h³·(p₁² − p₂²)/(24·µ·L·R·T).</para>
/// <para><b>Source</b> Hagen–Poiseuille for an ideal gas, isothermal; standard.</para>
/// <para><b>Valid</b> Laminar, long channel (L well above d), d above a few mean free paths.</para>
/// <para><b>Error</b> Diameter enters to the fourth power: 20 % of it is a factor of two.</para>
/// </remarks>
public static class ViscousFlow
{
    /// <summary>Viscosity of air, Pa·s, at 25 °C (from memory); grows by 0.26 % per kelvin.</summary>
    public const double AirViscosityAt25 = 1.85e-5;

    /// <summary>Viscosity of air, Pa·s.</summary>
    public static double AirViscosity(Temperature temperature) => AirViscosityAt25 * Math.Pow(Positive.Number(temperature.Kelvin) / 298.15, 0.76);

    /// <summary>Flow from <paramref name="inside"/> to <paramref name="outside"/> through a round channel, mol/s; negative inwards.</summary>
    public static double Capillary(Length diameter, Length length, Pressure inside, Pressure outside, Temperature temperature) =>
        Math.PI * Math.Pow(Positive.Number(diameter.Metres), 4) * Squares(inside, outside)
        / (256 * AirViscosity(temperature) * Positive.Number(length.Metres) * PhysicalConstants.GasConstant * temperature.Kelvin);

    /// <summary>Flow through a flat slot, mol/s; negative inwards.</summary>
    public static double Slot(Length width, Length gap, Length length, Pressure inside, Pressure outside, Temperature temperature) =>
        Positive.Number(width.Metres) * Math.Pow(Positive.Number(gap.Metres), 3) * Squares(inside, outside)
        / (24 * AirViscosity(temperature) * Positive.Number(length.Metres) * PhysicalConstants.GasConstant * temperature.Kelvin);

    /// <summary>Flow per pascal for small differences about one atmosphere at 23 °C, mol/(s·Pa): what a path of the storage model holds.</summary>
    public static double CapillaryPerPascal(Length diameter, Length length) => PerPascal((inside, outside, at) => Capillary(diameter, length, inside, outside, at));

    /// <summary>The same for a slot.</summary>
    public static double SlotPerPascal(Length width, Length gap, Length length) => PerPascal((inside, outside, at) => Slot(width, gap, length, inside, outside, at));

    private static double PerPascal(Func<Pressure, Pressure, Temperature, double> flow) =>
        flow(new Pressure(101325.5), new Pressure(101324.5), Temperature.FromCelsius(23));

    private static double Squares(Pressure inside, Pressure outside) =>
        (Positive.OrZero(inside.Pascals) * inside.Pascals) - (Positive.OrZero(outside.Pascals) * outside.Pascals);
}
