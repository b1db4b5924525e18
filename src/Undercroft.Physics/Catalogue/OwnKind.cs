using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Catalogue;

/// <summary>The gasket of a container: what gas has to creep through.</summary>
/// <param name="Material">Code of a material of the catalogue.</param>
/// <param name="Perimeter">Once round.</param>
/// <param name="Height">Of the section that shows to the room.</param>
/// <param name="Way">From inside to outside.</param>
public sealed record Gasket(string Material, Length Perimeter, Length Height, Length Way)
{
    private const double FallbackEnergy = 30e3; // J/mol, assumption: between the rubbers

    /// <summary>Its path, wide: no gasket of this sort was measured.</summary>
    /// <param name="name">What a person would point at.</param>
    /// <exception cref="InvalidOperationException">A material of which no source knows the oxygen.</exception>
    public PathKind Path(string name)
    {
        if (Materials.Find(Material, Permeant.Oxygen) is not { } known)
            throw new InvalidOperationException($"No material is called {Material}.");
        Conductance Through(Permeant permeant)
        {
            var value = Value(permeant, known);
            var energy = (Materials.FindEnergy(Material, permeant) ?? Materials.FindEnergy(Material, Permeant.Oxygen))?.JoulesPerMole ?? FallbackEnergy;
            return GasketConductance.Of(value.Middle, value.Test, energy, Perimeter, Height, Way);
        }

        return new(
            new(name, Through(Permeant.Water), Through(Permeant.Oxygen), Through(Permeant.CarbonDioxide), Through(Permeant.Nitrogen)), Spread.Closure.Own, Spread.Closure.Shared,
            new(Provenance.Derived, known.Evidence.Source, $"{known.Name} through a section that the keeper measured; {Other()}: no gasket of this sort was measured whole"));
    }

    private MaterialValue Value(Permeant permeant, MaterialValue oxygen) => Materials.FindOrGuess(Material, permeant)
        ?? oxygen with { Permeant = permeant, Low = oxygen.Low * WaterOverOxygen, High = oxygen.High * WaterOverOxygen };

    // Where no source knows a rubber's water: as in natural rubber, a hundred times its oxygen (from memory of both).
    private const double WaterOverOxygen = 100;

    private string Other() => Materials.Find(Material, Permeant.Water) is { } water ? $"water {water.Evidence.Tag}" : "water assumed a hundred times oxygen";
}

/// <summary>A container kind of a person's own: like a known one, with what is known better put in its place.</summary>
public static class OwnKind
{
    private static readonly Evidence Entered = new(Provenance.Derived, "", "entered by the keeper");

    /// <summary>Builds it. Whatever is not given stays as in the kind that it is like.</summary>
    /// <param name="like">Where failures, habits and the rest come from.</param>
    /// <param name="code">Of the new kind; not one that exists.</param>
    /// <param name="name">For people.</param>
    /// <param name="capacity">Inner volume; null for the other kind's.</param>
    /// <param name="wall">Film and how much of it; takes the place of film and wall paths. A rigid container may have one too.</param>
    /// <param name="gasket">Takes the place of the closure, that is of every path that is neither film nor wall.</param>
    /// <exception cref="ArgumentException">The code is taken, or nothing at all is said.</exception>
    public static ContainerKind Of(ContainerKind like, string code, string name, Volume? capacity, (FilmKind Film, Area Area)? wall, Gasket? gasket)
    {
        ArgumentNullException.ThrowIfNull(like);
        if (ContainerKinds.Find(code) is not null)
            throw new ArgumentException($"The code {code} is taken.", nameof(code));
        List<PathKind> paths = [];
        if (wall is var (film, area))
            paths.Add(film.Over("film", area));
        paths.AddRange(like.Paths.Where(path => IsWall(path) ? wall is null : gasket is null));
        if (gasket is not null)
            paths.Add(gasket.Path("gasket"));
        var kind = like with
        {
            Code = code,
            Name = name,
            Capacity = capacity ?? like.Capacity,
            CapacityEvidence = capacity is null ? like.CapacityEvidence : Entered,
            Paths = paths,
            TypicalTare = null,
            TareEvidence = null,
            UsualContents = null,
            Cost = null,
            FactorySealed = false,
        };
        return kind.Flexible ? ContainerKinds.Soft(kind) : kind;
    }

    private static bool IsWall(PathKind path) =>
        path.Median.Name.StartsWith("film", StringComparison.Ordinal) || path.Median.Name is "wall" or "pouch around the tin";
}
