using System.Text.Json.Serialization;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Amounts;

/// <summary>A mass as somebody stated it.</summary>
/// <param name="Si">As stated, in SI units.</param>
/// <remarks>Assumption: "about" means ±10 %. The default value is unknown.</remarks>
[JsonConverter(typeof(StatedJson.OfMass))]
public readonly record struct StatedMass(Stated Si)
{
    /// <summary>Nobody knows.</summary>
    public static StatedMass Unknown => default;

    /// <summary>False where nobody knows.</summary>
    public bool IsKnown => Si.IsKnown;

    /// <summary>Who says so.</summary>
    public SaidBy By => Si.By;

    /// <summary>The words as entered, if any.</summary>
    public string? Text => Si.Text;

    /// <summary>The lowest that it is likely to be; null where unknown.</summary>
    public Mass? Low => Ends is var (low, _) ? new Mass(low) : null;

    /// <summary>The highest that it is likely to be; null where unknown.</summary>
    public Mass? High => Ends is var (_, high) ? new Mass(high) : null;

    /// <summary>The middle; null where unknown.</summary>
    public Mass? Mid => Ends is var (low, high) ? new Mass((low + high) / 2) : null;

    private (double Low, double High)? Ends => Si.Ends(0.1 * Math.Abs(Si.First));

    /// <summary>Exactly so much.</summary>
    public static StatedMass Exactly(Mass value, SaidBy by = SaidBy.Unstated) => new(Stated.Exactly(value.Kilograms, by));

    /// <summary>About so much.</summary>
    public static StatedMass About(Mass value, SaidBy by = SaidBy.Unstated) => new(Stated.About(value.Kilograms, by));

    /// <summary>Somewhere between two.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The lower end is above the upper.</exception>
    public static StatedMass Between(Mass low, Mass high, SaidBy by = SaidBy.Unstated) => new(Stated.Between(low.Kilograms, high.Kilograms, by));

    /// <summary>Reads what was entered, such as <c>50g</c>, <c>~50g</c>, <c>40g..60g</c>, <c>unknown</c>.</summary>
    public static bool TryParse(string? text, SaidBy by, out StatedMass value, out string why)
    {
        var read = Stated.TryParse(text, QuantityText.OfMass, by, out var stated, out why);
        value = new StatedMass(stated);
        return read;
    }

    /// <summary>Reads what was entered.</summary>
    /// <exception cref="Refusal">It is none; the message says what to write.</exception>
    public static StatedMass Parse(string? text, SaidBy by = SaidBy.Unstated) => TryParse(text, by, out var value, out var why) ? value : throw new Refusal(why);

    /// <summary>In a form that is read again.</summary>
    public override string ToString() => Si.Print(QuantityText.OfMass, "g");
}
