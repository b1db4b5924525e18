namespace Undercroft.Shell.Web;

/// <summary>Who is here in this request, and what they may do. The door fills it in before any page is made.</summary>
public sealed class Visit
{
    /// <summary>As history calls the device or program; null where nobody said.</summary>
    public string? Name { get; set; }

    /// <summary>What it may do.</summary>
    public Scope May { get; set; }

    /// <summary>The ID of a device that signed in; null on this machine itself, where nobody signs in.</summary>
    public string? Device { get; set; }

    /// <summary>True where this server lets nobody in without sign-in.</summary>
    public bool Guarded { get; set; }

    /// <summary>True where ounces, degrees Fahrenheit and inches are wanted.</summary>
    public bool Imperial { get; set; }

    /// <summary>A computed sentence in the units that are wanted. Not for what a person wrote or a source prints.</summary>
    public string Said(string? text) => text is null ? "" : Imperial ? OwnUnits.Imperial(text) : text;

    /// <summary>Turns an amount into the units that are wanted; null where nothing is to be turned.</summary>
    public Func<string, string>? Units => Imperial ? OwnUnits.Imperial : null;

    /// <summary>The same, begun as a sentence.</summary>
    public string Sentence(string? text) => Said(text) is { Length: > 0 } said ? char.ToUpperInvariant(said[0]) + said[1..] : "";

    /// <summary>An example of what may be typed, in the units that are wanted.</summary>
    public string? Example(string? text) => text is not null && Imperial ? OwnUnits.ImperialExample(text) : text;

    /// <summary>A chart in the units that are wanted.</summary>
    public BandSeries Drawn(BandSeries series) => Imperial ? OwnUnits.Imperial(series) : series;

    /// <summary>What a bare number means on a scale.</summary>
    public string MassUnit => Imperial ? "oz" : "g";

    /// <summary>A mass as typed beside <see cref="MassUnit"/>: a bare number is one of that unit.</summary>
    public string? Massed(string? typed) => WithUnit(typed, MassUnit);

    /// <summary>What a bare number means on a ruler.</summary>
    public string LengthUnit => Imperial ? "in" : "mm";

    /// <summary>A length as typed beside <see cref="LengthUnit"/>.</summary>
    public string? Lengthed(string? typed) => WithUnit(typed, LengthUnit);

    /// <summary>What stands in a field with a unit beside it: a bare number has that unit, anything else is left as it is.</summary>
    public static string? WithUnit(string? typed, string unit) =>
        typed?.Trim() is { Length: > 0 } plain && plain.All(sign => char.IsAsciiDigit(sign) || sign is '.' or ',') ? plain + unit : typed;
}
