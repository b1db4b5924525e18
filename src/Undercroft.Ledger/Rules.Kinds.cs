using Undercroft.Ledger.Events;

namespace Undercroft.Ledger;

public static partial class Rules
{
    private const int LongestCode = 40;

    private static void PossibleFilm(Fact.FilmDescribed film)
    {
        Code(film.Code);
        Said(film.Name, "A film needs a name.");
        NotNegative(film.WaterGPerM2Day, "A water-vapour rate");
        NotNegative(film.OxygenCm3PerM2DayAtm, "An oxygen rate");
        Warmth(film.WaterTest.Kelvin);
        Warmth(film.OxygenTest.Kelvin);
        Share(film.WaterTestHumidity.Fraction, film.WaterTestHumidity.Fraction, "The humidity of a test");
        if (!(film.WaterTestHumidity.Fraction > 0))
            throw new Refusal("A test without humidity drives no water through a film. Give the climate that the data sheet names, such as 38C/90%.");
    }

    private static void PossibleKind(Fact.ContainerDescribed kind)
    {
        Code(kind.Code);
        Said(kind.Name, "A container kind needs a name.");
        Said(kind.Like, "A container kind needs another one that it is like: its failures and habits come from there.");
        Positive(kind.Capacity.Si, "The capacity");
        Positive(kind.Tare.Si, "The tare");
        Positive(kind.UsualContents.Si, "What usually goes in");
        if (kind.Film is { } wall)
        {
            Said(wall.Film, "A wall needs the code of its film.");
            Positive(wall.AreaM2, "The area of a wall");
        }

        if (kind.Gasket is { } gasket)
        {
            Said(gasket.Material, "A gasket needs its material.");
            Positive(gasket.Perimeter.Metres, "The perimeter of a gasket");
            Positive(gasket.Height.Metres, "The height of a gasket");
            Positive(gasket.Way.Metres, "The way through a gasket");
        }
    }

    private static void Code(string code)
    {
        if (string.IsNullOrEmpty(code) || code.Length > LongestCode || code.Any(letter => !char.IsAsciiLetterOrDigit(letter) && letter != '-'))
            throw new Refusal($"'{code}' is no code: write letters, digits and hyphens, such as my-tin-200, at most 40 of them.");
    }

    private static void NotNegative(double value, string what)
    {
        if (!(value >= 0 && double.IsFinite(value)))
            throw new Refusal($"{what} is not negative. Write what the data sheet prints.");
    }

    /// <summary>True where a line uses a kind or film that another one described.</summary>
    private static bool Uses(Fact later, Fact described) => described switch
    {
        Fact.FilmDescribed film => later is Fact.ContainerDescribed { Film: { } wall } && Same(wall.Film, film.Code),
        Fact.ContainerDescribed kind => later switch
        {
            Fact.PackagesAdded added => Same(added.Container.Kind, kind.Code),
            Fact.PackageRepacked repacked => Same(repacked.Container.Kind, kind.Code),
            Fact.ContainerStated stated => Same(stated.Container.Kind, kind.Code),
            Fact.ContainerDescribed other => Same(other.Like, kind.Code),
            _ => false,
        },
        _ => false,
    };

    private static bool Same(string? a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}
