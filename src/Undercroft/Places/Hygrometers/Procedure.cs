using System.Globalization;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;

namespace Undercroft.Places.Hygrometers;

/// <summary>A salt and what a right hygrometer shows over it.</summary>
/// <param name="Salt">Formula.</param>
/// <param name="Name">In words.</param>
/// <param name="TruePct">At the temperature of the test.</param>
/// <param name="UncertaintyPct">Points, k = 2; null where the source gives none.</param>
/// <param name="Source">Key of the bibliography.</param>
public sealed record SaltShown(string Salt, string Name, double TruePct, double? UncertaintyPct, string Source);

/// <summary>How a hygrometer is checked at home.</summary>
public static class Procedure
{
    /// <summary>What to do, in order. Times and amounts are common practice without a source; the humidities are published.</summary>
    public static IReadOnlyList<string> Steps { get; } =
    [
        "Put a bottle cap of the salt into a small jar that closes tightly, and stir in water by drops until it is wet sand: some salt must stay solid.",
        "Put the hygrometer beside it, not touching, and close the jar. A second thermometer in the jar tells its temperature.",
        "Leave it where nothing warms or cools it: within 1 °C all the time, out of the sun, off the window sill.",
        "Wait: a small sensor 6 hours, a dial with a hair or coil 24 hours. If it still moves, wait as long again.",
        "Read humidity and temperature through the glass, without opening.",
        "For a second point air the hygrometer for an hour in the room, then do the same with a salt at least 20 points away.",
        "Write both down with the day. Check again every year, and after a fall, a soaking or a change of battery.",
    ];

    /// <summary>What to be careful about.</summary>
    public static IReadOnlyList<string> Cautions { get; } =
    [
        "Salts for a check are not food, kitchen salt in such a jar included: label the jar, keep it from children, pets, leaf and food, and wash your hands.",
        "Magnesium chloride and kitchen salt are the mild ones. Lithium chloride, bromides, iodides and nitrates are harmful when swallowed, and ammonium nitrate feeds fire and may be restricted: follow the label and local law.",
        "Brine rusts metal and ruins circuits: the instrument must not touch it, and no open dish belongs in a room with tins.",
    ];

    private static readonly Dictionary<string, string> Names = new()
    {
        ["LiCl"] = "lithium chloride",
        ["MgCl2"] = "magnesium chloride",
        ["K2CO3"] = "potassium carbonate",
        ["Mg(NO3)2"] = "magnesium nitrate",
        ["NaBr"] = "sodium bromide",
        ["NH4NO3"] = "ammonium nitrate",
        ["KI"] = "potassium iodide",
        ["NaCl"] = "kitchen salt without additives",
        ["KCl"] = "potassium chloride",
        ["K2SO4"] = "potassium sulfate",
    };

    /// <summary>The salts that are a reference at a temperature, driest first.</summary>
    public static IReadOnlyList<SaltShown> Salts(Temperature temperature) =>
    [
        .. SaturatedSalts.Names.Where(salt => SaturatedSalts.RangeOf(salt) is var (lowest, highest) && temperature.Celsius >= lowest.Celsius && temperature.Celsius <= highest.Celsius)
            .Select(salt => SaturatedSalts.At(salt, temperature))
            .Select(point => new SaltShown(point.Salt, Names[point.Salt], point.Humidity.Percent, point.Uncertainty?.Percent, point.Source)),
    ];

    /// <summary>True for the two that the steps name.</summary>
    public static bool IsMild(string salt) => salt is "NaCl" or "MgCl2";

    /// <summary>What a right one shows over a salt.</summary>
    public static string Shown(SaltShown salt)
    {
        ArgumentNullException.ThrowIfNull(salt);
        return string.Create(CultureInfo.InvariantCulture, $"{salt.TruePct:0.0} %{(salt.UncertaintyPct is { } points ? $" ± {points:0.0}" : "")}");
    }

    /// <summary>With a capital letter.</summary>
    public static string Capital(string words) => words is { Length: > 0 } ? char.ToUpper(words[0], CultureInfo.InvariantCulture) + words[1..] : "";

    /// <summary>One salt in words.</summary>
    public static string Word(SaltShown salt)
    {
        ArgumentNullException.ThrowIfNull(salt);
        return string.Create(CultureInfo.InvariantCulture, $"{salt.Salt} ({salt.Name}): {Shown(salt)}, published [{salt.Source}]");
    }
}
