using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>What a homogeneous material passes per metre of thickness: permeance times thickness.</summary>
/// <param name="MolMPerM2SPa">mol·m/(m²·s·Pa).</param>
/// <remarks>
/// <para><b>Equation</b> permeance = P/L. 1 Barrer = 10⁻¹⁰ cm³(STP)·cm/(cm²·s·cmHg).</para>
/// <para><b>Source</b> Definitions; 1 Barrer = 3.35·10⁻¹⁶ mol·m/(m²·s·Pa) is also printed in [BarrerUnits].</para>
/// <para><b>Valid</b> One homogeneous material. Never foil, metallised or coated films: they are decided by pinholes and cracks, which do not halve with double thickness.</para>
/// <para><b>Error</b> Rounding. Tables of one polymer scatter by a factor of 1.35 (one log-sd), of poorly defined ones by 2.</para>
/// </remarks>
public readonly record struct Permeability(double MolMPerM2SPa)
{
    private const double Day = 86400;
    private const double CentimetreOfMercury = 1333.22387415;

    /// <summary>One Barrer, mol·m/(m²·s·Pa).</summary>
    public static double Barrer => 1e-10 * 1e-6 / Molar.StandardVolume * 1e-2 / (1e-4 * CentimetreOfMercury);

    /// <summary>From Barrer.</summary>
    public static Permeability FromBarrer(double barrer) => new(Positive.OrZero(barrer) * Barrer);

    /// <summary>From cm³(STP)·µm/(m²·day·bar).</summary>
    public static Permeability FromCm3MicrometrePerM2DayBar(double value) => new(Permeance.FromCm3PerM2DayBar(value).MolPerM2SPa * 1e-6);

    /// <summary>From cm³(STP)·mil/(100 in²·day·atm).</summary>
    public static Permeability FromCm3MilPer100In2DayAtm(double value) => new(Permeance.FromCm3Per100In2DayAtm(value).MolPerM2SPa * 25.4e-6);

    /// <summary>From cm³(STP)·mm/(m²·day·atm).</summary>
    public static Permeability FromCm3MillimetrePerM2DayAtm(double value) => new(Permeance.FromCm3PerM2DayAtm(value).MolPerM2SPa * 1e-3);

    /// <summary>From 10⁻¹³ cm³(STP)·cm/(cm²·s·Pa), as handbooks of materials print it.</summary>
    public static Permeability FromCm3CmPerCm2SPa13(double value) => new(Positive.OrZero(value) * 1e-13 * 1e-6 / Molar.StandardVolume * 1e-2 / 1e-4);

    /// <summary>From a water-vapour rate in g·µm/(m²·day) and its test climate.</summary>
    public static Permeability FromGramMicrometrePerM2Day(double value, WaterTest test) => new(Permeance.FromGramsPerM2Day(value, test).MolPerM2SPa * 1e-6);

    /// <summary>From a water-vapour rate in g·mil/(100 in²·day) and its test climate.</summary>
    public static Permeability FromGramMilPer100In2Day(double value, WaterTest test) => new(Permeance.FromGramsPer100In2Day(value, test).MolPerM2SPa * 25.4e-6);

    /// <summary>In Barrer.</summary>
    public double InBarrer => MolMPerM2SPa / Barrer;

    /// <summary>In cm³(STP)·µm/(m²·day·bar).</summary>
    public double Cm3MicrometrePerM2DayBar => new Permeance(MolMPerM2SPa / 1e-6).Cm3PerM2DayBar;

    /// <summary>In cm³(STP)·mil/(100 in²·day·atm).</summary>
    public double Cm3MilPer100In2DayAtm => new Permeance(MolMPerM2SPa / 25.4e-6).Cm3Per100In2DayAtm;

    /// <summary>In cm³(STP)·mm/(m²·day·atm).</summary>
    public double Cm3MillimetrePerM2DayAtm => new Permeance(MolMPerM2SPa / 1e-3).Cm3PerM2DayAtm;

    /// <summary>In 10⁻¹³ cm³(STP)·cm/(cm²·s·Pa).</summary>
    public double Cm3CmPerCm2SPa13 => MolMPerM2SPa * Molar.StandardVolume / 1e-6 * 1e-4 / 1e-2 / 1e-13;

    /// <summary>As a water-vapour rate in g·µm/(m²·day) in a test climate.</summary>
    public double GramMicrometrePerM2Day(WaterTest test) => new Permeance(MolMPerM2SPa / 1e-6).GramsPerM2Day(test);

    /// <summary>As a water-vapour rate in g·mil/(100 in²·day) in a test climate.</summary>
    public double GramMilPer100In2Day(WaterTest test) => new Permeance(MolMPerM2SPa / 25.4e-6).GramsPer100In2Day(test);

    /// <summary>Of a film of this thickness.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Thickness not above zero.</exception>
    public Permeance Through(Length thickness) => new(MolMPerM2SPa / Positive.Number(thickness.Metres));

    /// <summary>Scaled: to another temperature, by an Arrhenius factor.</summary>
    public static Permeability operator *(Permeability left, double factor) => new(left.MolMPerM2SPa * factor);
}
