using System.Globalization;
using System.Numerics;

namespace Undercroft.Physics.Quantities;

/// <summary>A fraction of whole numbers: what a person wrote, and what a unit stands for, before the one rounding to a double.</summary>
/// <param name="Numerator">Any whole number.</param>
/// <param name="Denominator">Above zero.</param>
internal readonly record struct ExactNumber(BigInteger Numerator, BigInteger Denominator)
{
    /// <summary>Digits kept of a quotient before a last digit says whether anything followed.</summary>
    private const int QuotientDigits = 40;

    /// <summary>From digits with a point and perhaps an exponent, or null where the exponent is absurd.</summary>
    public static ExactNumber? Parse(string digits)
    {
        var mark = digits.IndexOfAny(['e', 'E']);
        var exponent = 0;
        if (mark >= 0 && (!int.TryParse(digits.AsSpan(mark + 1), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out exponent) || Math.Abs(exponent) > 400))
            return null;
        var mantissa = mark >= 0 ? digits[..mark] : digits;
        var point = mantissa.IndexOf('.', StringComparison.Ordinal);
        if (point >= 0)
        {
            exponent -= mantissa.Length - point - 1;
            mantissa = mantissa.Remove(point, 1);
        }

        var whole = BigInteger.Parse(mantissa, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);
        return exponent >= 0 ? new(whole * BigInteger.Pow(10, exponent), 1) : new(whole, BigInteger.Pow(10, -exponent));
    }

    /// <summary>Exactly the decimal.</summary>
    public static ExactNumber Of(decimal value)
    {
        var scale = (decimal.GetBits(value)[3] >> 16) & 0xFF;
        var factor = BigInteger.Pow(10, scale);
        return new(new BigInteger(decimal.Truncate(value)) * factor + new BigInteger((value - decimal.Truncate(value)) * (decimal)factor), factor);
    }

    /// <summary>Exactly the finite double.</summary>
    public static ExactNumber Of(double value)
    {
        var bits = BitConverter.DoubleToInt64Bits(value);
        var exponent = (int)((bits >> 52) & 0x7FF);
        BigInteger mantissa = bits & 0xFFFFFFFFFFFFF;
        if (exponent == 0)
            exponent = 1;
        else
            mantissa += BigInteger.One << 52;
        if (value < 0)
            mantissa = -mantissa;
        var shift = exponent - 1075;
        return shift >= 0 ? new(mantissa << shift, 1) : new(mantissa, BigInteger.One << -shift);
    }

    public static ExactNumber operator +(ExactNumber left, ExactNumber right) =>
        new((left.Numerator * right.Denominator) + (right.Numerator * left.Denominator), left.Denominator * right.Denominator);

    public static ExactNumber operator -(ExactNumber left, ExactNumber right) => left + new ExactNumber(-right.Numerator, right.Denominator);

    public static ExactNumber operator *(ExactNumber left, ExactNumber right) =>
        new(left.Numerator * right.Numerator, left.Denominator * right.Denominator);

    /// <summary>Divided by a positive number.</summary>
    public static ExactNumber operator /(ExactNumber left, ExactNumber right) =>
        new(left.Numerator * right.Denominator, left.Denominator * right.Numerator);

    /// <summary>The nearest double; infinite where none is large enough.</summary>
    public double ToDouble()
    {
        if (Numerator.IsZero)
            return 0;
        var (digits, exponent, rest) = Digits(QuotientDigits);
        return double.Parse(
            string.Create(CultureInfo.InvariantCulture, $"{(Numerator.Sign < 0 ? "-" : "")}{digits}{(rest ? "1" : "0")}E{exponent - 1}"), CultureInfo.InvariantCulture);
    }

    /// <summary>Rounded to a number of significant digits, written without exponent where that stays short.</summary>
    public string ToText(int significant)
    {
        if (Numerator.IsZero)
            return "0";
        var (digits, exponent, _) = Digits(significant + 1);
        var rounded = (digits + 5) / 10; // half away from zero, decided on one digit more: any reading is checked by who asked
        exponent += 1;
        while (!rounded.IsZero && (rounded % 10).IsZero)
        {
            rounded /= 10;
            exponent++;
        }

        var text = rounded.ToString(CultureInfo.InvariantCulture);
        var sign = Numerator.Sign < 0 ? "-" : "";
        var point = text.Length + exponent; // digits before the point
        return point switch
        {
            > 15 or < -4 => string.Create(CultureInfo.InvariantCulture, $"{sign}{text[..1]}{(text.Length > 1 ? "." : "")}{text[1..]}E{point - 1}"),
            <= 0 => sign + "0." + new string('0', -point) + text,
            _ when point >= text.Length => sign + text + new string('0', point - text.Length),
            _ => sign + text[..point] + "." + text[point..],
        };
    }

    /// <summary>|value| = digits · 10^exponent with a given count of digits, cut off; and whether anything was cut.</summary>
    private (BigInteger Digits, int Exponent, bool Cut) Digits(int count)
    {
        var top = BigInteger.Abs(Numerator);
        var exponent = (int)Math.Floor(BigInteger.Log10(top) - BigInteger.Log10(Denominator)) - count + 1;
        while (true)
        {
            var (scaledTop, scaledBottom) = exponent >= 0
                ? (top, Denominator * BigInteger.Pow(10, exponent))
                : (top * BigInteger.Pow(10, -exponent), Denominator);
            var quotient = BigInteger.DivRem(scaledTop, scaledBottom, out var remainder);
            if (quotient >= BigInteger.Pow(10, count)) // the logarithm was a hair low
                exponent++;
            else if (quotient < BigInteger.Pow(10, count - 1)) // or a hair high
                exponent--;
            else
                return (quotient, exponent, !remainder.IsZero);
        }
    }
}
