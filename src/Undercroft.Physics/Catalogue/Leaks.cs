using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Catalogue;

/// <summary>Ways out that nobody has measured, as path kinds with the wide spread that this calls for.</summary>
internal static class Leaks
{
    private static Evidence Assumed(string remark) => new(Provenance.Assumption, "", remark);

    /// <summary>A closure whose water conductance is known or guessed, in mol/(s·Pa) at 23 °C, taken as fine air channels of 20 µm.</summary>
    public static PathKind Channel(string name, double water, Evidence evidence) =>
        new(ChannelLeak.FromWater(name, water, Length.FromMicrometres(20)), Spread.Closure.Own, Spread.Closure.Shared, evidence);

    /// <summary>A gap between lid and rim.</summary>
    public static PathKind Gap(string name, double perimeterMillimetres, double gapMicrometres, double wayMillimetres, Evidence evidence) => new(
        SlipGap.Path(name, Length.FromMillimetres(perimeterMillimetres), Length.FromMicrometres(gapMicrometres), Length.FromMillimetres(wayMillimetres)),
        Spread.Closure.Own, Spread.Closure.Shared, evidence);

    /// <summary>A tight seam, by its leak class, Pa·m³/s of air.</summary>
    public static PathKind Fine(string name, double rate, string remark) =>
        new(LeakClass.Path(name, rate), Spread.Closure.Own, Spread.Closure.Shared, Assumed(remark));

    /// <summary>Sealing compound in a seam: 10 µm of rubber on a way of 2.5 mm around the rim.</summary>
    public static PathKind Compound(double perimeterMillimetres)
    {
        var perimeter = Length.FromMillimetres(perimeterMillimetres);
        Conductance Through(Permeant permeant)
        {
            var value = Materials.Find("natural-rubber", permeant)!;
            var energy = Materials.FindEnergy("natural-rubber", permeant)?.JoulesPerMole ?? 20e3;
            return GasketConductance.Of(value.Middle, value.Test, energy, perimeter, Length.FromMicrometres(10), Length.FromMillimetres(2.5));
        }

        return new(
            new("seam compound", Through(Permeant.Water), Through(Permeant.Oxygen), Through(Permeant.CarbonDioxide), Through(Permeant.Nitrogen)),
            Spread.Closure.Own, Spread.Closure.Shared,
            Assumed("the compound is taken as natural rubber, 10 µm by 2.5 mm: nobody has measured it"));
    }

    /// <summary>A lid that does not seal: a gap of 20 µm over half the rim, 3 mm long.</summary>
    public static PathKind LiftedLid(double perimeterMillimetres) =>
        Gap("lifted lid", perimeterMillimetres / 2, 20, 3, Assumed("gap of 20 µm over half the rim: a strand of leaf, a nick, a slack band"));

    /// <summary>A seam opened by rust or a dent.</summary>
    public static PathKind OpenedSeam { get; } = new(
        Hole("opened seam", 300, 0.3), Spread.Closure.Own, Spread.Closure.Shared, Assumed("one hole of 0.3 mm through sheet of 0.3 mm: rust or a dent"));

    /// <summary>A heat seal with a crease or a strand in it.</summary>
    public static PathKind CreasedSeal { get; } =
        Gap("creased seal", 20, 200, 8, Assumed("2 cm of the seal stand open by 0.2 mm across its 8 mm: a fold or a strand in it"));

    /// <summary>A zip that is not closed over a finger's width.</summary>
    public static PathKind OpenZip { get; } = Gap("open zip", 20, 500, 5, Assumed("2 cm of the zip stand open by half a millimetre"));

    /// <summary>Torn film or split wrap.</summary>
    public static PathKind SplitWrap(PathKind bare) => bare with
    {
        Median = bare.Median with { Name = "split wrap" },
        Evidence = Assumed("the wrap no longer helps: as the bare lid"),
    };

    private static ExchangePath Hole(string name, double micrometres, double millimetres)
    {
        var (d, l) = (Length.FromMicrometres(micrometres), Length.FromMillimetres(millimetres));
        var at = new Temperature(Conductance.ReferenceKelvin);
        Conductance Of(Permeant permeant) => new(Pinhole.Conductance(permeant, d, l, at), DiffusivityInAir.EquivalentEnergy);
        return new(name, Of(Permeant.Water), Of(Permeant.Oxygen), Of(Permeant.CarbonDioxide), Of(Permeant.Nitrogen), ViscousFlow.CapillaryPerPascal(d, l));
    }

    /// <summary>How often such closures are bad.</summary>
    public static ClosureFailure Failing(double atSealing, double perYear, PathKind whenFailed, string remark, Provenance provenance = Provenance.Assumption, bool fitted = false) =>
        new(atSealing, perYear, whenFailed, new Evidence(provenance, "", remark, fitted));
}
