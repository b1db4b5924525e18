using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Catalogue;

/// <summary>Tins whose lid is no seal: slip lids bare and wrapped, unlined and paper-walled tins, rectangular vacuum tins, a tin inside a pouch.</summary>
internal static class LooseTinKinds
{
    private const double LidPerimeter = Math.PI * 100;
    private const double StretchRatio = 2;

    /// <summary>Share of the bare lid's exchange that gets past a wrap, through creases and the overlap.</summary>
    public const double PastTheWrap = 0.03;

    private static readonly Evidence Placeholder = new(Provenance.Assumption, "", "typical outer size; measure your own");

    private static readonly PathKind BareLid = Leaks.Gap("slip lid", LidPerimeter, 50, 10, new(Provenance.Assumption, "",
        "a gap of 50 µm under a lid of 100 mm that overlaps by 10 mm: nobody has measured one, weigh the tin"));

    public static IReadOnlyList<ContainerKind> All { get; } =
    [
        Slip("tin-slip", "round tin with slip lid, bare", [BareLid],
            Leaks.Failing(0.05, 0.02, Leaks.Gap("dented lid", 100, 200, 5, new(Provenance.Assumption, "", "a third of the rim stands 0.2 mm off")), "a dented or crooked lid: nobody has counted"),
            Habits.LooseTin, "weeks to months; wrap it or jar it"),
        Slip("tin-slip-wrapped", "round tin with slip lid, seam wrapped with stretch film", Wrapped(),
            Leaks.Failing(0.05, 0.3, Leaks.SplitWrap(BareLid),
                "the film relaxes, yellows and splits: rate from \"renew after 1 to 3 years\" of practice", Provenance.Derived, fitted: true),
            Habits.FilmedTin, "1 to 3 years per wrap"),
        Slip("tin-unlined", "unlined or paper-lined steel tin with slip lid, wrapped", Wrapped(),
            Leaks.Failing(0.05, 0.4, Leaks.SplitWrap(BareLid), "wrap as above, and rust from inside with acidic or moist leaf: nobody has counted"),
            Habits.SealedTin with { FirstAfterDays = 30, ThenEveryDays = 182 }, "under 5 years, sooner if acidic or damp"),
        Paper(),
        Rectangular(),
        InPouch(),
    ];

    private static PathKind[] Wrapped()
    {
        // The band of film over the seam, 10 mm free width, drawn to twice its length, behind the gap; beside it what gets past the wrap.
        var band = Films.Stretch.Path("band", new Area(LidPerimeter * 1e-3 * 10e-3)).Times(StretchFactor.At(StretchRatio));
        var through = InSeries("wrap over the seam", BareLid.Median, band);
        var past = BareLid.Median.Times(PastTheWrap) with { Name = "gap past the wrap" };
        return
        [
            new(through, Films.Stretch.Spread.Own, Films.Stretch.Spread.Shared, new(Provenance.FromMemory, "StretchFilmSheet",
                "film rates from memory, thinned by a draw of 2, over 31 cm² of band")),
            new(past, Spread.Closure.Own, Spread.Closure.Shared, new(Provenance.Assumption, "",
                "3 % of the bare lid's exchange gets past creases and overlap: nobody has measured it")),
        ];
    }

    private static ContainerKind Slip(string code, string name, IReadOnlyList<PathKind> paths, ClosureFailure failure, InspectionHabit habit, string horizon) => new(
        code, name, Vessel.Tin, Volume.FromMillilitres(200), Placeholder, TypicalTare: null, Flexible: false, ResidualPressure: null, paths, failure, habit, horizon,
        code == "tin-slip" ? null : "Film over a rusty tin traps damp: the rust goes on.")
    {
        KeepsFactoryPack = true,
        UsualContents = Mass.FromGrams(50),
    };

    private static ContainerKind Paper()
    {
        var wall = Films.MetallisedPolyester.Path("wall", Area.FromSquareCentimetres(250)).Times(2);
        return new(
            "tin-paper",
            "paper-walled tin with lined wall and metal ends",
            Vessel.Tin,
            Volume.FromMillilitres(270),
            Placeholder,
            TypicalTare: null,
            Flexible: false,
            ResidualPressure: null,
            [
                new(wall, Spread.Closure.Own, Spread.Closure.Shared, new(Provenance.Assumption, "", "the liner is taken as twice a flat metallised laminate, 250 cm²: nobody has measured one")),
                Leaks.Gap("plug lid", 230, 10, 8, new(Provenance.Assumption, "", "a mean gap of 10 µm under the plug lid")),
            ],
            Leaks.Failing(0.05, 0.2, Leaks.LiftedLid(230), "damp softens the wall, ends let go: nobody has counted"),
            Habits.SealedTin with { ThenEveryDays = 182 },
            "under 5 years, sooner in a damp room",
            null)
        {
            FactorySealed = true,
            UsualContents = Mass.FromGrams(50),
        };
    }

    private static ContainerKind Rectangular() => new(
        "tin-rectangular-50",
        "rectangular vacuum tin, 50 g",
        Vessel.Tin,
        Volume.FromMillilitres(180),
        Placeholder,
        TypicalTare: null,
        Flexible: false,
        ResidualPressure: Pressure.FromKilopascals(50),
        [Leaks.Fine("lid seam", 1e-8, "a vacuum that lasts for months: between the fine and ultra-fine classes of [AstmF2391]; nobody has measured one"), Leaks.Compound(360)],
        Leaks.Failing(0.03, 0.25, Leaks.LiftedLid(360),
            "the long sides spring and the seam lifts: rate set so that half have let go within the \"1 to 5 years\" that practice gives such tins", Provenance.Derived, fitted: true),
        Habits.RectangularTin,
        "1 to 5 years, then to glass",
        "A lid under vacuum or pressure can jump: prise slowly, pointed away.")
    {
        FactorySealed = true,
        UsualContents = Mass.FromGrams(50),
    };

    private static ContainerKind InPouch()
    {
        var pouch = Films.NylonPolyethylene.Path("pouch", Area.FromSquareCentimetres(420));
        return new(
            "tin-in-pouch",
            "slip-lid tin, whole, inside a nylon/polyethylene vacuum pouch",
            Vessel.Tin,
            Volume.FromMillilitres(200),
            Placeholder,
            TypicalTare: null,
            Flexible: false,
            ResidualPressure: Pressure.FromKilopascals(20),
            [
                new(InSeries("pouch around the tin", BareLid.Median, pouch), 0.2, 0.35, new(Provenance.Derived, "FitnessU12",
                    "the pouch of the catalogue, 420 cm², behind the bare lid: the pouch decides")),
            ],
            Leaks.Failing(0.08, 0.05, Leaks.SplitWrap(BareLid), "corners of the tin pierce the film: nobody has counted"),
            Habits.VacuumPouch,
            "about 2 years; keeps the tin as bought",
            "A vacuum can crush a thin tin or pull its lid on: stop in time.")
        {
            KeepsFactoryPack = true,
            UsualContents = Mass.FromGrams(50),
            Cost = new(0.2m, 0.6m),
        };
    }

    /// <summary>One way behind the other: resistances add for each gas, and for the whole gas where both pass it.</summary>
    private static ExchangePath InSeries(string name, ExchangePath first, ExchangePath second)
    {
        static Conductance Of(Conductance a, Conductance b)
        {
            var total = 1 / ((1 / a.AtReference) + (1 / b.AtReference));
            // d ln G/d(1/T) of a series is the mean of the energies, weighted by resistance.
            return new(total, ((a.ActivationEnergy / a.AtReference) + (b.ActivationEnergy / b.AtReference)) * total);
        }

        var viscous = first.Viscous > 0 && second.Viscous > 0 ? 1 / ((1 / first.Viscous) + (1 / second.Viscous)) : 0;
        return new(name, Of(first.Water, second.Water), Of(first.Oxygen, second.Oxygen), Of(first.CarbonDioxide, second.CarbonDioxide), Of(first.Nitrogen, second.Nitrogen), viscous);
    }
}
