using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue.Sources;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue;

/// <summary>The films and laminates of the catalogue.</summary>
public static class Films
{
    private static readonly Temperature At23 = Temperature.FromCelsius(23);
    private static readonly Temperature At38 = Temperature.FromCelsius(38);

    /// <summary>Polyethylene 25 µm: sandwich bags.</summary>
    public static FilmKind Polyethylene25 { get; } = Polyethylene(25);

    /// <summary>Polyethylene 50 µm: bulk bags.</summary>
    public static FilmKind Polyethylene50 { get; } = Polyethylene(50);

    /// <summary>Polyethylene 70 µm: freezer zip bags.</summary>
    public static FilmKind Polyethylene70 { get; } = Polyethylene(70);

    /// <summary>Nylon outside, polyethylene inside, some 90 µm.</summary>
    public static FilmKind NylonPolyethylene { get; } = NylonLaminate();

    /// <summary>Metallised polyester/polyethylene, measured as a whole, flat.</summary>
    public static FilmKind MetallisedPolyester { get; } = Measured("metallised", "metallised polyester/polyethylene laminate, flat",
        SupplierSheets.MetallisedLaminateOxygen, SupplierSheets.MetallisedLaminateWater, "one measured layer; conditions incomplete");

    /// <summary>Polyester/foil/polyethylene, measured as a whole, flat.</summary>
    public static FilmKind FoilLaminate { get; } = Measured("foil", "polyester/foil/polyethylene laminate, flat",
        SupplierSheets.FoilLaminateOxygen, SupplierSheets.FoilLaminateWater, "printed as \"below\": an upper end taken as the middle");

    /// <summary>Wax–polyolefin stretch film, unstretched.</summary>
    public static FilmKind Stretch { get; } = StretchFilm();

    /// <summary>All of them.</summary>
    public static IReadOnlyList<FilmKind> All { get; } = [Polyethylene25, Polyethylene50, Polyethylene70, NylonPolyethylene, MetallisedPolyester, FoilLaminate, Stretch];

    /// <summary>Polyethylene of any thickness.</summary>
    /// <param name="micrometres">Thickness.</param>
    public static FilmKind Polyethylene(double micrometres)
    {
        var oxygen = Materials.Find("ldpe", Permeant.Oxygen)!;
        var water = Materials.Find("ldpe", Permeant.Water)!;
        var thickness = Length.FromMicrometres(micrometres);
        FilmValue Of(MaterialValue value, Permeant permeant, double ratio, Evidence evidence) =>
            new(value.Middle.Through(thickness) * ratio, value.Test, Materials.FindEnergy("ldpe", permeant)!.JoulesPerMole, evidence);
        return new(
            FormattableString.Invariant($"ldpe-{micrometres}"), FormattableString.Invariant($"polyethylene {micrometres} µm"),
            Of(water, Permeant.Water, 1, new(Provenance.Published, "FitnessU12", "38 °C, 90 %, divided by thickness; energy 26.0 kJ/mol [Moyls1998]")),
            Of(oxygen, Permeant.Oxygen, 1, new(Provenance.Published, "FitnessU12", "23 °C, dry, divided by thickness; energy 36.5 kJ/mol [Moyls1998]")),
            Of(oxygen, Permeant.CarbonDioxide, Moyls1998.CarbonDioxideOverOxygen, new(Provenance.Derived, "Moyls1998", "5.26 times oxygen at 23.2 °C")),
            Of(oxygen, Permeant.Nitrogen, 0.97 / 2.88, new(Provenance.FromMemory, "PolymerHandbook", "0.34 times oxygen")),
            Spread.GoodFilm, DefectLimited: false);
    }

    private static FilmKind NylonLaminate()
    {
        var water = Permeance.FromGramsPerM2Day(FitnessU12.LaminateWater, WaterTest.Temperate);
        var oxygen = Permeance.FromCm3PerM2DayBar(FitnessU12.LaminateOxygen);
        var energy = ArrheniusFactor.EnergyFrom(FitnessU12.LaminateOxygenCold, Temperature.FromCelsius(4), FitnessU12.LaminateOxygen, At23);
        var published = new Evidence(Provenance.Published, "FitnessU12", "slide 22 (ii), 23 °C, 75 % humidity; energy from its own 4 °C value, derived");
        return new("nylon-pe", "nylon/polyethylene laminate, about 90 µm",
            new(water, At23, Materials.FindEnergy("ldpe", Permeant.Water)!.JoulesPerMole,
                new(Provenance.Published, "FitnessU12", "slide 22 (ii), 23 °C, 85 %; film not named there, of this class; energy of polyethylene [Moyls1998]")),
            new(oxygen, At23, energy, published),
            new(Permeance.FromCm3PerM2DayBar(FitnessU12.LaminateCarbonDioxide), At23, Materials.FindEnergy("ldpe", Permeant.CarbonDioxide)!.JoulesPerMole, published),
            new(oxygen * FitnessU12.LaminateNitrogenOverOxygen, At23, energy, new(Provenance.Derived, "FitnessU12", "ratio of slide 22 (i)")),
            Spread.OfTotal(0.4, 0.5), DefectLimited: false);
    }

    private static FilmKind Measured(string code, string name, double oxygen, double water, string remark)
    {
        // Through pinholes and cracks: hardly any growth with warmth is left of the polymer's. 10 kJ/mol lies in the middle of the 0 to 20 of practice.
        const double energy = 10e3;
        var read = new Evidence(Provenance.Published, "SupplierSheets", remark + "; energy 10 kJ/mol assumed");
        var gas = Permeance.FromCm3PerM2DayAtm(oxygen);
        return new(code, name,
            new(Permeance.FromGramsPerM2Day(water, WaterTest.Tropical), At38, energy, read),
            new(gas, At23, energy, read),
            new(gas, At23, energy, new(Provenance.Assumption, "", "as oxygen: holes do not choose")),
            new(gas, At23, energy, new(Provenance.Assumption, "", "as oxygen: holes do not choose")),
            Spread.PoorFilm, DefectLimited: true);
    }

    private static FilmKind StretchFilm()
    {
        var memory = new Evidence(Provenance.FromMemory, "StretchFilmSheet", "unstretched; energies of polyethylene");
        FilmValue Gas(double rate, Permeant permeant, Evidence evidence) =>
            new(Permeance.FromCm3PerM2DayAtm(rate), At23, Materials.FindEnergy("ldpe", permeant)!.JoulesPerMole, evidence);
        return new("stretch", "wax–polyolefin stretch film 127 µm, unstretched",
            new(Permeance.FromGramsPerM2Day(StretchFilmSheet.Water, WaterTest.Tropical), At38, Materials.FindEnergy("ldpe", Permeant.Water)!.JoulesPerMole, memory),
            Gas(StretchFilmSheet.Oxygen, Permeant.Oxygen, memory),
            Gas(StretchFilmSheet.CarbonDioxide, Permeant.CarbonDioxide, memory),
            Gas(StretchFilmSheet.Oxygen / 3, Permeant.Nitrogen, new(Provenance.Assumption, "", "a third of oxygen, as polyethylene")),
            Spread.OfTotal(1.1, 0.5), DefectLimited: false);
    }
}
