using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate.Exposures;

/// <summary>How long bare steel counts as wet.</summary>
/// <remarks>
/// <para><b>Equation</b> hours with RH above 80 % and T above 0 °C together, scaled to a year; T1 up to 10 h, T2 to 250, T3 to 2500, T4 to 5500, T5 beyond.</para>
/// <para><b>Source</b> [Iso9223y1992]: definition from memory, T1 to T3 read in [CorrosionEngineering], T4 and T5 from memory. The edition of 2012 ranks by dose and response instead.</para>
/// <para><b>Valid</b> unsheltered thinking applied indoors: a rough rank for seams, scratches and lids of tins; tinplate itself has no published number.</para>
/// <para><b>Error</b> large near 80 %: 2 points of the sensor can move a class. Salt and finger marks wet from 50 to 70 % on.</para>
/// </remarks>
public static class TimeOfWetness
{
    private const double Wet = 0.8;

    /// <summary>Time wet, of a log. Exactly 80 % or exactly 0 °C is not counted.</summary>
    public static Duration Of(LoggedAir air) => TimeBeyond.Of(
        air, moment => Math.Min(moment.Humidity - Wet, 0.05 * (moment.Kelvin - Temperature.ZeroCelsius))); // the scale of the second only places the crossing within a step

    /// <summary>The class of the hours in a year, 1 to 5.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not a number.</exception>
    public static int Class(double hoursPerYear) => hoursPerYear switch
    {
        >= 0 and <= 10 => 1,
        > 10 and <= 250 => 2,
        > 250 and <= 2500 => 3,
        > 2500 and <= 5500 => 4,
        > 5500 and < double.PositiveInfinity => 5,
        _ => throw new ArgumentOutOfRangeException(nameof(hoursPerYear), hoursPerYear, "Hours of a year are not negative."),
    };
}

/// <summary>How corrosive a place is to bare carbon steel.</summary>
/// <remarks>
/// <para><b>Equation</b> first-year loss up to 1.3 µm: C1; to 25: C2; to 50: C3; to 80: C4; to 200: C5; to 700: CX.</para>
/// <para><b>Source</b> [Iso9223y1992] and its later edition as quoted on a maker's page [Cotes]: C1 heated buildings, C2 unheated storage with condensation.</para>
/// <para><b>Valid</b> carbon steel, first year.</para>
/// <para><b>Error</b> the bins are wide on purpose: within one, loss differs by a factor of two to twenty.</para>
/// </remarks>
public static class Corrosivity
{
    private static readonly (double UpTo, string Category)[] Bins = [(1.3, "C1"), (25, "C2"), (50, "C3"), (80, "C4"), (200, "C5"), (700, "CX")];

    /// <summary>The category of a first-year loss.</summary>
    /// <param name="loss">Thickness lost by bare carbon steel.</param>
    /// <exception cref="ArgumentOutOfRangeException">Negative, or beyond the scale.</exception>
    public static string Of(Length loss)
    {
        var micrometres = loss.Metres * 1e6;
        return micrometres >= 0 && micrometres <= 700
            ? Bins.First(bin => micrometres <= bin.UpTo * (1 + 1e-12)).Category
            : throw new ArgumentOutOfRangeException(nameof(loss), micrometres, "A first-year loss lies from 0 to 700 µm.");
    }
}
