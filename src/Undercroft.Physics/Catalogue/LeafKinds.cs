using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue;

/// <summary>Every sort of leaf that the program knows.</summary>
/// <remarks>
/// No fitted isotherm of tobacco with its constants was readable. Two curves are our own fits through three published points each; the other types have one published
/// point or none and borrow the shape. To add one, imitate a line of <see cref="All"/>.
/// </remarks>
public static class LeafKinds
{
    private const double MixtureA = 0.1185;
    private const double MixtureB = 0.66;

    /// <summary>Moisture at which [Kim2004] gives the humidity in balance, wet basis.</summary>
    public const double KimMoisture = 0.13;

    private static readonly Dictionary<string, string> Aliases = new(StringComparer.OrdinalIgnoreCase)
    {
        ["virginia"] = "flue-cured",
        ["turkish"] = "oriental",
        ["latakia"] = "smoke-cured",
        ["kentucky"] = "dark",
        ["perique"] = "dark",
        ["blend"] = "mixture",
        ["unknown"] = "mixture",
    };

    /// <summary>All of them.</summary>
    public static IReadOnlyList<LeafKind> All { get; } =
    [
        new("flue-cured", "flue-cured (Virginia)", new OswinIsotherm(0.1232, 0.748, 2522), 0.12, 1.5, Fitted(
            "three points: 13 % at 57.5 % humidity and 22 °C [Kim2004], 22 % at 0.75 and 31 % at 0.85 [Mutasa1990], all read as wet basis; read as dry basis the curve lies up to 8 points lower when moist")),
        new("burley", "burley (light air-cured)", new OswinIsotherm(0.1141, 0.589, 2358), 0.10, 1.5, Fitted(
            "three points: 13 % at 61.5 % humidity and 22 °C [Kim2004], 18 % at 0.75 and 24 % at 0.85 [Mutasa1990], all read as wet basis")),
        new("mixture", "mixed leaf, or not known", new OswinIsotherm(MixtureA, MixtureB, SorptionShift.TypicalHeat), 0.15, 1.5, new(
            Provenance.Derived, "Kim2004", "rounded between flue-cured and burley")),
        Shifted("oriental", "oriental (sun-cured)", 0.61, 2037, 0.15),
        Shifted("expanded", "expanded leaf", 0.595, 1740, 0.15),
        Shifted("reconstituted", "reconstituted sheet", 0.58, 1428, 0.15),
        Shifted("stem", "expanded stem", 0.525, 2763, 0.15),
        Borrowed("dark", "dark air-cured or fire-cured", "burley", new OswinIsotherm(0.1141, 0.589, 2358), 0.2),
        Borrowed("smoke-cured", "smoke-cured sun-cured leaf", "oriental", ThroughOnePoint(0.61, 2037), 0.2),
        Treated("cavendish", "steamed and sweetened leaf", 0.03),
        Treated("aromatic", "flavoured, humectant-treated blend", 0.06),
    ];

    /// <summary>The kind of a code or of a usual name such as Virginia, upper or lower case, or null.</summary>
    public static LeafKind? Find(string code)
    {
        var wanted = Aliases.GetValueOrDefault(code.Trim(), code.Trim());
        return All.FirstOrDefault(kind => string.Equals(kind.Code, wanted, StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>The codes most like a mistyped one.</summary>
    public static IReadOnlyList<string> Nearest(string code, int count = 3) => Quantities.Nearest.To(code, All.Select(kind => kind.Code).Concat(Aliases.Keys), count);

    private static Evidence Fitted(string remark) => new(Provenance.Derived, "Kim2004", remark, Fitted: true);

    private static LeafKind Shifted(string code, string name, double humidity, double heat, double logSd) => new(code, name, ThroughOnePoint(humidity, heat), logSd, 1.5, new(
        Provenance.Derived, "Kim2004",
        FormattableString.Invariant($"one point only, 13 % at {humidity * 100:0.#} % humidity and 22 °C: the curve of mixed leaf shifted onto it"), Fitted: true));

    private static LeafKind Borrowed(string code, string name, string from, Isotherm curve, double logSd) => new(code, name, curve, logSd, 1.5, new(
        Provenance.Assumption, "", $"no measurement read: taken as {from}"));

    private static LeafKind Treated(string code, string name, double glycerol) => new(
        code, name, HumectantIsotherm.WithGlycerol(new OswinIsotherm(MixtureA, MixtureB, SorptionShift.TypicalHeat), glycerol), 0.2, 1.5, new(
            Provenance.Assumption, "",
            FormattableString.Invariant($"mixed leaf with {glycerol * 100:0} % of dry mass as glycerol, standing for all humectants (practice says 3 to 8 %); sugar of the casing left out")));

    private static OswinIsotherm ThroughOnePoint(double humidity, double heat) =>
        new(Moisture.FromWetBasis(KimMoisture).DryBasis / Math.Pow(humidity / (1 - humidity), MixtureB), MixtureB, heat);
}
