using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Catalogue;

/// <summary>What a finished film passes of one gas.</summary>
/// <param name="Permeance">At the temperature of the test.</param>
/// <param name="Test">That temperature.</param>
/// <param name="ActivationEnergy">Of permeance, J/mol.</param>
/// <param name="Evidence">Of the permeance; the remark names the energy's source where it is another.</param>
public sealed record FilmValue(Permeance Permeance, Temperature Test, double ActivationEnergy, Evidence Evidence);

/// <summary>A finished film or laminate: what a data sheet describes.</summary>
/// <param name="Code">Short stable name, such as <c>ldpe-70</c>.</param>
/// <param name="Name">For people.</param>
/// <param name="Water">For water vapour.</param>
/// <param name="Oxygen">For oxygen.</param>
/// <param name="CarbonDioxide">For carbon dioxide.</param>
/// <param name="Nitrogen">For nitrogen.</param>
/// <param name="Spread">Of the permeances.</param>
/// <param name="DefectLimited">True for foil and metallised film: the series law does not hold and flexing counts.</param>
public sealed record FilmKind(
    string Code, string Name, FilmValue Water, FilmValue Oxygen, FilmValue CarbonDioxide, FilmValue Nitrogen, Spread Spread, bool DefectLimited)
{
    /// <summary>The value for one gas.</summary>
    public FilmValue For(Permeant permeant) => permeant switch
    {
        Permeant.Water => Water,
        Permeant.Oxygen => Oxygen,
        Permeant.CarbonDioxide => CarbonDioxide,
        Permeant.Nitrogen => Nitrogen,
        _ => throw new ArgumentOutOfRangeException(nameof(permeant), permeant, "Unknown permeant."),
    };

    /// <summary>The conductances of an area of it.</summary>
    /// <param name="name">What a person would point at.</param>
    /// <param name="area">Facing the room.</param>
    public ExchangePath Path(string name, Area area) => new(name, On(Water, area), On(Oxygen, area), On(CarbonDioxide, area), On(Nitrogen, area));

    /// <summary>The path of an area of it, with its spread and evidence.</summary>
    public PathKind Over(string name, Area area) => new(Path(name, area), Spread.Own, Spread.Shared, Water.Evidence with
    {
        Remark = $"{Name}, {area.SquareCentimetres.ToString("0", System.Globalization.CultureInfo.InvariantCulture)} cm² (size assumed). Water: {Water.Evidence.Remark}. Oxygen: {Oxygen.Evidence.Tag}, {Oxygen.Evidence.Remark}.",
    });

    private static Conductance On(FilmValue value, Area area) => FilmConductance.Of(value.Permeance, value.Test, value.ActivationEnergy, area);
}
