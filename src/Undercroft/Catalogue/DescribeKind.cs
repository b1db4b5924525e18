using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Catalogue;

/// <summary>A film of the keeper's own, as typed from its data sheet.</summary>
/// <param name="Code">Short name.</param>
/// <param name="Name">For people; null for the code.</param>
/// <param name="Water">Such as 1.2, g/(m²·day).</param>
/// <param name="WaterTest">Such as 38C/90%.</param>
/// <param name="Oxygen">Such as 2.5, cm³/(m²·day·atm).</param>
/// <param name="OxygenTest">Such as 23C or 23C/0%.</param>
/// <param name="DefectLimited">Foil, metallised or coated.</param>
/// <param name="Note">Where the sheet came from.</param>
public sealed record FilmSheet(string? Code, string? Name, string? Water, string? WaterTest, string? Oxygen, string? OxygenTest, bool DefectLimited, string? Note);

/// <summary>A container kind of the keeper's own, as typed.</summary>
/// <param name="Code">Short name.</param>
/// <param name="Name">For people; null for the code.</param>
/// <param name="Like">A kind of the catalogue.</param>
/// <param name="Capacity">Such as 750ml.</param>
/// <param name="Tare">Empty, with closure.</param>
/// <param name="Film">Code of the film of its wall.</param>
/// <param name="Area">Of that film, such as 700cm2.</param>
/// <param name="Gasket">Material of its gasket.</param>
/// <param name="Perimeter">Of the gasket.</param>
/// <param name="Height">Of its section.</param>
/// <param name="Way">From inside to outside.</param>
/// <param name="Usual">How much leaf usually goes in.</param>
/// <param name="Cost">Of packing one.</param>
/// <param name="Note">Anything else.</param>
public sealed record KindSheet(
    string? Code, string? Name, string? Like, string? Capacity, string? Tare, string? Film, string? Area, string? Gasket, string? Perimeter, string? Height, string? Way, string? Usual,
    string? Cost, string? Note);

/// <summary>What was written of an own film or container.</summary>
/// <param name="Event">The line.</param>
/// <param name="Code">Of the film or container.</param>
/// <param name="Verdict">What it comes to, in a line.</param>
public sealed record Described(CellarEvent Event, string Code, string Verdict);

/// <summary>Writes down films and container kinds from data sheets. Describing a code again replaces it; forecasts take it up at once.</summary>
public static class DescribeKind
{
    /// <summary>An own film.</summary>
    /// <exception cref="Refusal">A part that is missing, cannot be read or cannot be; nothing is written.</exception>
    public static async ValueTask<Described> Film(ICellars cellars, FilmSheet sheet, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(presentOf);
        var code = CodeOf(sheet.Code, "my-film");
        if (Films.All.Any(film => string.Equals(film.Code, code, StringComparison.OrdinalIgnoreCase)))
            throw new Refusal($"The code {code} stands for a film of the catalogue. Take another.");
        var (water, humidity) = Climate(Needed(sheet.WaterTest, "climate of the water test", "38C/90%"));
        var oxygen = Needed(sheet.OxygenTest, "climate of the oxygen test", "23C/0%").Split('/')[0];
        var fact = new Fact.FilmDescribed(
            code, Said(sheet.Name) ?? code, Rate(Needed(sheet.Water, "water-vapour rate in g/(m²·day)", "1.2")), water, humidity,
            Rate(Needed(sheet.Oxygen, "oxygen rate in cm³/(m²·day·atm)", "2.5")), new Temperature(Read(QuantityText.OfTemperature, oxygen)), sheet.DefectLimited, Said(sheet.Note));
        var written = await Write(cellars, presentOf, fact, _ => { });
        var film = KnownKinds.Of(fact);
        return new(written, code, $"{fact.Name}: {AtHome(film)}; a container can name it now.");
    }

    /// <summary>An own container kind.</summary>
    /// <exception cref="Refusal">A part that is missing, cannot be read or cannot be, or a kind, film or material that nobody knows; nothing is written.</exception>
    public static async ValueTask<Described> Container(ICellars cellars, KindSheet sheet, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(presentOf);
        var code = CodeOf(sheet.Code, "my-crock");
        var fact = new Fact.ContainerDescribed(
            code, Said(sheet.Name) ?? code, Needed(sheet.Like, "kind of the catalogue that it is like", "jar-473"), StatedVolume.Parse(sheet.Capacity, SaidBy.Label), StatedMass.Parse(sheet.Tare, SaidBy.Weighed),
            Wall(sheet), Ring(sheet), StatedMass.Parse(sheet.Usual), Money.Parse(sheet.Cost, SaidBy.Receipt), Said(sheet.Note));
        ContainerKind? kind = null;
        var written = await Write(cellars, presentOf, fact, cellar => kind = KnownKinds.Of(cellar, fact));
        return new(written, code, FormattableString.Invariant(
            $"{fact.Name}: a sound middle one lets out {ContainerPage.MilligramsPerDay(kind!):G2} mg of water a day at 20 °C and 20 points of humidity more inside; failures and habits as {fact.Like}."));
    }

    /// <summary>What 300 cm² of a film pass where leaf is kept, in words.</summary>
    internal static string AtHome(FilmKind film)
    {
        ArgumentNullException.ThrowIfNull(film);
        var (at, area) = (Temperature.FromCelsius(20), Area.FromSquareCentimetres(300));
        var water = FilmTransmission.WaterPerDay(
            FilmTransmission.At(film.Water.Permeance, film.Water.Test, at, film.Water.ActivationEnergy), area, at, RelativeHumidity.FromPercent(65), RelativeHumidity.FromPercent(45));
        var oxygen = FilmTransmission.OxygenPerDay(FilmTransmission.At(film.Oxygen.Permeance, film.Oxygen.Test, at, film.Oxygen.ActivationEnergy), area, at);
        return FormattableString.Invariant($"300 cm² pass {water.Kilograms * 1e6:G2} mg of water out and {oxygen.Millilitres:G2} ml of oxygen in a day at 20 °C, 65 % inside and 45 % outside");
    }

    private static async ValueTask<CellarEvent> Write(ICellars cellars, Func<Cellar, Present> presentOf, Fact fact, Action<Cellar> check)
    {
        var change = await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            CellarEvent[] lines = [CellarEvent.New(fact, UnevenDate.On(present.Today), present.Now)];
            Rules.Check(cellar, lines);
            check(cellar);
            return lines;
        });
        return change.Events[^1];
    }

    private static string CodeOf(string? text, string example) => Needed(text, "code", example) is var code && string.Equals(code, "own", StringComparison.OrdinalIgnoreCase)
        ? throw new Refusal($"'own' is taken as a word: use another code, such as {example}.")
        : code;

    private static OwnWall? Wall(KindSheet sheet)
    {
        var (film, area) = (Said(sheet.Film), Said(sheet.Area));
        if (film is null && area is null)
            return null;
        if (film is null || area is null)
            throw new Refusal("A wall needs its film and its area: give both, such as ldpe-70 and 700cm2.");
        return new(film, Read(QuantityText.OfArea, area));
    }

    private static OwnGasket? Ring(KindSheet sheet)
    {
        string?[] parts = [Said(sheet.Gasket), Said(sheet.Perimeter), Said(sheet.Height), Said(sheet.Way)];
        if (parts.All(part => part is null))
            return null;
        if (parts.Any(part => part is null))
            throw new Refusal("A gasket needs its material, perimeter, height and way: give all four, such as silicone, 267mm, 1.5mm and 6mm.");
        return new(parts[0]!, Metres(parts[1]!), Metres(parts[2]!), Metres(parts[3]!));
    }

    private static (Temperature, RelativeHumidity) Climate(string text)
    {
        var parts = text.Split('/');
        return parts.Length == 2
            ? (new(Read(QuantityText.OfTemperature, parts[0])), new(Read(QuantityText.OfPercent, parts[1])))
            : throw new Refusal($"'{text}' is no climate of a test: write temperature and humidity, such as 38C/90%. A rate without it says nothing.");
    }

    private static Length Metres(string text) => new(Read(QuantityText.OfLength, text));

    private static double Rate(string text) => double.TryParse(text, System.Globalization.NumberStyles.Float, System.Globalization.CultureInfo.InvariantCulture, out var rate) && double.IsFinite(rate)
        ? rate
        : throw new Refusal($"'{text}' is no number: write digits with a decimal point, such as 1.2, in the unit that the field names.");

    private static double Read(QuantityText units, string text) => units.TryRead(text, out var why) ?? throw new Refusal(why);

    private static string Needed(string? text, string what, string example) => Said(text) ?? throw new Refusal($"The {what} is missing: write for example {example}.");

    private static string? Said(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();
}
