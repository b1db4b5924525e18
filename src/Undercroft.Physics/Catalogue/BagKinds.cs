using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue;

/// <summary>Polyethylene bags. The zip, not the film, decides.</summary>
internal static class BagKinds
{
    /// <summary>Water conductance of a zip of 17 cm at 23 °C, mol/(s·Pa): fitted to "freezer zip: 1 to 2 months" (42 days) for 100 g, see <see cref="PracticeRows"/>.</summary>
    public const double ZipWater = 1.5881e-10;

    private const double FittedZipMillimetres = 170;

    public static IReadOnlyList<ContainerKind> All { get; } =
    [
        Of("bag-zip", "polyethylene zip bag, freezer weight", Films.Polyethylene70, 680, 170, 1000, 100, Habits.Bag, "1 to 2 months"),
        Of("bag-sandwich", "polyethylene sandwich bag with zip", Films.Polyethylene25, 540, 165, 700, 50, Habits.Bag, "1 to 2 weeks"),
        Of("bag-bulk", "shop bulk bag with zip", Films.Polyethylene50, 1200, 200, 2500, 454, Habits.Bulk, "weeks to 3 months"),
    ];

    private static ContainerKind Of(
        string code, string name, FilmKind film, double squareCentimetres, double zipMillimetres, double millilitres, double grams, InspectionHabit habit, string horizon) => new(
        code,
        name,
        Vessel.Bag,
        Volume.FromMillilitres(millilitres),
        new(Provenance.Assumption, "", "taut volume of a bag of this size"),
        TypicalTare: null,
        Flexible: true,
        ResidualPressure: null,
        [film.Over("film", Area.FromSquareCentimetres(squareCentimetres)), Zip(zipMillimetres)],
        Leaks.Failing(0.1, 0.2, Leaks.OpenZip, "one zip in ten is not shut all along, more tire: nobody has counted"),
        habit,
        horizon,
        "Plastic bags smother: keep them from small children and pets.")
    {
        SeeThrough = true,
        UsualContents = Mass.FromGrams(grams),
        Cost = new(0.1m, 0.3m),
    };

    private static PathKind Zip(double millimetres) => Leaks.Channel("zip", ZipWater * millimetres / FittedZipMillimetres, new(
        Provenance.Derived, "",
        "fitted to the practice row \"freezer zip: 1 to 2 months\", middle 42 days, 100 g from 18 to 13 % at 20 °C and 45 %; other bags by length of zip", Fitted: true));
}
