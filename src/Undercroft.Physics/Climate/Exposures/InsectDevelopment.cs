using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate.Exposures;

/// <summary>What temperature lets the tobacco beetle do.</summary>
public enum InsectBand
{
    /// <summary>Too cold: larvae lie dormant, eggs hardly hatch.</summary>
    Dormant,

    /// <summary>Eggs can hatch and larvae creep on; a cycle takes most of a year or never ends.</summary>
    CouldDevelop,

    /// <summary>A cycle within months.</summary>
    Develops,
}

/// <summary>Development of the tobacco beetle (Lasioderma serricorne) with temperature, and the cold that kills it and the tobacco moth.</summary>
/// <remarks>
/// <para><b>Equation</b> degree-days above T₀ = 15.3 °C, one generation K = 564 K·d; over a day between its lowest and highest temperature by the single sine:
/// DD = [(m − T₀)(π/2 − θ) + a cos θ]/π, m the mean, a half the swing, θ = asin[(T₀ − m)/a].</para>
/// <para><b>Source</b> the straight line through the two life cycles 26 d at 37 °C and 120 d at 20 °C [EuBeetle]; hatching 1 % at 15.6 °C and 58 % at 18.3 °C [BeetleEggs1976];
/// larvae dormant below 16 °C, inactive to 19 °C [PurdueE239].</para>
/// <para><b>Valid</b> as a band, not a date: 37 °C is past the optimum, and eggs hatched in 17–25 d at 18.3 °C where the line says 33. It understates the risk near the threshold.</para>
/// <para><b>Error</b> a factor of two near 18 °C. Closed glass and unbroken tins keep insects out; eggs may be in the leaf from the start.</para>
/// </remarks>
public static class InsectDevelopment
{
    /// <summary>No development below, °C.</summary>
    public const double ThresholdCelsius = 15.3;

    /// <summary>Of one generation, K·d.</summary>
    public const double DegreeDaysPerGeneration = 564.26;

    private const double DevelopsFrom = 18;

    /// <summary>Days of one life cycle at a steady temperature; positive infinity at or below the threshold.</summary>
    public static double CycleDays(Temperature temperature) => temperature.Celsius > ThresholdCelsius
        ? DegreeDaysPerGeneration / (temperature.Celsius - ThresholdCelsius)
        : double.IsNaN(temperature.Kelvin) ? throw new ArgumentOutOfRangeException(nameof(temperature), temperature.Kelvin, "Not a temperature.") : double.PositiveInfinity;

    /// <summary>Degree-days of one day.</summary>
    /// <param name="lowest">Of the day, °C.</param>
    /// <param name="highest">Of the day, °C.</param>
    /// <param name="threshold">°C.</param>
    /// <exception cref="ArgumentOutOfRangeException">The lowest above the highest, or not a number.</exception>
    public static double DegreeDays(double lowest, double highest, double threshold = ThresholdCelsius)
    {
        if (!(lowest <= highest) || !double.IsFinite(threshold))
            throw new ArgumentOutOfRangeException(nameof(highest), highest, "The highest of a day is not below its lowest.");
        var (mean, half) = ((lowest + highest) / 2, (highest - lowest) / 2);
        if (lowest >= threshold)
            return mean - threshold;
        if (highest <= threshold)
            return 0;
        var angle = Math.Asin((threshold - mean) / half);
        return (((mean - threshold) * ((Math.PI / 2) - angle)) + (half * Math.Cos(angle))) / Math.PI;
    }

    /// <summary>What a temperature allows.</summary>
    public static InsectBand BandAt(Temperature temperature) => temperature.Celsius switch
    {
        < 15 => InsectBand.Dormant,
        < DevelopsFrom => InsectBand.CouldDevelop,
        >= DevelopsFrom => InsectBand.Develops,
        _ => throw new ArgumentOutOfRangeException(nameof(temperature), temperature.Kelvin, "Not a temperature."),
    };
}

/// <summary>How long cold must last to kill the hardiest stage.</summary>
/// <remarks>
/// <para><b>Equation</b> between the points −20 °C 1 d, −15 °C 3 d, −10 °C 22 d the logarithm of the days is straight in temperature; colder than −20 °C still 1 d.</para>
/// <para><b>Source</b> diapausing, acclimated larvae of the tobacco moth (Ephestia elutella), the hardiest stage known of the two, [CollinsCold]; the beetle dies sooner: Stegobium, its
/// relative, within 2 h at −20 °C [JaicCold1991].</para>
/// <para><b>Valid</b> −10 °C and colder, at the core of the pack. Warmer cold may stop insects and not kill them.</para>
/// <para><b>Error</b> between the points not measured; the plan doubles it and never holds for less than three days.</para>
/// </remarks>
public static class ColdKill
{
    private static readonly (double Celsius, double Days)[] Points = [(-20, 1), (-15, 3), (-10, 22)];

    /// <summary>Days at the core; null where no cold this mild is known to kill.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a number.</exception>
    public static double? DaysAt(Temperature core)
    {
        var celsius = core.Celsius;
        if (double.IsNaN(celsius))
            throw new ArgumentOutOfRangeException(nameof(core), celsius, "Not a temperature.");
        if (celsius > Points[^1].Celsius + 1e-9)
            return null;
        if (celsius <= Points[0].Celsius)
            return Points[0].Days;
        var upper = Array.FindIndex(Points, point => celsius <= point.Celsius + 1e-9);
        var (a, b) = (Points[upper - 1], Points[upper]);
        return a.Days * Math.Pow(b.Days / a.Days, (celsius - a.Celsius) / (b.Celsius - a.Celsius));
    }
}
