using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue.Sources;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue;

/// <summary>A film as a person copies it from a data sheet, and a container made of it.</summary>
/// <param name="Name">What the person calls it.</param>
/// <param name="WaterGramsPerM2Day">g/(m²·day).</param>
/// <param name="WaterTest">Climate of the water test: without it the rate says nothing.</param>
/// <param name="OxygenCm3PerM2DayAtm">cm³(STP)/(m²·day·atm).</param>
/// <param name="OxygenTest">Temperature of the oxygen test.</param>
/// <param name="DefectLimited">True for foil, metallised and coated films.</param>
public sealed record DataSheet(
    string Name, double WaterGramsPerM2Day, WaterTest WaterTest, double OxygenCm3PerM2DayAtm, Temperature OxygenTest, bool DefectLimited = false)
{
    /// <summary>The film with its spread. What the sheet does not say (energies, carbon dioxide, nitrogen) is assumed, and says so.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A rate negative or not finite, or a test without a difference of humidity.</exception>
    public FilmKind Film()
    {
        var waterEnergy = DefectLimited ? 10e3 : Materials.FindEnergy("ldpe", Permeant.Water)!.JoulesPerMole;
        var gasEnergy = DefectLimited ? 10e3 : Materials.FindEnergy("ldpe", Permeant.Oxygen)!.JoulesPerMole;
        var sheet = new Evidence(Provenance.Derived, "", $"data sheet entered by the keeper for {Name}; energy of {(DefectLimited ? "holes, 10 kJ/mol, assumed" : "polyethylene [Moyls1998]")}");
        var oxygen = Permeance.FromCm3PerM2DayAtm(OxygenCm3PerM2DayAtm);
        var (carbonDioxide, nitrogen) = DefectLimited ? (1.0, 1.0) : (Guesses.CarbonDioxideOverOxygen, Guesses.NitrogenOverOxygen);
        FilmValue Guess(double ratio) => new(
            oxygen * ratio, OxygenTest, gasEnergy, new(Provenance.Assumption, "", FormattableString.Invariant($"{ratio} times oxygen")));
        return new(
            "own", Name,
            new(Permeance.FromGramsPerM2Day(WaterGramsPerM2Day, WaterTest), WaterTest.Temperature, waterEnergy, sheet),
            new(oxygen, OxygenTest, gasEnergy, sheet),
            Guess(carbonDioxide),
            Guess(nitrogen),
            DefectLimited ? Spread.PoorFilm : Spread.OfTotal(0.45, 0.5),
            DefectLimited);
    }

    /// <summary>A container kind of this film: like a known one, with its film replaced and everything else (closure, failure, habits) kept.</summary>
    /// <param name="like">A pouch or bag of the catalogue.</param>
    /// <param name="code">Code of the new kind; not one that exists.</param>
    /// <param name="area">Film facing the room, both sides.</param>
    /// <param name="capacity">Taut volume.</param>
    /// <exception cref="ArgumentException">Not a pouch or bag, or the code is taken.</exception>
    public ContainerKind Container(ContainerKind like, string code, Area area, Volume capacity)
    {
        ArgumentNullException.ThrowIfNull(like);
        if (!like.Flexible)
            throw new ArgumentException($"{like.Name} is not made of film. Start from a pouch or a bag.", nameof(like));
        if (ContainerKinds.Find(code) is not null)
            throw new ArgumentException($"The code {code} is taken.", nameof(code));
        return OwnKind.Of(like, code, Name, capacity, (Film(), area), null);
    }
}
