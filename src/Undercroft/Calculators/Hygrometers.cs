using Undercroft.Ledger;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;

namespace Undercroft.Calculators;

/// <summary>Humidity over a saturated salt.</summary>
/// <param name="HumidityPct">Of the air above it.</param>
/// <param name="UncertaintyPct">Points, k = 2; null where the source gives none.</param>
public sealed record SaltFigures(double HumidityPct, double? UncertaintyPct);

/// <summary>A corrected reading.</summary>
/// <param name="CorrectedPct">Within 0 to 100.</param>
/// <param name="Gain">1 with one point.</param>
/// <param name="OffsetPct">Points, added after the gain.</param>
public sealed record HygrometerFigures(double CorrectedPct, double Gain, double OffsetPct);

/// <summary>Checking and correcting hygrometers.</summary>
public static class Hygrometers
{
    /// <summary>The fixed point of a salt.</summary>
    /// <exception cref="Refusal">Unknown salt, or a temperature at which it is no reference.</exception>
    public static (SaltFigures Figures, FixedPoint Point) Salt(string salt, Temperature temperature)
    {
        if (!SaturatedSalts.Names.Contains(salt, StringComparer.OrdinalIgnoreCase))
            throw new Refusal($"'{salt}' is not a salt that is known here. Known: {string.Join(", ", SaturatedSalts.Names)}.");
        var (lowest, highest) = SaturatedSalts.RangeOf(salt);
        if (!(temperature.Celsius >= lowest.Celsius - 1e-9 && temperature.Celsius <= highest.Celsius + 1e-9))
        {
            throw new Refusal(
                $"{salt} is no reference at {temperature.Celsius.As("0.##")} °C: its humidity is known from {lowest.Celsius.As("0")} to {highest.Celsius.As("0")} °C. " +
                "Check the hygrometer at room temperature, or take another salt.");
        }

        var point = SaturatedSalts.At(salt, temperature);
        return (new(point.Humidity.Percent, point.Uncertainty?.Percent), point);
    }

    /// <summary>What is true when the hygrometer shows a reading.</summary>
    /// <param name="points">One or two: true and shown.</param>
    /// <param name="reading">As shown.</param>
    /// <exception cref="Refusal">Points that tell nothing: too close, or a gain that no sound hygrometer has.</exception>
    public static HygrometerFigures Corrected(IReadOnlyList<(RelativeHumidity Truth, RelativeHumidity Shown)> points, RelativeHumidity reading)
    {
        ArgumentNullException.ThrowIfNull(points);
        var correction = points switch
        {
            [var one] => Written.Within(() => HygrometerCorrection.From(one.Truth, one.Shown)),
            [var one, var two] => Written.Within(() => HygrometerCorrection.From(one.Truth, one.Shown, two.Truth, two.Shown)),
            _ => throw new Refusal("A correction takes one or two points. Leave out the others: choose those nearest to what is to be measured."),
        };
        return new(correction.Correct(reading).Percent, correction.Gain, 100 * correction.Offset);
    }
}
