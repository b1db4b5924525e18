using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate;

/// <summary>A straight line from what a hygrometer shows to what is true, from one or two reference points.</summary>
/// <param name="Gain">Slope; 1 with one point.</param>
/// <param name="Offset">Added after the gain, as a fraction.</param>
/// <remarks>
/// <para><b>Equation</b> true = gain · shown + offset; one point: offset = true − shown; two: the line through both. The result is held within 0 … 100 %.</para>
/// <para><b>Source</b> none: common practice.</para>
/// <para><b>Valid</b> near and between the points; two points at least 20 % apart as shown, gain 0.7 … 1.4: beyond that the instrument is broken rather than off.</para>
/// <para><b>Error</b> that of the references, plus 1–2 points of hysteresis and drift over a year.</para>
/// </remarks>
public readonly record struct HygrometerCorrection(double Gain, double Offset)
{
    /// <summary>The least distance between the shown values of two points, as a fraction.</summary>
    public const double LeastDistance = 0.20;

    /// <summary>The lowest believable gain.</summary>
    public const double LowestGain = 0.7;

    /// <summary>The highest believable gain.</summary>
    public const double HighestGain = 1.4;

    /// <summary>From one reference point: an offset.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A humidity not within 0 … 100 %.</exception>
    public static HygrometerCorrection From(RelativeHumidity truth, RelativeHumidity shown) => new(1, Checked(truth) - Checked(shown));

    /// <summary>From two reference points, in any order.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A humidity not within 0 … 100 %, shown values less than 20 % apart, or a gain outside 0.7 … 1.4.</exception>
    public static HygrometerCorrection From(RelativeHumidity truth1, RelativeHumidity shown1, RelativeHumidity truth2, RelativeHumidity shown2)
    {
        var distance = Checked(shown2) - Checked(shown1);
        if (!(Math.Abs(distance) >= LeastDistance - 1e-12))
        {
            throw new ArgumentOutOfRangeException(
                nameof(shown2), shown2.Percent, "Two points shown less than 20 % apart cannot tell a gain from an error of reading.");
        }

        var gain = (Checked(truth2) - Checked(truth1)) / distance;
        return gain is >= LowestGain and <= HighestGain
            ? new(gain, truth1.Fraction - (gain * shown1.Fraction))
            : throw new ArgumentOutOfRangeException(nameof(truth2), gain, "A gain outside 0.7 to 1.4 means a mixed-up point or a broken instrument.");
    }

    /// <summary>What is true when the hygrometer shows this.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A humidity not within 0 … 100 %.</exception>
    public RelativeHumidity Correct(RelativeHumidity shown) => new(Math.Clamp((Gain * Checked(shown)) + Offset, 0, 1));

    private static double Checked(RelativeHumidity humidity) => humidity.Fraction is >= 0 and <= 1
        ? humidity.Fraction
        : throw new ArgumentOutOfRangeException(nameof(humidity), humidity.Percent, "A relative humidity lies from 0 to 100 %.");
}
