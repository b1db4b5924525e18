using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Sqlite;
using Undercroft.Physics.Quantities;

namespace Undercroft.Bench;

/// <summary>A synthetic house for the pages: two thousand packages, each with fifty lines spread over ten years. Everything in it is made up.</summary>
internal static class PageHouse
{
    internal const int Packages = 2000;
    internal const int Events = 100_000;

    /// <summary>The last day that anything was written, and the present of the server.</summary>
    internal static readonly DateOnly Today = new(2026, 6, 30);

    private const int Lots = Packages / 4;
    private static readonly DateOnly First = Today.AddYears(-10);
    private static readonly string[] Containers = ["jar-473", "jar-237", "jar-946", "tin-pull-50", "tin-pull-100", "tin-unlined", "bag-zip"];
    private static readonly string[] Leaf = ["flue-cured", "burley", "oriental", "dark", "mixture", "aromatic"];

    /// <summary>Writes it into a new folder.</summary>
    internal static async Task<DataFolder> Made(string root, IReadOnlyList<string> known)
    {
        var folder = DataFolder.OrNew(Path.Combine(root, "house"));
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        await cellars.AppendAsync(0, [.. Lines([.. Containers.Where(known.Contains)]).OrderBy(line => line.Recorded)]);
        return folder;
    }

    private static List<CellarEvent> Lines(string[] containers)
    {
        var random = new Random(20261125);
        using var ids = ShortId.From(0).GetEnumerator();
        List<CellarEvent> lines = [];
        var house = new PlaceId(Next());
        Say(First, new Fact.PlaceAdded(house, "House"));
        PlaceId[] places = [.. Enumerable.Range(0, 20).Select(_ => new PlaceId(Next()))];
        for (var i = 0; i < places.Length; i++)
            Say(First, new Fact.PlaceAdded(places[i], $"Shelf {i + 1}", house, i % 5 == 0 ? "attic" : i % 5 == 1 ? "basement" : "cupboard"));
        List<PackageId> packages = [];
        for (var n = 0; n < Lots; n++)
        {
            var (lot, day) = (new LotId(Next()), First.AddDays(random.Next(365)));
            PackageId[] four = [.. Enumerable.Range(0, Packages / Lots).Select(_ => new PackageId(Next()))];
            Say(day, new Fact.LotAdded(lot, new Blend($"Blend {n % 120 + 1}", [new LeafShare(Leaf[n % Leaf.Length])], "ribbon"), UnevenDate.On(day), StatedMass.Parse("400g", SaidBy.Label), Money.Parse("32.50 EUR", SaidBy.Receipt)));
            Say(day, new Fact.PackagesAdded(lot, four, new Container(containers[n % containers.Length], Tare: StatedMass.Parse("412g", SaidBy.Weighed)), StatedMass.Parse("100g", SaidBy.Weighed), Sealed: UnevenDate.On(day), Place: places[n % places.Length]));
            packages.AddRange(four);
        }

        for (var n = 0; lines.Count < Events; n++)
        {
            var package = packages[n % Packages];
            var day = First.AddDays(370 + (int)((lines.Count - 1021L) * 3280 / (Events - 1021)));
            Say(day, (n / Packages) switch
            {
                10 when n % 40 == 0 => new Fact.PackageMoved(package, places[random.Next(places.Length)]),
                30 when n % 50 == 0 => new Fact.PackageOpened(package),
                31 when n % 50 == 0 => new Fact.LeafTaken(package, StatedMass.Parse("about 10 g", SaidBy.Guess)),
                32 when n % 50 == 0 => new Fact.PackageClosed(package),
                40 when n % 100 == 7 => new Fact.PackageRemoved(package, RemovedAs.Finished),
                var turn when turn % 4 == 1 => new Fact.PackageLooked(package, [Finding.AllWell]),
                var turn when turn % 12 == 2 => new Fact.HumidityRead(package, new RelativeHumidity(Math.Round(0.6 + (random.NextDouble() / 20), 3)), new Temperature(293.65), "62 %"),
                var turn when turn % 12 == 3 => new Fact.Noted("smells of figs", package.Id),
                _ => new Fact.PackageWeighed(package, new Mass(Math.Round(0.512 - (random.NextDouble() / 1000), 4)), false, new Mass(0.0001), "512 g"),
            });
        }

        return lines;

        ShortId Next()
        {
            ids.MoveNext();
            return ids.Current;
        }

        void Say(DateOnly day, Fact fact) => lines.Add(CellarEvent.New(fact, UnevenDate.On(day), new DateTimeOffset(day, new TimeOnly(9, 0), TimeSpan.Zero).AddMilliseconds(lines.Count)));
    }
}
