using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue.Sources;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Catalogue;

/// <summary>Glass jars with a flat lid, a plastisol gasket and a screw band.</summary>
internal static class JarKinds
{
    // Section of the gasket, from which its water conductance is worked out.
    private static readonly Length GasketHeight = Length.FromMillimetres(0.4);
    private static readonly Length GasketWay = Length.FromMillimetres(2.5);

    public static IReadOnlyList<ContainerKind> All { get; } =
    [
        Of("jar-118", 4, 70, null),
        Of("jar-237", 8, 70, 220),
        Of("jar-355", 12, 70, 270),
        Of("jar-473", 16, 70, 320),
        Of("jar-946", 32, 86, 480),
    ];

    /// <summary>The lid seal of a finish of some diameter.</summary>
    public static PathKind LidSeal(double finishMillimetres)
    {
        var perimeter = Length.FromMillimetres(Math.PI * finishMillimetres);
        var crown = Wisk1987.ConductanceOfRim(perimeter);
        var vinyl = Materials.Find("pvc-plasticised", Permeant.Water)!;
        var inOxygen = Materials.Find("pvc-plasticised", Permeant.Oxygen)!.Middle;
        var inCarbonDioxide = Materials.Find("pvc-plasticised", Permeant.CarbonDioxide)!.Middle;
        var waterEnergy = Materials.FindEnergy("pvc", Permeant.Water)!.JoulesPerMole;
        const double gasEnergy = 45e3; // assumption: softer than rigid PVC (56 from memory)
        var path = new ExchangePath(
            "lid seal",
            GasketConductance.Of(vinyl.Middle, vinyl.Test, waterEnergy, perimeter, GasketHeight, GasketWay),
            new(crown, gasEnergy),
            new(crown * inCarbonDioxide.MolMPerM2SPa / inOxygen.MolMPerM2SPa, gasEnergy),
            new(crown, gasEnergy));
        return new(path, Spread.Closure.Own, Spread.Closure.Shared, new(
            Provenance.Derived, "Wisk1987",
            "no lid of this sort has been measured: oxygen and nitrogen of a lined crown scaled by perimeter, range 0.003 to 0.3 ml a day per atmosphere; water from plasticised PVC "
            + "[BiosystemsEngineeringTable11_2] in an assumed gasket section of 0.4 by 2.5 mm"));
    }

    private static ContainerKind Of(string code, double fluidOunces, double finish, double? tareGrams) => new(
        code,
        FormattableString.Invariant($"glass jar {Volume.FromFluidOunces(fluidOunces).Millilitres:0} ml ({fluidOunces:0} fl oz) with flat lid and band"),
        Vessel.Jar,
        Volume.FromFluidOunces(fluidOunces),
        new(Provenance.Derived, "", "nominal fluid ounces; full to the brim some 3 to 8 % more (common practice). Weigh it full of water: 1 g is 1.002 ml at 20 °C"),
        tareGrams is { } grams ? Mass.FromGrams(grams) : null,
        Flexible: false,
        ResidualPressure: null,
        [LidSeal(finish)],
        Leaks.Failing(0.02, 0.004, Leaks.LiftedLid(Math.PI * finish),
            "2 in 100 never close (a strand on the rim, a chip), 4 in 1000 a year let go: nobody has counted"),
        Habits.Jar,
        "20 to 30 years and more, new lid",
        "Never heat a closed jar, do not stack glass; throw leaf away when glass has chipped into it.")
    {
        TareEvidence = tareGrams is null ? null : new(Provenance.CommonPractice, "", "with lid and band, ± 20 %: weigh your own"),
        SeeThrough = true,
        Cost = new(1.2m, 2.5m),
    };
}
