using System.Collections.Concurrent;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Beliefs;

/// <summary>The container kinds and films that a cellar knows: those of the catalogue and the keeper's own.</summary>
public static class KnownKinds
{
    private static readonly ConcurrentDictionary<(Fact.ContainerDescribed Kind, Fact.FilmDescribed? Film), ContainerKind?> Built = new();

    /// <summary>Every container kind, the catalogue's first.</summary>
    public static IReadOnlyList<ContainerKind> All(Cellar cellar)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        return [.. ContainerKinds.All, .. cellar.OwnContainers.Keys.Order(StringComparer.Ordinal).Select(code => Find(cellar, code)).OfType<ContainerKind>()];
    }

    /// <summary>The kind of a code, or null.</summary>
    public static ContainerKind? Find(Cellar cellar, string code)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(code);
        if (ContainerKinds.Find(code) is { } known)
            return known;
        if (!cellar.OwnContainers.TryGetValue(code.Trim(), out var own))
            return null;
        var film = own.Film is { } wall && cellar.OwnFilms.TryGetValue(wall.Film, out var described) ? described : null;
        return Built.GetOrAdd((own, film), key => Build(cellar, key.Kind));
    }

    /// <summary>The kind of a code.</summary>
    /// <exception cref="Refusal">There is none; the message names the nearest.</exception>
    public static ContainerKind Get(Cellar cellar, string code)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(code);
        return Find(cellar, code) ?? throw new Refusal($"No container kind is called '{code}'. Nearest: {string.Join(", ", NearestTo(cellar, code))}.");
    }

    /// <summary>The codes most like a mistyped one.</summary>
    public static IReadOnlyList<string> NearestTo(Cellar cellar, string code)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        return [.. Nearest.To(code, cellar.OwnContainers.Keys).Concat(ContainerKinds.Nearest(code)).Take(3)];
    }

    /// <summary>The film of a code, the catalogue's or an own one, or null.</summary>
    public static FilmKind? Film(Cellar cellar, string code)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(code);
        return cellar.OwnFilms.TryGetValue(code.Trim(), out var own) ? Of(own)
            : Films.All.FirstOrDefault(film => string.Equals(film.Code, code.Trim(), StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>A film as it was described.</summary>
    public static FilmKind Of(Fact.FilmDescribed film)
    {
        ArgumentNullException.ThrowIfNull(film);
        return new DataSheet(
            film.Name, film.WaterGPerM2Day, new WaterTest(film.WaterTest, film.WaterTestHumidity), film.OxygenCm3PerM2DayAtm, film.OxygenTest, film.DefectLimited).Film() with { Code = film.Code };
    }

    /// <summary>A container kind as it was described, to be checked before it is written.</summary>
    /// <exception cref="Refusal">A kind, film or material that nobody knows, or nothing that sets it apart.</exception>
    public static ContainerKind Of(Cellar cellar, Fact.ContainerDescribed own)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(own);
        if (ContainerKinds.Find(own.Code) is not null || ContainerFamily.Find(own.Code) is not null)
            throw new Refusal($"The code {own.Code} stands for a kind of the catalogue. Take another, such as my-{own.Code}.");
        if (string.Equals(own.Code, own.Like, StringComparison.OrdinalIgnoreCase))
            throw new Refusal($"{own.Code} cannot be like itself. Name a kind of the catalogue.");
        var like = ContainerKinds.Find(own.Like) ?? throw new Refusal($"No container kind of the catalogue is called '{own.Like}'. Nearest: {string.Join(", ", ContainerKinds.Nearest(own.Like))}.");
        if (own is { Capacity.IsKnown: false, Film: null, Gasket: null, Tare.IsKnown: false })
            throw new Refusal($"Nothing sets {own.Code} apart from {own.Like}. Give its capacity, its film with an area, or its gasket.");
        (FilmKind, Area)? wall = own.Film is { } film
            ? (Film(cellar, film.Film) ?? throw new Refusal($"No film is called '{film.Film}'. There are: {string.Join(", ", Films.All.Select(each => each.Code).Concat(cellar.OwnFilms.Keys))}."), new Area(film.AreaM2))
            : null;
        var gasket = own.Gasket is { } ring ? new Gasket(ring.Material, ring.Perimeter, ring.Height, ring.Way) : null;
        if (gasket is not null && Materials.Find(gasket.Material, Permeant.Oxygen) is null)
            throw new Refusal($"No material is called '{gasket.Material}'. Nearest: {string.Join(", ", Materials.Nearest(gasket.Material))}.");
        var kind = OwnKind.Of(like, own.Code, own.Name, own.Capacity.Mid, wall, gasket);
        return kind with
        {
            TypicalTare = own.Tare.Mid,
            TareEvidence = own.Tare.IsKnown ? new(Provenance.Derived, "", "entered by the keeper") : null,
            UsualContents = own.UsualContents.Mid ?? (own.Capacity.IsKnown ? null : like.UsualContents),
            Cost = own.Cost is { } paid ? new PackingCost(paid.Low, paid.High, paid.Currency) : null,
        };
    }

    /// <summary>Null where what it is like has since gone from the catalogue.</summary>
    private static ContainerKind? Build(Cellar cellar, Fact.ContainerDescribed own)
    {
        try
        {
            return Of(cellar, own);
        }
        catch (Refusal)
        {
            return null;
        }
    }
}
