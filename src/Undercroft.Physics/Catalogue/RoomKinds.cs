namespace Undercroft.Physics.Catalogue;

/// <summary>A figure of a room with its doubt.</summary>
/// <param name="Middle">Best guess.</param>
/// <param name="Sd">Standard deviation over such rooms.</param>
public readonly record struct RoomFigure(double Middle, double Sd);

/// <summary>A sort of place and the year one expects there, as long as nobody has put a logger there.</summary>
/// <param name="Code">Short stable name, such as <c>cupboard</c>.</param>
/// <param name="Name">For people.</param>
/// <param name="MeanCelsius">Mean of the year, °C.</param>
/// <param name="AnnualSwing">Half of summer minus winter, K.</param>
/// <param name="DailySwing">Half of afternoon minus night, K.</param>
/// <param name="MeanHumidity">Mean relative humidity, percent.</param>
/// <param name="AnnualHumiditySwing">Half of summer minus winter, points: above zero where summer is moister, as in heated rooms, below where winter is.</param>
/// <param name="Evidence">Common practice or assumption.</param>
public sealed record RoomKind(
    string Code, string Name, RoomFigure MeanCelsius, RoomFigure AnnualSwing, RoomFigure DailySwing, RoomFigure MeanHumidity, RoomFigure AnnualHumiditySwing, Evidence Evidence);

/// <summary>Sorts of places in a temperate climate. Rough guesses with wide spreads: a logger over a fortnight beats them all.</summary>
public static class RoomKinds
{
    private static readonly Evidence Guess = new(Provenance.Assumption, "", "temperate climate; 18 to 24 °C indoors and 15 to 21 °C as the usual aim are common practice, swings and humidity are guessed");

    private static readonly Dictionary<string, string> Aliases = new(StringComparer.OrdinalIgnoreCase)
    {
        ["closet"] = "cupboard",
        ["inner-closet"] = "cupboard",
        ["inner closet"] = "cupboard",
        ["wardrobe"] = "cupboard",
        ["conditioned-room"] = "living-room",
        ["conditioned room"] = "living-room",
        ["loft"] = "attic",
        ["outhouse"] = "shed",
    };

    /// <summary>All of them.</summary>
    public static IReadOnlyList<RoomKind> All { get; } =
    [
        Of("living-room", "heated living room", (21.5, 1.2), (2, 0.8), (1.5, 0.6), (45, 6), (10, 4)),
        Of("bedroom", "bedroom, little heated", (19.5, 1.5), (3, 1), (1.5, 0.6), (50, 6), (8, 4)),
        Of("cupboard", "cupboard inside the dwelling", (20.5, 1.2), (2.5, 1), (0.5, 0.3), (47, 6), (9, 4)),
        Of("basement", "heated or half-heated basement", (17.5, 1.8), (3, 1), (0.4, 0.2), (58, 8), (8, 5)),
        Of("cellar", "unheated cellar below ground", (13.5, 2), (4, 1.2), (0.3, 0.2), (72, 9), (5, 6)),
        Of("attic", "attic under the roof", (18, 2.5), (9, 2.5), (5, 2), (52, 8), (-4, 6)),
        Of("garage", "garage", (13, 2.5), (7.5, 2), (2.5, 1), (66, 9), (-5, 5)),
        Of("shed", "shed or outhouse", (11.5, 2.5), (8, 2), (5, 2), (74, 8), (-6, 5)),
        Of("cooled-cabinet", "cooled cabinet", (15, 1.5), (0.5, 0.4), (0.5, 0.3), (62, 9), (3, 4)),
        Of("unknown", "somewhere indoors", (20, 2), (3, 1.5), (1, 0.7), (50, 8), (7, 6)),
    ];

    /// <summary>The kind of a code or of a usual name such as closet, upper or lower case, or null.</summary>
    public static RoomKind? Find(string code)
    {
        var wanted = Aliases.GetValueOrDefault(code.Trim(), code.Trim());
        return All.FirstOrDefault(kind => string.Equals(kind.Code, wanted, StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>The codes most like a mistyped one.</summary>
    public static IReadOnlyList<string> Nearest(string code, int count = 3) => Quantities.Nearest.To(code, All.Select(kind => kind.Code).Concat(Aliases.Keys), count);

    private static RoomKind Of(
        string code, string name, (double, double) mean, (double, double) annual, (double, double) daily, (double, double) humidity, (double, double) humiditySwing) =>
        new(code, name, Figure(mean), Figure(annual), Figure(daily), Figure(humidity), Figure(humiditySwing), Guess);

    private static RoomFigure Figure((double Middle, double Sd) pair) => new(pair.Middle, pair.Sd);
}
