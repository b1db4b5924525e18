using System.Text.RegularExpressions;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Amounts;

/// <summary>An amount as somebody stated it: exact, about, between two values or unknown, who says so, and the words as they were entered.</summary>
/// <param name="Evenness">Exact, about, between, unknown.</param>
/// <param name="First">In SI units: the value, or the lower end.</param>
/// <param name="Second">In SI units: the upper end; equal to <paramref name="First"/> unless between.</param>
/// <param name="By">Who says so.</param>
/// <param name="Text">As entered; null where a program entered it.</param>
/// <remarks>
/// The shared body of <see cref="StatedMass"/>, <see cref="StatedVolume"/>, <see cref="StatedFraction"/>, <see cref="StatedTemperature"/> and <see cref="StatedLength"/>.
/// Only what was stated is stored; how wide "about" is may be thought over later. The default value is unknown.
/// </remarks>
public readonly partial record struct Stated(Evenness Evenness, double First, double Second, SaidBy By, string? Text)
{
    /// <summary>False where nobody knows.</summary>
    public bool IsKnown => Evenness != Evenness.Unknown;

    /// <summary>Exactly a value.</summary>
    public static Stated Exactly(double si, SaidBy by = SaidBy.Unstated, string? text = null) => new(Evenness.Exact, Finite(si), si, by, text);

    /// <summary>About a value.</summary>
    public static Stated About(double si, SaidBy by = SaidBy.Unstated, string? text = null) => new(Evenness.About, Finite(si), si, by, text);

    /// <summary>Somewhere between two values.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or the lower end is above the upper.</exception>
    public static Stated Between(double low, double high, SaidBy by = SaidBy.Unstated, string? text = null) => Finite(low) <= Finite(high)
        ? new(Evenness.Between, low, high, by, text)
        : throw new ArgumentOutOfRangeException(nameof(high), high, "The upper end is below the lower.");

    /// <summary>Nobody knows, and these were the words.</summary>
    public static Stated Nobody(SaidBy by = SaidBy.Unstated, string? text = null) => new(Evenness.Unknown, 0, 0, by, text);

    /// <summary>The same amount, said by somebody.</summary>
    public Stated Saying(SaidBy by) => this with { By = by };

    /// <summary>Reads <c>50g</c>, <c>~50g</c>, <c>about 50 g</c>, <c>50 g or so</c>, <c>50g?</c>, <c>40g..60g</c>, <c>40-60g</c>, <c>unknown</c>, <c>??</c> or blank.</summary>
    /// <param name="text">What was entered.</param>
    /// <param name="units">The units that it may have.</param>
    /// <param name="by">Who says so.</param>
    /// <param name="stated">The amount.</param>
    /// <param name="why">What, why and what to do; empty where the text was read.</param>
    public static bool TryParse(string? text, QuantityText units, SaidBy by, out Stated stated, out string why)
    {
        ArgumentNullException.ThrowIfNull(units);
        why = "";
        stated = default;
        var body = (text ?? "").Trim();
        if (IsNobodyKnows(body))
        {
            stated = body.Length == 0 ? default : Nobody(by, text);
            return true;
        }

        var about = AboutForm().Match(body);
        var orSo = OrSoForm().Match(body);
        var unsure = about.Success || orSo.Success || (body.EndsWith('?') && body.Length > 1);
        body = (orSo.Success ? body[..orSo.Index] : body)[about.Length..].TrimEnd('?').TrimEnd();

        var range = RangeForm().Match(body);
        if (range.Success)
            return TryBetween(range.Groups["low"].Value, range.Groups["high"].Value, text, units, by, out stated, out why);

        if (units.TryRead(body, out why) is not { } value)
            return false;
        stated = new Stated(unsure ? Evenness.About : Evenness.Exact, value, value, by, text);
        return true;
    }

    internal static bool IsNobodyKnows(string body) => body is "" or "?" or "??" or "???" or "-" || body.Equals("unknown", StringComparison.OrdinalIgnoreCase);

    internal static int AboutLength(string body) => AboutForm().Match(body).Length;

    /// <summary>How it is read again: <c>50g</c>, <c>~50g</c>, <c>40g..60g</c>, <c>unknown</c>.</summary>
    internal string Print(QuantityText units, string unit) => Evenness switch
    {
        Evenness.Unknown => "unknown",
        Evenness.Exact => units.Print(First, unit),
        Evenness.About => "~" + units.Print(First, unit),
        Evenness.Between => units.Print(First, unit) + ".." + units.Print(Second, unit),
        _ => throw new InvalidOperationException($"No text for {Evenness}."),
    };

    /// <summary>The ends in SI units, where "about" is widened by an absolute half-width.</summary>
    internal (double Low, double High)? Ends(double aboutHalfWidth) => Evenness switch
    {
        Evenness.Unknown => null,
        Evenness.Exact or Evenness.Between => (First, Second),
        Evenness.About => (First - aboutHalfWidth, First + aboutHalfWidth),
        _ => throw new InvalidOperationException($"No ends for {Evenness}."),
    };

    private static bool TryBetween(string low, string high, string? text, QuantityText units, SaidBy by, out Stated stated, out string why)
    {
        stated = default;
        if (units.TryRead(high, out why) is not { } last)
            return false;
        var unit = UnitForm().Match(high).Value;
        if ((units.TryRead(low, out why) ?? units.TryRead(low + unit, out why)) is not { } first)
            return false;
        if (first > last)
        {
            why = $"'{text}' runs backwards: write the smaller value first.";
            return false;
        }

        why = "";
        stated = Between(first, last, by, text);
        return true;
    }

    private static double Finite(double si) => double.IsFinite(si) ? si : throw new ArgumentOutOfRangeException(nameof(si), si, "Not a finite number.");

    [GeneratedRegex(@"^(~|about\b|approx\.?|approximately\b|ca\.?(?=[\s\d])|circa\b|around\b|roughly\b|±)\s*", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex AboutForm();

    [GeneratedRegex(@"\s*(\bor so|(?<=\s)approx\.?|(?<=\s)circa|(?<=\s)approximately|(?<=\s)roughly)\z", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex OrSoForm();

    [GeneratedRegex(@"^(between\s+)?(?<low>[+-]?[0-9][^-–—]*?|[+-]?[.,][0-9][^-–—]*?)\s*(\.\.|–|—|-|\bto\b|\band\b)\s*(?<high>[+-]?[0-9.,].*)\z", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex RangeForm();

    [GeneratedRegex(@"(?<=[0-9.,]\s*)[^0-9.,\s].*\z", RegexOptions.CultureInvariant)]
    private static partial Regex UnitForm();
}
