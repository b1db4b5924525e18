using System.Text.Json.Serialization;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Amounts;

/// <summary>A share, humidity or moisture as somebody stated it; 1 is the whole, never percent inside.</summary>
/// <param name="Si">As stated, in SI units.</param>
/// <remarks>Assumption: "about" means ±3 percentage points. The default value is unknown.</remarks>
[JsonConverter(typeof(StatedJson.OfFraction))]
public readonly record struct StatedFraction(Stated Si)
{
    /// <summary>Nobody knows.</summary>
    public static StatedFraction Unknown => default;

    /// <summary>False where nobody knows.</summary>
    public bool IsKnown => Si.IsKnown;

    /// <summary>Who says so.</summary>
    public SaidBy By => Si.By;

    /// <summary>The words as entered, if any.</summary>
    public string? Text => Si.Text;

    /// <summary>The lowest that it is likely to be; null where unknown.</summary>
    public double? Low => Ends?.Low;

    /// <summary>The highest that it is likely to be; null where unknown.</summary>
    public double? High => Ends?.High;

    /// <summary>The middle; null where unknown.</summary>
    public double? Mid => Ends is var (low, high) ? (low + high) / 2 : null;

    private (double Low, double High)? Ends => Si.Ends(0.03);

    /// <summary>Exactly so much.</summary>
    public static StatedFraction Exactly(double value, SaidBy by = SaidBy.Unstated) => new(Stated.Exactly(value, by));

    /// <summary>About so much.</summary>
    public static StatedFraction About(double value, SaidBy by = SaidBy.Unstated) => new(Stated.About(value, by));

    /// <summary>Somewhere between two.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The lower end is above the upper.</exception>
    public static StatedFraction Between(double low, double high, SaidBy by = SaidBy.Unstated) => new(Stated.Between(low, high, by));

    /// <summary>Reads what was entered, such as <c>65%</c>, <c>~65%</c>, <c>45%..60%</c>, <c>unknown</c>.</summary>
    public static bool TryParse(string? text, SaidBy by, out StatedFraction value, out string why)
    {
        var read = Stated.TryParse(text, QuantityText.OfPercent, by, out var stated, out why);
        value = new StatedFraction(stated);
        return read;
    }

    /// <summary>Reads what was entered.</summary>
    /// <exception cref="Refusal">It is none; the message says what to write.</exception>
    public static StatedFraction Parse(string? text, SaidBy by = SaidBy.Unstated) => TryParse(text, by, out var value, out var why) ? value : throw new Refusal(why);

    /// <summary>In a form that is read again.</summary>
    public override string ToString() => Si.Print(QuantityText.OfPercent, "%");
}
