using System.Globalization;
using Undercroft.Forecasts.Comparing;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Comparing;

/// <summary>Numbers and traits of a comparison in words.</summary>
internal static class CompareText
{
    internal static string Range(Spot spot, string format) =>
        $"{spot.P50.ToString(format, CultureInfo.InvariantCulture)} ({spot.P5.ToString(format, CultureInfo.InvariantCulture)}–{spot.P95.ToString(format, CultureInfo.InvariantCulture)})";

    internal static string Percent(double share) => share is > 0 and < 0.01 ? "under 1 %" : (100 * share).ToString("0", CultureInfo.InvariantCulture) + " %";

    /// <summary>Two significant digits, without exponents.</summary>
    internal static string TwoDigits(double value)
    {
        if (value is 0 or < 0.001)
            return value == 0 ? "0" : "<0.001";
        var step = Math.Pow(10, Math.Floor(Math.Log10(value)) - 1);
        var rounded = Math.Round(value / step) * step;
        return rounded.ToString(rounded switch { < 0.1 => "0.0##", < 1 => "0.0#", < 10 => "0.#", _ => "#,0" }, CultureInfo.InvariantCulture);
    }

    /// <summary>Whether physics agrees, in a word.</summary>
    internal static string Word(bool? agrees) => agrees switch
    {
        true => "agrees",
        false => "does not agree",
        null => "has no say",
    };

    internal static string Traits(ContainerKind kind) => string.Join("; ", new[]
    {
        kind.SeeThrough ? "one can look inside" : "one cannot look inside",
        kind.PressesLeaf ? "presses the cut" : null,
        kind.KeepsFactoryPack ? "factory packaging survives" : null,
        kind.FactorySealed ? "only as the maker closed it" : null,
    }.OfType<string>());
}
