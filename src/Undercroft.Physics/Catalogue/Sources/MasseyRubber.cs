using Undercroft.Physics.Barrier;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>[MasseyRubber], table 86-01: how readily gases pass natural rubber, hydrogen being 100.</summary>
public static class MasseyRubber
{
    private const double Oxygen = 46;
    private const double CarbonDioxide = 260;
    private const double Nitrogen = 17;

    /// <summary>The other gases, from oxygen of [Robb1968] by these ratios.</summary>
    public static IReadOnlyList<MaterialValue> Values { get; } =
    [
        Of(Permeant.CarbonDioxide, CarbonDioxide / Oxygen),
        Of(Permeant.Nitrogen, Nitrogen / Oxygen),
    ];

    private static MaterialValue Of(Permeant permeant, double ratio)
    {
        var oxygen = Robb1968.Values.Single(value => value.Material == "natural-rubber");
        return oxygen with
        {
            Permeant = permeant,
            Low = oxygen.Low * ratio,
            High = oxygen.High * ratio,
            Evidence = new(Provenance.Derived, "", FormattableString.Invariant($"{ratio:0.00} times oxygen of [Robb1968], by the ratios of [MasseyRubber]")),
        };
    }
}
