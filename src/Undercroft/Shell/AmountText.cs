using System.Globalization;
using Undercroft.Ledger.Amounts;
using Undercroft.Physics.Quantities;

namespace Undercroft.Shell;

/// <summary>Amounts in words, never finer than they are known.</summary>
public static class AmountText
{
    private const int StepsInRange = 10; // a range is told to about a tenth of its width

    /// <summary>As somebody stated it: <c>2oz</c> where that was typed, else rounded grams such as <c>56.7 g</c>, <c>about 50 g</c>, <c>40–60 g</c>; <c>unknown</c>.</summary>
    public static string Of(StatedMass mass) => Typed(mass) ?? mass.Si.Evenness switch
    {
        Evenness.Unknown => "unknown",
        Evenness.Between => Range(mass.Low!.Value.Grams, mass.High!.Value.Grams, 2) + " g",
        var even => $"{(even == Evenness.About ? "about " : "")}{Number(new Mass(mass.Si.First).Grams, 2)} g",
    };

    /// <summary>As somebody stated it: <c>8 fl oz</c> where that was typed, else rounded millilitres.</summary>
    public static string Of(StatedVolume volume) => volume.Text is { } text && StatedVolume.TryParse(text, volume.By, out var read, out _) && Same(read.Si, volume.Si) ? text.Trim()
        : volume is { Low: { } low, High: { } high } ? Range(low.Millilitres, high.Millilitres, 1) + " ml" : "unknown";

    /// <summary>
    /// From one number to another, as "51–62": with as many decimals as its width carries, at most <paramref name="decimals"/>. A range no wider than what is rounded away is one number.
    /// </summary>
    /// <param name="low">At least.</param>
    /// <param name="high">At most.</param>
    /// <param name="decimals">That the unit carries.</param>
    public static string Range(double low, double high, int decimals)
    {
        var width = high - low;
        var fine = width > 1e-9 * high ? Math.Min(decimals, high >= 100 ? 0 : high >= 10 ? 1 : 2) : decimals; // three digits are as much as a range is worth
        if (width <= 1.5 * Math.Pow(10, -fine))
            return Number((low + high) / 2, fine);
        var carried = Math.Clamp(-(int)Math.Floor(Math.Log10(width / StepsInRange)), 0, fine);
        return $"{Number(low, carried)}–{Number(high, carried)}";
    }

    private static string? Typed(StatedMass mass) => mass.Text is { } text && StatedMass.TryParse(text, mass.By, out var read, out _) && Same(read.Si, mass.Si) ? text.Trim() : null;

    /// <summary>True where the words say this very amount: what was shared out or reckoned since keeps the words of the whole.</summary>
    private static bool Same(Stated read, Stated kept) => kept.IsKnown && read.Evenness == kept.Evenness && read.First.Equals(kept.First) && read.Second.Equals(kept.Second);

    private static string Number(double value, int decimals) => value.ToString(decimals == 0 ? "0" : "0." + new string('#', decimals), CultureInfo.InvariantCulture);
}
