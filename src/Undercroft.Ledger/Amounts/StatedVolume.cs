using System.Text.Json.Serialization;
using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger.Amounts;

/// <summary>A volume as somebody stated it.</summary>
/// <param name="Si">As stated, in SI units.</param>
/// <remarks>Assumption: "about" means ±10 %. The default value is unknown.</remarks>
[JsonConverter(typeof(StatedJson.OfVolume))]
public readonly record struct StatedVolume(Stated Si)
{
    /// <summary>Nobody knows.</summary>
    public static StatedVolume Unknown => default;

    /// <summary>False where nobody knows.</summary>
    public bool IsKnown => Si.IsKnown;

    /// <summary>Who says so.</summary>
    public SaidBy By => Si.By;

    /// <summary>The words as entered, if any.</summary>
    public string? Text => Si.Text;

    /// <summary>The lowest that it is likely to be; null where unknown.</summary>
    public Volume? Low => Ends is var (low, _) ? new Volume(low) : null;

    /// <summary>The highest that it is likely to be; null where unknown.</summary>
    public Volume? High => Ends is var (_, high) ? new Volume(high) : null;

    /// <summary>The middle; null where unknown.</summary>
    public Volume? Mid => Ends is var (low, high) ? new Volume((low + high) / 2) : null;

    private (double Low, double High)? Ends => Si.Ends(0.1 * Math.Abs(Si.First));

    /// <summary>Exactly so much.</summary>
    public static StatedVolume Exactly(Volume value, SaidBy by = SaidBy.Unstated) => new(Stated.Exactly(value.CubicMetres, by));

    /// <summary>About so much.</summary>
    public static StatedVolume About(Volume value, SaidBy by = SaidBy.Unstated) => new(Stated.About(value.CubicMetres, by));

    /// <summary>Somewhere between two.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The lower end is above the upper.</exception>
    public static StatedVolume Between(Volume low, Volume high, SaidBy by = SaidBy.Unstated) => new(Stated.Between(low.CubicMetres, high.CubicMetres, by));

    /// <summary>Reads what was entered, such as <c>473ml</c>, <c>~473ml</c>, <c>400ml..500ml</c>, <c>unknown</c>.</summary>
    public static bool TryParse(string? text, SaidBy by, out StatedVolume value, out string why)
    {
        var read = Stated.TryParse(text, QuantityText.OfVolume, by, out var stated, out why);
        value = new StatedVolume(stated);
        return read;
    }

    /// <summary>Reads what was entered.</summary>
    /// <exception cref="Refusal">It is none; the message says what to write.</exception>
    public static StatedVolume Parse(string? text, SaidBy by = SaidBy.Unstated) => TryParse(text, by, out var value, out var why) ? value : throw new Refusal(why);

    /// <summary>In a form that is read again.</summary>
    public override string ToString() => Si.Print(QuantityText.OfVolume, "ml");
}
