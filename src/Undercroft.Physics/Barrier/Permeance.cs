namespace Undercroft.Physics.Barrier;

/// <summary>What one square metre of a wall passes per second and pascal of partial-pressure difference.</summary>
/// <param name="MolPerM2SPa">mol/(m²·s·Pa).</param>
/// <remarks>
/// <para><b>Equation</b> gas: q/(22 414 cm³/mol)/(86 400 s)/(101 325 Pa or 10⁵ Pa); water: q/(18.015 g/mol)/(86 400 s)/Δp of the test.</para>
/// <para><b>Source</b> Definitions; cm³ are those at 0 °C and 101 325 Pa. US and metric perm after [UdUnits].</para>
/// <para><b>Valid</b> Any wall; a rate becomes a permeance only together with the pressure difference of its test.</para>
/// <para><b>Error</b> Rounding. Reading "cm³" at 25 °C as cm³(STP) is 9 %, bar as atm 1.3 %.</para>
/// </remarks>
public readonly record struct Permeance(double MolPerM2SPa) : IComparable<Permeance>
{
    private const double Day = 86400;
    private const double Atmosphere = 101325;
    private const double Bar = 1e5;
    private const double HundredSquareInches = 0.064516;
    private const double Grain = 64.79891e-6;

    /// <summary>From an oxygen (or other gas) rate in cm³(STP)/(m²·day·atm).</summary>
    public static Permeance FromCm3PerM2DayAtm(double rate) => new(Positive.OrZero(rate) * 1e-6 / Molar.StandardVolume / Day / Atmosphere);

    /// <summary>From a gas rate in cm³(STP)/(m²·day·bar).</summary>
    public static Permeance FromCm3PerM2DayBar(double rate) => new(Positive.OrZero(rate) * 1e-6 / Molar.StandardVolume / Day / Bar);

    /// <summary>From a gas rate in cm³(STP)/(100 in²·day·atm).</summary>
    public static Permeance FromCm3Per100In2DayAtm(double rate) => FromCm3PerM2DayAtm(rate / HundredSquareInches);

    /// <summary>From a water-vapour rate in g/(m²·day) and the climate of its test.</summary>
    public static Permeance FromGramsPerM2Day(double rate, WaterTest test) =>
        new(Positive.OrZero(rate) * 1e-3 / Molar.MassOf(Permeant.Water) / Day / test.Difference.Pascals);

    /// <summary>From a water-vapour rate in g/(100 in²·day) and the climate of its test.</summary>
    public static Permeance FromGramsPer100In2Day(double rate, WaterTest test) => FromGramsPerM2Day(rate / HundredSquareInches, test);

    /// <summary>From US perms (grain/(h·ft²·inHg)), mercury at 0 °C.</summary>
    public static Permeance FromUsPerm(double perm) => new(Positive.OrZero(perm) * UsPermKilograms / Molar.MassOf(Permeant.Water));

    /// <summary>From metric perms (g/(m²·day·mmHg)).</summary>
    public static Permeance FromMetricPerm(double perm) => new(Positive.OrZero(perm) * MetricPermKilograms / Molar.MassOf(Permeant.Water));

    /// <summary>In cm³(STP)/(m²·day·atm).</summary>
    public double Cm3PerM2DayAtm => MolPerM2SPa * Molar.StandardVolume * 1e6 * Day * Atmosphere;

    /// <summary>In cm³(STP)/(m²·day·bar).</summary>
    public double Cm3PerM2DayBar => MolPerM2SPa * Molar.StandardVolume * 1e6 * Day * Bar;

    /// <summary>In cm³(STP)/(100 in²·day·atm).</summary>
    public double Cm3Per100In2DayAtm => Cm3PerM2DayAtm * HundredSquareInches;

    /// <summary>As a water-vapour rate in g/(m²·day) in a test climate. The permeance is taken as it stands: it must hold at that temperature.</summary>
    public double GramsPerM2Day(WaterTest test) => MolPerM2SPa * Molar.MassOf(Permeant.Water) * 1e3 * Day * test.Difference.Pascals;

    /// <summary>As a water-vapour rate in g/(100 in²·day).</summary>
    public double GramsPer100In2Day(WaterTest test) => GramsPerM2Day(test) * HundredSquareInches;

    /// <summary>In US perms, mercury at 0 °C.</summary>
    public double UsPerm => MolPerM2SPa * Molar.MassOf(Permeant.Water) / UsPermKilograms;

    /// <summary>In metric perms.</summary>
    public double MetricPerm => MolPerM2SPa * Molar.MassOf(Permeant.Water) / MetricPermKilograms;

    /// <summary>For water: kg/(m²·s·Pa).</summary>
    public double WaterKilogramsPerM2SPa => MolPerM2SPa * Molar.MassOf(Permeant.Water);

    /// <inheritdoc/>
    public int CompareTo(Permeance other) => MolPerM2SPa.CompareTo(other.MolPerM2SPa);

    /// <summary>Two ways side by side on the same area.</summary>
    public static Permeance operator +(Permeance left, Permeance right) => new(left.MolPerM2SPa + right.MolPerM2SPa);

    /// <summary>Scaled.</summary>
    public static Permeance operator *(Permeance left, double factor) => new(left.MolPerM2SPa * factor);

    /// <summary>Passes less than.</summary>
    public static bool operator <(Permeance left, Permeance right) => left.MolPerM2SPa < right.MolPerM2SPa;

    /// <summary>Passes more than.</summary>
    public static bool operator >(Permeance left, Permeance right) => left.MolPerM2SPa > right.MolPerM2SPa;

    /// <summary>Passes no more than.</summary>
    public static bool operator <=(Permeance left, Permeance right) => left.MolPerM2SPa <= right.MolPerM2SPa;

    /// <summary>Passes no less than.</summary>
    public static bool operator >=(Permeance left, Permeance right) => left.MolPerM2SPa >= right.MolPerM2SPa;

    private static double UsPermKilograms => Grain / (3600 * 0.09290304 * 3386.389);

    private static double MetricPermKilograms => 1e-3 / (Day * 133.322387415);
}
