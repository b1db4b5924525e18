namespace Undercroft.Importing.Cells;

/// <summary>How a written amount belongs to the packages of its row.</summary>
public enum Share
{
    /// <summary>Nothing is said.</summary>
    Unsaid,

    /// <summary>Of each package.</summary>
    Each,

    /// <summary>Of all packages of the row together.</summary>
    Total,

    /// <summary>What is left of an opened one.</summary>
    Left,
}

/// <summary>An amount of leaf.</summary>
/// <param name="Grams">The value, or the middle of a range.</param>
/// <param name="LowGrams">Lower end.</param>
/// <param name="HighGrams">Upper end.</param>
/// <param name="About">True where the person wrote about, circa, a question mark.</param>
public readonly record struct Amount(double Grams, double LowGrams, double HighGrams, bool About = false)
{
    /// <summary>One value.</summary>
    public static Amount Of(double grams, bool about = false) => new(grams, grams, grams, about);

    /// <summary>The same share of it.</summary>
    public Amount Over(double parts) => new(Grams / parts, LowGrams / parts, HighGrams / parts, About);
}

/// <summary>So many packages of so much.</summary>
/// <param name="Amount">How much, or null where only the count is written.</param>
/// <param name="Count">How many, or null where no count is written.</param>
/// <param name="Share">How the amount belongs to the packages.</param>
/// <param name="Open">Open or closed where the words say so of just this amount.</param>
public sealed record Portion(Amount? Amount, int? Count, Share Share, bool? Open = null)
{
    /// <summary>True where it is left in each package: <c>16 g each left</c>.</summary>
    public bool Apiece { get; init; }
}

/// <summary>A container as a cell describes it.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Ml">Its volume where one is written.</param>
/// <param name="Count">How many, where the container's own words say so: <c>4 pint jars</c>; 0 where they say several without a number.</param>
/// <param name="Vacuum">Evacuated, as the words say.</param>
/// <param name="Foil">Foil laminate, as the words say.</param>
/// <param name="Zip">With a zip, as the words say.</param>
/// <param name="Words">As it stands in the cell.</param>
public sealed record Vessel(VesselKind Kind, double? Ml, int? Count, bool Vacuum, bool Foil, bool Zip, string Words);

/// <summary>Money as it is written.</summary>
/// <param name="Value">The number.</param>
/// <param name="Currency">ISO 4217 where the cell or its column says so; the sign itself where several countries share it; empty where nothing is said.</param>
/// <param name="Share">Each or total where the words say so.</param>
public sealed record Price(decimal Value, string Currency, Share Share);

/// <summary>A cell that reads two ways.</summary>
/// <param name="Kind">A stable word.</param>
/// <param name="Reason">In words for a person.</param>
/// <param name="Readings">What it may mean: a stable word, words for a person, and the cell as it would read without doubt.</param>
public sealed record CellDoubt(string Kind, string Reason, params IReadOnlyList<(string Code, string Words, string Text)> Readings);

/// <summary>What one cell says.</summary>
public sealed class CellFacts
{
    /// <summary>Amounts with their counts, in the order of the cell.</summary>
    public List<Portion> Portions { get; } = [];

    /// <summary>The container, or null.</summary>
    public Vessel? Vessel { get; set; }

    /// <summary>A count that stands on its own: <c>x3</c>.</summary>
    public int? Count { get; set; }

    /// <summary>The price, or null.</summary>
    public Price? Price { get; set; }

    /// <summary>How many of several are open, closed and no longer there, where the words count them: <c>3 tins, 1 open</c>.</summary>
    public int? OpenOnes { get; set; }

    /// <summary>How many are said to be closed.</summary>
    public int? ClosedOnes { get; set; }

    /// <summary>How many are said to be no longer there.</summary>
    public int? GoneOnes { get; set; }

    /// <summary>True where the words say that it is open.</summary>
    public bool Open { get; set; }

    /// <summary>True where the words say that it is no longer there.</summary>
    public bool Gone { get; set; }

    /// <summary>A number without a unit, or null.</summary>
    public double? Bare { get; set; }

    /// <summary>Text that is none of these, in order.</summary>
    public string Rest { get; set; } = "";

    /// <summary>What could not be decided.</summary>
    public List<CellDoubt> Doubts { get; } = [];
}

/// <summary>What the column says about a cell before it is read.</summary>
/// <param name="GramsPerUnit">Unit of the head, as <c>Weight (oz)</c>; null where it names none.</param>
/// <param name="MlPerUnit">Unit of volume of the head, as <c>Jar (ml)</c>.</param>
/// <param name="IsContainer">True where the column is about containers, so that ounces are fluid.</param>
/// <param name="BareIsCount">True where a number alone counts packages.</param>
/// <param name="Currency">Currency of the head.</param>
/// <param name="CommaIsDecimal">True or false where the column's clear numbers show which mark is the decimal one; null where none does.</param>
public sealed record CellSetting(
    double? GramsPerUnit = null, double? MlPerUnit = null, bool IsContainer = false, bool BareIsCount = false, string? Currency = null, bool? CommaIsDecimal = null)
{
    /// <summary>A cell about which the column says nothing.</summary>
    public static readonly CellSetting Open = new();

    /// <summary>Words in which a lone number counts packages: <c>1 empty</c>.</summary>
    public static readonly CellSetting Remark = new(BareIsCount: true);
}
