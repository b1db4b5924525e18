using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;

namespace Undercroft.Demo;

/// <summary>
/// The invented household of the demo: four places, fifteen years, a story. Every blend, date and weight is made up; the same seed tells the same story.
/// </summary>
/// <remarks>
/// What a visitor should find: a bulk bag that was never jarred, a jar whose lid was found loose, a tin that bulges since it went up to the cabin, an open tin that was
/// forgotten, unlined tins close to five years, a jar whose weight tells that it holds, shelves that were walked past
/// and one that was not, and plenty that simply keeps.
/// </remarks>
public sealed class DemoHousehold
{
    /// <summary>The demo's own present.</summary>
    public static readonly DateOnly Day = new(2026, 5, 16);

    private static readonly (string Name, string Leaf, string Cut)[] Blends =
    [
        ("Lamplighter", "flue-cured", "ribbon"), ("Old Quay", "smoke-cured", "ribbon"), ("Millrace Flake", "flue-cured", "flake"), ("Hearthside", "burley", "ribbon"),
        ("Seven Gables", "oriental", "ribbon"), ("Sunday Plug", "dark", "plug"), ("Orchard Row", "aromatic", "ribbon"), ("Long Acre Coins", "flue-cured", "coins"),
        ("Bellringer", "cavendish", "ribbon"), ("Tidewater", "mixture", "broken-flake"),
    ];

    private readonly List<CellarEvent> events = [];
    private readonly Queue<ShortId> ids = new(ShortId.From(0).Take(400));
    private readonly List<(PackageId Package, PlaceId Place, string Kind, DateOnly Closed)> shelved = [];
    private ulong state;

    private DemoHousehold(ulong seed) => state = seed;

    /// <summary>The whole ledger of the demo.</summary>
    /// <param name="seed">The same seed tells the same story.</param>
    public static IReadOnlyList<CellarEvent> Events(ulong seed = 1) => new DemoHousehold(seed).Told();

    private List<CellarEvent> Told()
    {
        Say(new DateOnly(2011, 1, 2), new Fact.CellarCreated("An invented household", Demo: true, DemoDay: Day));
        var house = Place("House", null, null);
        var closet = Place("Hall closet", house, "cupboard");
        var basement = Place("Basement shelf", house, "basement");
        var attic = Place("Attic trunk", house, "attic");
        var cabin = Place("Cabin cupboard", null, "cupboard", StatedLength.Exactly(new Length(1500), SaidBy.Memory));
        Jars(closet, basement);
        Tins(closet, attic);
        Pouches(basement);
        Walk(closet, new DateOnly(2025, 11, 8), kind => kind.StartsWith("jar", StringComparison.Ordinal));
        Walk(basement, new DateOnly(2026, 4, 4), kind => kind != "clamp-500-rubber");
        UnlinedTins(attic);
        OverdueBulkBag(attic);
        FailingLid(closet);
        BulgingTin(closet, cabin);
        ForgottenOpenTin(closet);
        WeighedJar(basement);
        events.Sort((a, b) => a.Recorded.CompareTo(b.Recorded));
        return [.. events.Select((line, n) => line with { Version = n + 1 })];
    }

    private void Jars(PlaceId closet, PlaceId basement)
    {
        string[] kinds = ["jar-237", "jar-473", "jar-118", "jar-946"];
        double[] usual = [50, 105, 25, 210];
        for (var n = 0; n < 9; n++)
        {
            var blend = Blends[n % Blends.Length];
            var kind = n % kinds.Length;
            var closed = new DateOnly(2011 + n, 3 + (n % 6), 1 + Pick(27));
            var count = 2 + Pick(2);
            var jars = Packed(blend, kinds[kind], count, usual[kind] * (0.9 + (0.02 * Pick(11))), closed, n % 3 == 0 ? closet : basement, paid: 8 + (3 * n));
            if (n % 2 == 0)
                Say(closed.AddYears(2), new Fact.PackageLooked(jars[0], [Finding.AllWell]));
        }

        foreach (var year in new[] { 2022, 2024, 2025 })
            Packed(Blends[year % Blends.Length], "jar-473", 3, 110, new DateOnly(year, 10, 3 + Pick(20)), closet, paid: 41);
    }

    private void Tins(PlaceId closet, PlaceId attic)
    {
        for (var n = 0; n < 6; n++)
        {
            var bought = new DateOnly(2013 + (2 * n), 5, 6 + Pick(20));
            Packed(Blends[(n + 3) % Blends.Length], n % 2 == 0 ? "tin-pull-50" : "tin-pull-100", 2 + Pick(2), n % 2 == 0 ? 50 : 100, bought, n == 2 ? attic : closet, paid: 13 + (2 * n), factory: true);
        }
    }

    private void Pouches(PlaceId basement)
    {
        Packed(Blends[6], "pouch-vacuum", 3, 100, new DateOnly(2022, 6, 11), basement, paid: 27);
        Packed(Blends[8], "pouch-foil", 2, 227, new DateOnly(2020, 2, 8), basement, paid: 38);
        Packed(Blends[3], "clamp-500-silicone", 2, 110, new DateOnly(2021, 9, 4), basement, paid: 19);
        Packed(Blends[4], "clamp-500-rubber", 2, 110, new DateOnly(2019, 9, 28), basement, paid: 22);
    }

    /// <summary>A round past a shelf on which everything was well.</summary>
    private void Walk(PlaceId place, DateOnly day, Func<string, bool> seen)
    {
        foreach (var one in shelved.Where(one => one.Place == place && one.Closed < day && seen(one.Kind)))
            Say(day, new Fact.PackageLooked(one.Package, [Finding.AllWell]));
    }

    private void UnlinedTins(PlaceId attic) =>
        Packed(Blends[9], "tin-unlined", 4, 50, new DateOnly(2021, 8, 14), attic, paid: 36);

    private void OverdueBulkBag(PlaceId attic) =>
        Packed(Blends[7], "bag-bulk", 1, 454, new DateOnly(2026, 1, 24), attic, paid: 46, note: "Arrived in January; jar it soon.");

    private void FailingLid(PlaceId closet)
    {
        var jars = Packed(Blends[0], "jar-473", 3, 112, new DateOnly(2018, 10, 7), closet, paid: 52, tare: 318.4, gross: 430.4);
        Say(new DateOnly(2025, 3, 2), new Fact.PackageWeighed(jars[1], Mass.FromGrams(430.1), Resolution: Mass.FromGrams(0.1), Text: "430.1g"));
        Say(new DateOnly(2026, 3, 8), new Fact.PackageWeighed(jars[1], Mass.FromGrams(425.6), Resolution: Mass.FromGrams(0.1), Text: "425.6g"));
        Say(new DateOnly(2026, 3, 8), new Fact.PackageLooked(jars[1], [Finding.LidLoose], Text: "The band turned with two fingers."));
    }

    private void BulgingTin(PlaceId closet, PlaceId cabin)
    {
        var tins = Packed(Blends[2], "tin-pull-100", 2, 100, new DateOnly(2017, 7, 22), closet, paid: 31, factory: true);
        Say(new DateOnly(2026, 4, 18), new Fact.PackageMoved(tins[0], cabin, "Taken up for the summer."));
        Say(new DateOnly(2026, 5, 2), new Fact.PackageLooked(tins[0], [Finding.Bulge], new Length(0.003), Text: "The lid is domed; it was flat at home."));
    }

    private void ForgottenOpenTin(PlaceId closet)
    {
        var tin = Packed(Blends[5], "tin-pull-50", 1, 50, new DateOnly(2019, 11, 30), closet, paid: 15, factory: true)[0];
        Say(new DateOnly(2026, 4, 11), new Fact.PackageOpened(tin, "A long evening."));
        Say(new DateOnly(2026, 4, 11), new Fact.LeafTaken(tin, StatedMass.About(Mass.FromGrams(6), SaidBy.Guess)));
    }

    private void WeighedJar(PlaceId basement)
    {
        var jar = Packed(Blends[1], "jar-473", 1, 113, new DateOnly(2016, 4, 23), basement, paid: 24, tare: 316.2, gross: 429.2)[0];
        foreach (var (year, grams) in new[] { (2018, 429.2), (2021, 429.1), (2024, 429.1) })
            Say(new DateOnly(year, 4, 20), new Fact.PackageWeighed(jar, Mass.FromGrams(grams), Resolution: Mass.FromGrams(0.1), Text: FormattableString.Invariant($"{grams}g")));
        Say(new DateOnly(2024, 4, 20), new Fact.HumidityRead(jar, RelativeHumidity.FromPercent(63), Temperature.FromCelsius(17), "63%"));
    }

    private PlaceId Place(string name, PlaceId? inside, string? room, StatedLength altitude = default)
    {
        var id = new PlaceId(ids.Dequeue());
        Say(new DateOnly(2011, 1, 2), new Fact.PlaceAdded(id, name, inside, room, altitude));
        return id;
    }

    private PackageId[] Packed(
        (string Name, string Leaf, string Cut) blend, string kind, int count, double grams, DateOnly closed, PlaceId place, double paid, bool factory = false, double? tare = null,
        double? gross = null, string? note = null)
    {
        var lot = new LotId(ids.Dequeue());
        PackageId[] packages = [.. Enumerable.Range(0, count).Select(_ => new PackageId(ids.Dequeue()))];
        shelved.AddRange(packages.Select(package => (package, place, kind, closed)));
        var net = Mass.FromGrams(Math.Round(grams));
        var made = factory ? UnevenDate.InYear(closed.Year) : UnevenDate.Unknown;
        var by = factory ? SaidBy.Label : SaidBy.Weighed;
        Say(closed, new Fact.LotAdded(lot, new Blend(blend.Name, [new LeafShare(blend.Leaf)], blend.Cut), made, Paid: Money.Parse(FormattableString.Invariant($"{paid * count / 2:0.00} EUR"), SaidBy.Receipt)));
        Say(closed, new Fact.PackagesAdded(
            lot, packages, new Container(kind, Tare: tare is { } empty ? StatedMass.Exactly(Mass.FromGrams(empty), SaidBy.Weighed) : default), StatedMass.Exactly(net, by),
            gross is { } whole ? StatedMass.Exactly(Mass.FromGrams(whole), SaidBy.Weighed) : default, Sealed: UnevenDate.On(closed), Place: place, Note: note));
        return packages;
    }

    private void Say(DateOnly day, Fact fact) =>
        events.Add(CellarEvent.New(fact, UnevenDate.On(day), new DateTimeOffset(day, new TimeOnly(18, 0).Add(TimeSpan.FromSeconds(events.Count)), TimeSpan.Zero), "demo"));

    private int Pick(int below)
    {
        state = (state * 6364136223846793005UL) + 1442695040888963407UL;
        return (int)((state >> 33) % (ulong)below);
    }
}
