using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Catalogue;

/// <summary>Heat-sealed pouches, and the leather pouch of the pocket.</summary>
internal static class PouchKinds
{
    /// <summary>Water conductance of a leather pouch at 23 °C, mol/(s·Pa): fitted to "about 2 days" for 50 g, see <see cref="PracticeRows"/>.</summary>
    public const double LeatherWater = 2.0222e-9;

    /// <summary>How much more than flat film a filled and handled metallised or foil pouch passes: below the 2.7 to 11 that 240 machine flexes did to coated film.</summary>
    public const double Creasing = 2;

    private static readonly Evidence Size = new(Provenance.Assumption, "", "a pouch for 100 g, 340 cm² a side; taut at this volume. Measure your own");
    private static readonly Area BothSides = Area.FromSquareCentimetres(680);

    public static IReadOnlyList<ContainerKind> All { get; } =
    [
        Of("pouch-vacuum", "nylon/polyethylene vacuum pouch", Films.NylonPolyethylene.Over("film", BothSides), Pressure.FromKilopascals(20),
            Leaks.Failing(0.08, 0.05, Leaks.CreasedSeal, "8 in 100 with a crease or strand in the seal, 5 in 100 a year by corners and flexing: nobody has counted"),
            Habits.VacuumPouch, "about 2 years; the edges crisp while it still feels tight", "Sharp edges of plug pierce the film. The vacuum does not sterilise: leaf must be dry enough first.",
            presses: true, seeThrough: true),
        Of("pouch-metallised", "metallised polyester/polyethylene pouch", Creased(Films.MetallisedPolyester), null,
            Leaks.Failing(0.05, 0.03, Leaks.CreasedSeal, "5 in 100 with a crease or strand in the seal, 3 in 100 a year by flexing: nobody has counted"),
            Habits.FoilPouch, "5 to 10 years, limited by the seal", null, presses: false, seeThrough: false),
        Of("pouch-foil", "foil-laminate pouch with a wide heat seal", Creased(Films.FoilLaminate), null,
            Leaks.Failing(0.04, 0.02, Leaks.CreasedSeal, "4 in 100 with a crease or strand in the seal, 2 in 100 a year by pinholes in folds: nobody has counted"),
            Habits.FoilPouch, "10 to 30 years, limited by seal and pinholes", "Never into a microwave oven: foil sparks.", presses: false, seeThrough: false),
        Leather(),
    ];

    private static PathKind Creased(FilmKind film)
    {
        var flat = film.Over("film and creases", BothSides);
        var creased = flat.Median.Times(Creasing);
        // Twice the heat seal: both edges of the sealing layer creep, 500 mm of seal 8 mm wide over 50 µm of polyethylene.
        var water = Materials.Find("ldpe", Permeant.Water)!;
        var seal = HeatSealConductance.Of(water.Middle, Length.FromMillimetres(500), Length.FromMicrometres(50), Length.FromMillimetres(8))
            * ArrheniusFactor.Between(new(Conductance.ReferenceKelvin), water.Test, Materials.FindEnergy("ldpe", Permeant.Water)!.JoulesPerMole);
        var oxygen = Materials.Find("ldpe", Permeant.Oxygen)!;
        var sealOxygen = HeatSealConductance.Of(oxygen.Middle, Length.FromMillimetres(500), Length.FromMicrometres(50), Length.FromMillimetres(8));
        creased = creased with
        {
            Water = creased.Water with { AtReference = creased.Water.AtReference + seal },
            Oxygen = creased.Oxygen with { AtReference = creased.Oxygen.AtReference + sealOxygen },
            CarbonDioxide = creased.CarbonDioxide with { AtReference = creased.CarbonDioxide.AtReference + (sealOxygen * 5.26) },
            Nitrogen = creased.Nitrogen with { AtReference = creased.Nitrogen.AtReference + (sealOxygen * 0.34) },
        };
        var spread = Spread.OfTotal(1.0, 0.6);
        return new(creased, spread.Own, spread.Shared, flat.Evidence with
        {
            Provenance = Provenance.Assumption,
            Source = "",
            Remark = $"twice the flat film for filling and folding (assumption), plus creep along 500 mm of sound seal. Flat [SupplierSheets]: {flat.Evidence.Remark}",
        });
    }

    private static ContainerKind Of(
        string code, string name, PathKind film, Pressure? residual, ClosureFailure failure, InspectionHabit habit, string horizon, string? caution, bool presses, bool seeThrough) => new(
        code, name, Vessel.Pouch, Volume.FromMillilitres(600), Size, TypicalTare: null, Flexible: true, residual, [film], failure, habit, horizon, caution)
    {
        SeeThrough = seeThrough,
        PressesLeaf = presses,
        UsualContents = Mass.FromGrams(100),
        Cost = new(0.2m, 0.6m),
    };

    private static ContainerKind Leather() => new(
        "pouch-leather",
        "leather pouch of the pocket",
        Vessel.Bag,
        Volume.FromMillilitres(300),
        new(Provenance.Assumption, "", "holds some 50 g"),
        TypicalTare: null,
        Flexible: true,
        ResidualPressure: null,
        [
            Leaks.Channel("leather and flap", LeatherWater, new(Provenance.Derived, "",
                "fitted to the practice row \"leather pouch: about 2 days\", 50 g from 18 to 13 % at 20 °C and 45 %", Fitted: true)),
        ],
        Leaks.Failing(0, 0, Leaks.OpenZip, "it never seals: nothing to fail"),
        Habits.Pocket,
        "about 2 days",
        null)
    {
        UsualContents = Mass.FromGrams(50),
    };
}
