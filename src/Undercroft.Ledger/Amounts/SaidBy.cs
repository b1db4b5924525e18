using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Amounts;

/// <summary>Who or what says so.</summary>
[JsonConverter(typeof(CodeWordJson<SaidBy>))]
public enum SaidBy
{
    /// <summary>Nobody wrote down where it comes from.</summary>
    Unstated,

    /// <summary>Printed on the container.</summary>
    Label,

    /// <summary>On a receipt or invoice.</summary>
    Receipt,

    /// <summary>Measured by the person.</summary>
    Weighed,

    /// <summary>Remembered.</summary>
    Memory,

    /// <summary>Guessed.</summary>
    Guess,
}

/// <summary>How evenly an amount is known.</summary>
[JsonConverter(typeof(CodeWordJson<Evenness>))]
public enum Evenness
{
    /// <summary>Nobody knows.</summary>
    Unknown,

    /// <summary>As exact as amounts of its sort are.</summary>
    Exact,

    /// <summary>Somebody said "about".</summary>
    About,

    /// <summary>Somewhere between two values.</summary>
    Between,
}
