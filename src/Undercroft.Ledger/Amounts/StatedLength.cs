using System.Text.Json.Serialization;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Amounts;

/// <summary>A length or altitude as somebody stated it.</summary>
/// <param name="Si">As stated, in SI units.</param>
/// <remarks>Assumption: "about" means ±10 %. The default value is unknown.</remarks>
[JsonConverter(typeof(StatedJson.OfLength))]
public readonly record struct StatedLength(Stated Si)
{
    /// <summary>Nobody knows.</summary>
    public static StatedLength Unknown => default;

    /// <summary>False where nobody knows.</summary>
    public bool IsKnown => Si.IsKnown;

    /// <summary>Who says so.</summary>
    public SaidBy By => Si.By;

    /// <summary>The words as entered, if any.</summary>
    public string? Text => Si.Text;

    /// <summary>The lowest that it is likely to be; null where unknown.</summary>
    public Length? Low => Ends is var (low, _) ? new Length(low) : null;

    /// <summary>The highest that it is likely to be; null where unknown.</summary>
    public Length? High => Ends is var (_, high) ? new Length(high) : null;

    /// <summary>The middle; null where unknown.</summary>
    public Length? Mid => Ends is var (low, high) ? new Length((low + high) / 2) : null;

    private (double Low, double High)? Ends => Si.Ends(0.1 * Math.Abs(Si.First));

    /// <summary>Exactly so much.</summary>
    public static StatedLength Exactly(Length value, SaidBy by = SaidBy.Unstated) => new(Stated.Exactly(value.Metres, by));

    /// <summary>About so much.</summary>
    public static StatedLength About(Length value, SaidBy by = SaidBy.Unstated) => new(Stated.About(value.Metres, by));

    /// <summary>Somewhere between two.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The lower end is above the upper.</exception>
    public static StatedLength Between(Length low, Length high, SaidBy by = SaidBy.Unstated) => new(Stated.Between(low.Metres, high.Metres, by));

    /// <summary>Reads what was entered, such as <c>500m</c>, <c>~500m</c>, <c>400m..600m</c>, <c>unknown</c>.</summary>
    public static bool TryParse(string? text, SaidBy by, out StatedLength value, out string why)
    {
        var read = Stated.TryParse(text, QuantityText.OfLength, by, out var stated, out why);
        value = new StatedLength(stated);
        return read;
    }

    /// <summary>Reads what was entered.</summary>
    /// <exception cref="Refusal">It is none; the message says what to write.</exception>
    public static StatedLength Parse(string? text, SaidBy by = SaidBy.Unstated) => TryParse(text, by, out var value, out var why) ? value : throw new Refusal(why);

    /// <summary>In a form that is read again.</summary>
    public override string ToString() => Si.Print(QuantityText.OfLength, "m");
}
