using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue;

/// <summary>Round tins: double-seamed with a pull-tab, with a friction lid, or opened with a plastic lid.</summary>
internal static class TinKinds
{
    /// <summary>Water conductance of the plastic lid on an opened tin at 23 °C, mol/(s·Pa): fitted to "2 to 8 weeks" (28 days) for 50 g, see <see cref="PracticeRows"/>.</summary>
    public const double SnapLidWater = 1.4444e-10;

    private static readonly Evidence Placeholder = new(Provenance.Assumption, "", "typical outer size; measure your own");

    public static IReadOnlyList<ContainerKind> All { get; } =
    [
        Pull("tin-pull-50", 50, 190),
        Pull("tin-pull-100", 100, 340),
        Friction("tin-friction-57", 57, 270),
        Opened("tin-opened", 50, 190),
    ];

    private static ContainerKind Pull(string code, double grams, double millilitres) => new(
        code,
        FormattableString.Invariant($"double-seamed tin with pull-tab, {grams:0} g"),
        Vessel.Tin,
        Volume.FromMillilitres(millilitres),
        Placeholder,
        TypicalTare: null,
        Flexible: false,
        ResidualPressure: null,
        [Leaks.Fine("double seam", 1e-9, "no leak was seen through double seams [Wisk1987]; 1e-9 Pa·m³/s of air, the lower end of the fine class of [AstmF2391], is a guess on the leaky side"), Leaks.Compound(314)],
        Leaks.Failing(0.005, 0.005, Leaks.OpenedSeam, "5 in 1000 with a bad seam or score, 5 in 1000 a year by rust or a knock: nobody has counted"),
        Habits.SealedTin,
        "10 to 20 years, lacquered and dry outside",
        "A bulging tin may be under pressure: point it away, protect the eyes, open slowly outdoors. The torn rim cuts.")
    {
        FactorySealed = true,
        UsualContents = Mass.FromGrams(grams),
    };

    private static ContainerKind Friction(string code, double grams, double millilitres) => new(
        code,
        FormattableString.Invariant($"tall round tin with friction lid under vacuum, {grams:0} g"),
        Vessel.Tin,
        Volume.FromMillilitres(millilitres),
        Placeholder,
        TypicalTare: null,
        Flexible: false,
        ResidualPressure: Pressure.FromKilopascals(50),
        [Leaks.Fine("friction lid", 1e-8, "holds a vacuum for months, so no channel can be open: between the fine and ultra-fine classes of [AstmF2391]; nobody has measured one"), Leaks.Compound(230)],
        Leaks.Failing(0.02, 0.03, Leaks.LiftedLid(230), "2 in 100 at the maker's, 3 in 100 a year by rust or heat lifting the lid: nobody has counted"),
        Habits.SealedTin,
        "10 to 20 years while the lid holds",
        "Prise with a coin, not a blade; a lid under pressure jumps: point it away.")
    {
        FactorySealed = true,
        UsualContents = Mass.FromGrams(grams),
    };

    private static ContainerKind Opened(string code, double grams, double millilitres) => new(
        code,
        "opened tin with plastic snap lid",
        Vessel.Tin,
        Volume.FromMillilitres(millilitres),
        Placeholder,
        TypicalTare: null,
        Flexible: false,
        ResidualPressure: null,
        [
            Leaks.Channel("snap lid", SnapLidWater, new(Provenance.Derived, "",
                "fitted to the practice row \"opened tin, plastic snap lid: 2 to 8 weeks\", middle 28 days, 50 g from 18 to 13 % at 20 °C and 45 %", Fitted: true)),
        ],
        Leaks.Failing(0.1, 0.1, Leaks.Gap("lid ajar", 150, 500, 3, new(Provenance.Assumption, "", "half of the rim stands half a millimetre off")), "often put back crooked: nobody has counted"),
        Habits.Opened,
        "2 to 8 weeks",
        "The torn rim cuts.")
    {
        UsualContents = Mass.FromGrams(grams),
    };
}
