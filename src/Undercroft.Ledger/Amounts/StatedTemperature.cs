using System.Text.Json.Serialization;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Amounts;

/// <summary>A temperature as somebody stated it.</summary>
/// <param name="Si">As stated, in SI units.</param>
/// <remarks>Assumption: "about" means ±2 K. The default value is unknown.</remarks>
[JsonConverter(typeof(StatedJson.OfTemperature))]
public readonly record struct StatedTemperature(Stated Si)
{
    /// <summary>Nobody knows.</summary>
    public static StatedTemperature Unknown => default;

    /// <summary>False where nobody knows.</summary>
    public bool IsKnown => Si.IsKnown;

    /// <summary>Who says so.</summary>
    public SaidBy By => Si.By;

    /// <summary>The words as entered, if any.</summary>
    public string? Text => Si.Text;

    /// <summary>The lowest that it is likely to be; null where unknown.</summary>
    public Temperature? Low => Ends is var (low, _) ? new Temperature(low) : null;

    /// <summary>The highest that it is likely to be; null where unknown.</summary>
    public Temperature? High => Ends is var (_, high) ? new Temperature(high) : null;

    /// <summary>The middle; null where unknown.</summary>
    public Temperature? Mid => Ends is var (low, high) ? new Temperature((low + high) / 2) : null;

    private (double Low, double High)? Ends => Si.Ends(2);

    /// <summary>Exactly so much.</summary>
    public static StatedTemperature Exactly(Temperature value, SaidBy by = SaidBy.Unstated) => new(Stated.Exactly(value.Kelvin, by));

    /// <summary>About so much.</summary>
    public static StatedTemperature About(Temperature value, SaidBy by = SaidBy.Unstated) => new(Stated.About(value.Kelvin, by));

    /// <summary>Somewhere between two.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The lower end is above the upper.</exception>
    public static StatedTemperature Between(Temperature low, Temperature high, SaidBy by = SaidBy.Unstated) => new(Stated.Between(low.Kelvin, high.Kelvin, by));

    /// <summary>Reads what was entered, such as <c>20C</c>, <c>~20C</c>, <c>16C..22C</c>, <c>unknown</c>.</summary>
    public static bool TryParse(string? text, SaidBy by, out StatedTemperature value, out string why)
    {
        var read = Stated.TryParse(text, QuantityText.OfTemperature, by, out var stated, out why);
        value = new StatedTemperature(stated);
        return read;
    }

    /// <summary>Reads what was entered.</summary>
    /// <exception cref="Refusal">It is none; the message says what to write.</exception>
    public static StatedTemperature Parse(string? text, SaidBy by = SaidBy.Unstated) => TryParse(text, by, out var value, out var why) ? value : throw new Refusal(why);

    /// <summary>In a form that is read again.</summary>
    public override string ToString() => Si.Print(QuantityText.OfTemperature, "C");
}
