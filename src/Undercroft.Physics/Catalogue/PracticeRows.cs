namespace Undercroft.Physics.Catalogue;

/// <summary>What a practice row was used for.</summary>
public enum PracticeUse
{
    /// <summary>A closure was adjusted until the middle of the row came out: agreement is no evidence.</summary>
    Fitted,

    /// <summary>A rate of failure was chosen so that half have let go within the row: agreement is no evidence.</summary>
    FittedFailure,

    /// <summary>Not used for any value: agreement or miss is evidence.</summary>
    Check,
}

/// <summary>How long practice trusts a container: a statement of the trade without leaf, mass, room or limit.</summary>
/// <param name="Pack">As the trade says it.</param>
/// <param name="KindCode">The container kind it stands for.</param>
/// <param name="LowDays">Lower end.</param>
/// <param name="HighDays">Upper end, or null for "and more".</param>
/// <param name="Use">Fit or check.</param>
/// <param name="Evidence">Common practice.</param>
public sealed record PracticeRow(string Pack, string KindCode, double LowDays, double? HighDays, PracticeUse Use, Evidence Evidence);

/// <summary>The holding times of the trade, and which of them the catalogue was fitted to.</summary>
/// <remarks>
/// Read, since the rows do not say, as the usual contents of mixed leaf going from 18 to 13 % (wet basis) at 20 °C and 45 % humidity. The middle of a row is geometric.
/// </remarks>
public static class PracticeRows
{
    private const double Week = 7;
    private const double Month = 30;
    private const double Year = 365.25;

    /// <summary>Moisture on wet basis, percent, at the start of a row as read.</summary>
    public const double FromPercent = 18;

    /// <summary>Moisture at its end.</summary>
    public const double ToPercent = 13;

    /// <summary>Room temperature as read, °C.</summary>
    public const double Celsius = 20;

    /// <summary>Room humidity as read, percent.</summary>
    public const double RoomPercent = 45;

    /// <summary>All rows.</summary>
    public static IReadOnlyList<PracticeRow> All { get; } =
    [
        Row("leather pouch", "pouch-leather", 2, 2, PracticeUse.Fitted),
        Row("sandwich bag", "bag-sandwich", Week, 2 * Week, PracticeUse.Check),
        Row("freezer zip bag", "bag-zip", Month, 2 * Month, PracticeUse.Fitted),
        Row("shop bulk bag", "bag-bulk", 3 * Week, 3 * Month, PracticeUse.Check),
        Row("opened tin, plastic snap lid", "tin-opened", 2 * Week, 8 * Week, PracticeUse.Fitted),
        Row("wire-bail jar, rubber ring", "clamp-500-rubber", 3 * Month, 2 * Year, PracticeUse.FittedFailure),
        Row("rectangular vacuum tin", "tin-rectangular-50", Year, 5 * Year, PracticeUse.FittedFailure),
        Row("stretch film on a tin, renewed", "tin-slip-wrapped", Year, 3 * Year, PracticeUse.FittedFailure),
        Row("nylon/polyethylene vacuum pouch", "pouch-vacuum", 2 * Year, 3 * Year, PracticeUse.Check),
        Row("metallised polyester pouch", "pouch-metallised", 5 * Year, 10 * Year, PracticeUse.Check),
        Row("foil laminate, wide heat seal", "pouch-foil", 10 * Year, 30 * Year, PracticeUse.Check),
        Row("canning jar, new lid", "jar-473", 20 * Year, null, PracticeUse.Check),
        Row("round pull-lid tin, lacquered", "tin-pull-50", 10 * Year, 20 * Year, PracticeUse.Check),
    ];

    private static PracticeRow Row(string pack, string code, double low, double? high, PracticeUse use) => new(
        pack, code, low, high, use, new(Provenance.CommonPractice, "", "no leaf, mass, room or limit stated"));
}
