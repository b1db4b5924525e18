using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue;

/// <summary>How leaf is cut, and how densely it packs.</summary>
/// <param name="Code">Short stable name, such as <c>flake</c>.</param>
/// <param name="Name">For people.</param>
/// <param name="Low">Packed loosely, kg/m³ (the same number in g/l).</param>
/// <param name="Typical">As most people pack it.</param>
/// <param name="High">Pressed until it resists.</param>
/// <param name="Evidence">Common practice.</param>
public sealed record Cut(string Code, string Name, double Low, double Typical, double High, Evidence Evidence)
{
    /// <summary>Leaf that usually goes into a container of this volume.</summary>
    public Mass TypicalIn(Volume capacity) => new(Typical * Cuts.FilledShare * capacity.CubicMetres);

    /// <summary>Least and most that goes in by hand.</summary>
    public (Mass Low, Mass High) RangeIn(Volume capacity) => (new(Low * Cuts.FilledShare * capacity.CubicMetres), new(High * Cuts.FilledShare * capacity.CubicMetres));
}

/// <summary>Cuts with their packed densities. The person's own packings are better: count them.</summary>
public static class Cuts
{
    /// <summary>Share of a container's volume that is filled; the rest is headspace.</summary>
    public const double FilledShare = 0.93;

    private static readonly Evidence Practice = new(Provenance.CommonPractice, "", "agrees with 8 fl oz jars holding 2 to 4 oz by cut, and with 200 kg/m³ for cut tobacco at 13 % [Min1993]");

    /// <summary>All of them, loosest first.</summary>
    public static IReadOnlyList<Cut> All { get; } =
    [
        new("fluffy-ribbon", "fluffy dry ribbon", 150, 180, 220, Practice),
        new("ribbon", "ribbon, lightly pressed", 200, 240, 280, Practice),
        new("broken-flake", "broken flake or pressed ribbon", 280, 350, 450, Practice),
        new("coins", "coins", 300, 380, 460, Practice),
        new("flake", "flake, stacked", 400, 500, 600, Practice),
        new("plug", "plug or cake, cut to fit", 600, 750, 950, Practice),
    ];

    /// <summary>The cut of a code, or null.</summary>
    public static Cut? Find(string code) => All.FirstOrDefault(cut => string.Equals(cut.Code, code.Trim(), StringComparison.OrdinalIgnoreCase));

    /// <summary>The codes most like a mistyped one.</summary>
    public static IReadOnlyList<string> Nearest(string code, int count = 3) => Quantities.Nearest.To(code, All.Select(cut => cut.Code), count);
}
