using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Ids;

/// <summary>
/// The short ID of a package, lot or place: four characters of Crockford's base 32 and a check character, easy to read off a label, to type and to say.
/// </summary>
/// <remarks>
/// <para>All kinds share one sequence, so an ID names one thing in a cellar. The sequence is a counter passed through a fixed permutation of 20 bits, so neighbours look
/// different and a slip of the pen seldom gives another living ID. The check character is the payload modulo 37 as Crockford defines it; payloads whose check would be one of
/// <c>* ~ $ = U</c> are never allotted. That leaves about 907 000 of 1 048 576 payloads.</para>
/// <para>The default value is not a valid ID of anything allotted by accident: it prints as <c>00000</c> and the permutation never starts there.</para>
/// </remarks>
[JsonConverter(typeof(IdJson.OfAnything))]
public readonly record struct ShortId : IComparable<ShortId>
{
    private const string Alphabet = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
    private const uint Payloads = 1u << 20;
    private const uint Factor = 0x9E375;
    private const uint Offset = 0x5C2B1;
    private static readonly uint Inverse = InverseOf(Factor);
    private readonly uint payload;

    private ShortId(uint payload) => this.payload = payload;

    /// <summary>Where in the sequence it stands; later ones are larger.</summary>
    public int Counter => (int)Unscramble(payload);

    /// <summary>The IDs from a place in the sequence on, in order.</summary>
    /// <param name="counter">The first place that may be used.</param>
    public static IEnumerable<ShortId> From(int counter)
    {
        for (var n = (uint)Math.Max(counter, 0); n < Payloads; n++)
        {
            var payload = Scramble(n);
            if (payload % 37 < 32 && payload != 0)
                yield return new ShortId(payload);
        }
    }

    /// <summary>Reads an ID: lower case, spaces, hyphens, and I, L or O for 1, 1 and 0 are forgiven.</summary>
    /// <param name="text">What was typed or scanned.</param>
    /// <param name="id">The ID.</param>
    /// <param name="why">What is wrong with it; empty where it was read.</param>
    public static bool TryParse(string? text, out ShortId id, out string why)
    {
        id = default;
        why = "";
        if (text is { Length: 5 } && TryAsPrinted(text, out id))
            return true;
        var plain = Plain(text);
        if (plain.Length != 5 || plain.Any(symbol => !Alphabet.Contains(symbol, StringComparison.Ordinal)))
        {
            why = $"'{text}' is not an ID: an ID has five letters or digits, such as {From(0).First()}.";
            return false;
        }

        var payload = plain[..4].Aggregate(0u, (sum, symbol) => (sum * 32) + (uint)Alphabet.IndexOf(symbol, StringComparison.Ordinal));
        if (payload % 37 != Alphabet.IndexOf(plain[4], StringComparison.Ordinal))
        {
            why = $"'{text}' is mistyped: its last character does not fit the four before it.";
            return false;
        }

        why = "";
        id = new ShortId(payload);
        return true;
    }

    /// <summary>Reads an ID exactly as it is printed; the quick way for the many in a ledger.</summary>
    internal static bool TryAsPrinted(ReadOnlySpan<char> text, out ShortId id)
    {
        id = default;
        var payload = 0u;
        for (var i = 0; i < 4; i++)
        {
            var digit = Alphabet.IndexOf(text[i], StringComparison.Ordinal);
            if (digit < 0)
                return false;
            payload = (payload * 32) + (uint)digit;
        }

        if (payload % 37 >= 32 || Alphabet[(int)(payload % 37)] != text[4])
            return false;
        id = new ShortId(payload);
        return true;
    }

    /// <summary>What was typed, in the alphabet as far as it goes.</summary>
    public static string Plain(string? text) => string.Concat((text ?? "").ToUpperInvariant().Where(symbol => !char.IsWhiteSpace(symbol) && symbol != '-').Select(symbol => symbol switch
    {
        'O' => '0',
        'I' or 'L' => '1',
        _ => symbol,
    }));

    /// <summary>Five characters.</summary>
    public override string ToString()
    {
        var check = payload % 37;
        return string.Create(5, (payload, check), static (span, it) =>
        {
            var value = it.payload;
            for (var i = 3; i >= 0; i--, value /= 32)
                span[i] = Alphabet[(int)(value % 32)];
            span[4] = (Alphabet + "*~$=U")[(int)it.check];
        });
    }

    /// <inheritdoc/>
    public int CompareTo(ShortId other) => Counter.CompareTo(other.Counter);

    /// <summary>Allotted earlier.</summary>
    public static bool operator <(ShortId left, ShortId right) => left.CompareTo(right) < 0;

    /// <summary>Allotted later.</summary>
    public static bool operator >(ShortId left, ShortId right) => left.CompareTo(right) > 0;

    /// <summary>Not allotted later.</summary>
    public static bool operator <=(ShortId left, ShortId right) => left.CompareTo(right) <= 0;

    /// <summary>Not allotted earlier.</summary>
    public static bool operator >=(ShortId left, ShortId right) => left.CompareTo(right) >= 0;

    private static uint Scramble(uint n)
    {
        var x = ((n * Factor) + Offset) % Payloads;
        x ^= x >> 10;
        x = x * Factor % Payloads;
        return x ^ (x >> 10);
    }

    private static uint Unscramble(uint x)
    {
        x ^= x >> 10;
        x = x * Inverse % Payloads;
        x ^= x >> 10;
        return (x - Offset) * Inverse % Payloads;
    }

    private static uint InverseOf(uint odd)
    {
        var inverse = odd;
        for (var i = 0; i < 5; i++)
            inverse *= 2 - (odd * inverse);
        return inverse;
    }
}
