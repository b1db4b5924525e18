using System.Globalization;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Catalogue;

/// <summary>The catalogue for people: which codes there are, and everything that is known behind one.</summary>
public static class KindList
{
    /// <summary>Jars, tins, pouches, bags.</summary>
    public const string Containers = "containers";

    /// <summary>Sorts of leaf.</summary>
    public const string Leaves = "leaves";

    /// <summary>Sorts of places.</summary>
    public const string Rooms = "rooms";

    /// <summary>How leaf is cut.</summary>
    public const string CutKinds = "cuts";

    /// <summary>Finished films and laminates.</summary>
    public const string FilmKinds = "films";

    /// <summary>Plain materials, every source beside the others.</summary>
    public const string MaterialKinds = "materials";

    /// <summary>Humidity packs and liners.</summary>
    public const string PackKinds = "packs";

    private static readonly int[] Humidities = [50, 55, 60, 65, 70, 75];

    /// <summary>The groups, in the order of the list.</summary>
    public static IReadOnlyList<string> Groups { get; } = [Containers, Leaves, Rooms, CutKinds, FilmKinds, MaterialKinds, PackKinds];

    /// <summary>Every entry, or those of one group.</summary>
    /// <param name="cellar">Knows the keeper's own.</param>
    /// <param name="group">Null for all.</param>
    public static IReadOnlyList<KindLine> Lines(Cellar cellar, string? group = null) => [.. Pages(cellar).Where(page => group is null || page.Group == group)
        .Select(page => new KindLine(page.Group, page.Code, page.Name, page.Horizon))];

    /// <summary>One entry by its code.</summary>
    /// <param name="cellar">Knows the keeper's own.</param>
    /// <param name="code">As typed.</param>
    /// <exception cref="Refusal">No such code; the message names the nearest.</exception>
    public static KindPage Page(Cellar cellar, string code)
    {
        ArgumentNullException.ThrowIfNull(code);
        var wanted = code.Trim();
        if (Pages(cellar).FirstOrDefault(page => string.Equals(page.Code, wanted, StringComparison.OrdinalIgnoreCase)) is { } found)
            return found;
        return LeafKinds.Find(wanted) is { } leaf ? Of(leaf) : throw new Refusal(
            $"Nothing in the catalogue is called '{code}'. Nearest: {string.Join(", ", KnownKinds.NearestTo(cellar, wanted).Take(2).Concat(LeafKinds.Nearest(wanted, 1)).Concat(RoomKinds.Nearest(wanted, 1)).Concat(Cuts.Nearest(wanted, 1)).Concat(Materials.Nearest(wanted, 1)))}. "
            + "List them all with: undercroft kinds.");
    }

    private static IEnumerable<KindPage> Pages(Cellar cellar) =>
    [
        .. KnownKinds.All(cellar).Select(ContainerPage.Of), .. ContainerFamily.All.Select(Of), .. LeafKinds.All.Select(Of), .. RoomKinds.All.Select(Of), .. Cuts.All.Select(Of),
        .. Films.All.Concat(cellar.OwnFilms.Values.OrderBy(film => film.Code, StringComparer.Ordinal).Select(KnownKinds.Of)).Select(FilmPage.Of), .. Materials.Codes.Select(FilmPage.OfMaterial),
        .. Physics.Catalogue.PackKinds.All.Select(Of),
    ];

    private static KindPage Of(ContainerFamily family) => new(
        Containers, family.Code, family.Name, $"one of {string.Join(", ", family.Members.Select(member => member.Name))}, each as likely (assumption); say which, and the forecast narrows", null, null, null,
        [.. family.Members.Select(member => KindValue.Of($"chance that it is the {member.Name}", 100.0 / family.Members.Count, "%", null, ContainerFamily.Evidence))]);

    private static KindPage Of(PackKind pack) => new(
        PackKinds, pack.Code, pack.Name,
        string.Create(CultureInfo.InvariantCulture, $"gives about {pack.WaterToGive.Grams:0.##} g of water and no more: a loss of 0.5 g a month empties it in {pack.MonthsAgainst(Mass.FromGrams(0.5)):0.#} months, unseen"),
        null, null, pack.SetHumidity is null ? null : "Keep packs from small children and pets; a torn one spoils the leaf.",
        [
            KindValue.Of("mass as it comes", pack.Mass.Grams, "g", null, pack.Evidence),
            .. pack is { SetHumidity: { } humidity, HumidityEvidence: { } printed } ? [KindValue.Of("humidity that it holds", humidity.Percent, "%", null, printed)] : (KindValue[])[],
            KindValue.Of("water to give", pack.WaterToGive.Grams, "g", null, pack.Evidence),
            KindValue.Of("water to take", pack.WaterToTake.Grams, "g", null, pack.Evidence),
        ]);

    private static KindPage Of(LeafKind leaf) => new(
        Leaves, leaf.Code, leaf.Name, string.Create(CultureInfo.InvariantCulture, $"{Held(leaf, 60):0.0} % moisture in balance with 60 % humidity"), null, null, null,
        [
            .. Humidities.Select(humidity => KindValue.Of(
                string.Create(CultureInfo.InvariantCulture, $"moisture in balance with {humidity} % at 22 °C"), Held(leaf, humidity), "% wet basis",
                string.Create(CultureInfo.InvariantCulture, $"factor {Math.Exp(leaf.ScaleLogSd):0.00} own"), leaf.Evidence)),
            KindValue.Of("heat of sorption", leaf.Isotherm.SorptionHeat, "J/mol", null, leaf.Evidence),
            KindValue.Of("between wetting and drying", leaf.HysteresisPoints, "points of moisture", null, leaf.Evidence),
        ]);

    private static double Held(LeafKind leaf, int humidity) => leaf.Isotherm.MoistureAt(new WaterActivity(humidity / 100.0)).WetBasisPercent;

    private static KindPage Of(RoomKind room) => new(
        Rooms, room.Code, room.Name, string.Create(CultureInfo.InvariantCulture, $"about {room.MeanCelsius.Middle:0.#} °C and {room.MeanHumidity.Middle:0} % over the year"), null, null, null,
        [
            Of("mean temperature of the year", room.MeanCelsius, "°C", room),
            Of("half of summer minus winter", room.AnnualSwing, "K", room),
            Of("half of afternoon minus night", room.DailySwing, "K", room),
            Of("mean humidity of the year", room.MeanHumidity, "%", room),
            Of("humidity, half of summer minus winter", room.AnnualHumiditySwing, "points", room),
        ]);

    private static KindValue Of(string what, RoomFigure figure, string unit, RoomKind room) =>
        KindValue.Of(what, figure.Middle, unit, string.Create(CultureInfo.InvariantCulture, $"± {figure.Sd:0.#} from room to room"), room.Evidence);

    private static KindPage Of(Cut cut) => new(
        CutKinds, cut.Code, cut.Name, string.Create(CultureInfo.InvariantCulture, $"{cut.TypicalIn(Volume.FromMillilitres(473)).Grams:0} g in 473 ml as most people pack it"), null, null, null,
        [
            KindValue.Of("packed loosely", cut.Low, "g/l", null, cut.Evidence),
            KindValue.Of("as most people pack it", cut.Typical, "g/l", null, cut.Evidence),
            KindValue.Of("pressed until it resists", cut.High, "g/l", null, cut.Evidence),
            KindValue.Of("share of a container that is filled", 100 * Cuts.FilledShare, "%", null, cut.Evidence),
        ]);
}
