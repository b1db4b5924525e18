using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue;

/// <summary>What shares a container with the leaf and holds water too: a humidity pack, a liner of paper or card.</summary>
/// <param name="Code">Short stable name, such as <c>pack-62-8</c>.</param>
/// <param name="Name">For people.</param>
/// <param name="Mass">As it comes.</param>
/// <param name="SetHumidity">Humidity that it holds until it is spent; null for liners, which hold none.</param>
/// <param name="WaterToGive">From as it comes until it is spent; for liners between 65 and 50 % humidity.</param>
/// <param name="WaterToTake">From as it comes until it leaks or fails; for liners the same as to give.</param>
/// <param name="Evidence">What the water rests on.</param>
/// <param name="HumidityEvidence">What the humidity rests on; null for liners.</param>
public sealed record PackKind(
    string Code, string Name, Mass Mass, RelativeHumidity? SetHumidity, Mass WaterToGive, Mass WaterToTake, Evidence Evidence, Evidence? HumidityEvidence)
{
    /// <summary>Months until a steady loss has emptied it: then the drying that it hid begins.</summary>
    /// <param name="lossPerMonth">Water that leaves the container.</param>
    /// <exception cref="ArgumentOutOfRangeException">A loss not above zero.</exception>
    public double MonthsAgainst(Mass lossPerMonth) => lossPerMonth.Kilograms is > 0 and < double.PositiveInfinity
        ? WaterToGive.Kilograms / lossPerMonth.Kilograms
        : throw new ArgumentOutOfRangeException(nameof(lossPerMonth), lossPerMonth.Kilograms, "A loss is above zero.");
}

/// <summary>Humidity packs and liners. Nobody publishes what a pack holds: weigh it new and spent.</summary>
public static class PackKinds
{
    private const double ShareGiven = 0.4; // of a pack's mass as it comes; assumption
    private const double ShareTaken = 0.15; // assumption

    /// <summary>Moisture of wood on dry basis at 20 °C and 65 % humidity, [Simpson1998]: stands for paper and card.</summary>
    public const double WoodAt65 = 0.11996;

    /// <summary>The same at 50 %.</summary>
    public const double WoodAt50 = 0.09271;

    private static readonly Evidence Printed = new(Provenance.CommonPractice, "", "as printed on such packs, some two points either way; a leak pulls it down");

    /// <summary>All of them.</summary>
    public static IReadOnlyList<PackKind> All { get; } =
    [
        Pack("pack-58-60", 60, 58),
        Pack("pack-62-8", 8, 62),
        Pack("pack-62-60", 60, 62),
        Pack("pack-65-60", 60, 65),
        Liner("liner-paper", "paper liner of a tin or jar lid", 1.5),
        Liner("liner-card", "card liner round the wall of a tin", 6),
    ];

    /// <summary>The kind of a code, or null.</summary>
    public static PackKind? Find(string code)
    {
        ArgumentNullException.ThrowIfNull(code);
        return All.FirstOrDefault(kind => string.Equals(kind.Code, code.Trim(), StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>The codes most like a mistyped one.</summary>
    public static IReadOnlyList<string> Nearest(string code, int count = 3) => Quantities.Nearest.To(code, All.Select(kind => kind.Code), count);

    private static PackKind Pack(string code, double grams, double percent) => new(
        code, FormattableString.Invariant($"two-way humidity pack of {grams:0} g, {percent:0} %"), Mass.FromGrams(grams), RelativeHumidity.FromPercent(percent),
        Mass.FromGrams(grams * ShareGiven), Mass.FromGrams(grams * ShareTaken),
        new(Provenance.Assumption, "", "two fifths of its mass to give and a seventh to take: nobody publishes it. Weigh it new and spent"), Printed);

    private static PackKind Liner(string code, string name, double grams) => new(
        code, name, Mass.FromGrams(grams), null, Mass.FromGrams(grams * (WoodAt65 - WoodAt50)), Mass.FromGrams(grams * (WoodAt65 - WoodAt50)),
        new(Provenance.Derived, "Simpson1998", "mass assumed; water between 65 and 50 % as wood at 20 °C: paper and card hold somewhat less"), null);
}
