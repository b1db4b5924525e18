using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Sqlite;
using Undercroft.Physics.Quantities;

namespace Undercroft.Bench;

/// <summary>A synthetic cellar for the list of what is due: packages sealed or first seen one to eighteen years ago, in many kinds of container. Everything in it is made up.</summary>
internal static class DueHouse
{
    /// <summary>The present of the question.</summary>
    internal const string Today = "2026-06-30";

    private const int PackagesOfLot = 5;
    private const int Shelves = 12;
    private static readonly DateOnly Present = new(2026, 6, 30);
    private static readonly string[] Rooms = ["cupboard", "attic", "basement"];
    private static readonly string[] Containers =
        ["jar-237", "tin-pull-50", "jar-473", "pouch-vacuum", "tin-rectangular-50", "pouch-metallised", "jar-946", "tin-slip", "bag-zip", "tin-pull-100", "pouch-foil", "tin-unlined"];

    private static readonly string[] Leaf = ["flue-cured", "burley", "oriental", "dark", "mixture", "aromatic"];

    /// <summary>Writes it into a new folder.</summary>
    /// <param name="root">Where.</param>
    /// <param name="packages">How many.</param>
    /// <param name="weighed">One package in so many was weighed on the day it was written down and a year later; 0 for none.</param>
    internal static async Task<DataFolder> Made(string root, int packages, int weighed)
    {
        var folder = DataFolder.OrNew(Path.Combine(root, FormattableString.Invariant($"due-{packages}-{weighed}")));
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        await cellars.AppendAsync(0, [.. Lines(packages, weighed).OrderBy(line => line.Recorded)]);
        return folder;
    }

    private static List<CellarEvent> Lines(int packages, int weighed)
    {
        var random = new Random(20260630);
        using var ids = ShortId.From(0).GetEnumerator();
        List<CellarEvent> lines = [];
        var begun = Present.AddYears(-19);
        PlaceId[] places = [.. Enumerable.Range(0, Shelves).Select(_ => new PlaceId(Next()))];
        for (var n = 0; n < Shelves; n++)
            Say(begun, UnevenDate.On(begun), new Fact.PlaceAdded(places[n], $"Shelf {n + 1}", null, Rooms[n % Rooms.Length]));
        for (var n = 0; n * PackagesOfLot < packages; n++)
        {
            var seen = Present.AddDays(-random.Next(366, 18 * 365));
            var lot = new LotId(Next());
            PackageId[] five = [.. Enumerable.Range(0, Math.Min(PackagesOfLot, packages - (n * PackagesOfLot))).Select(_ => new PackageId(Next()))];
            Say(seen, UnevenDate.On(seen), new Fact.LotAdded(lot, new Blend($"Blend {(n % 120) + 1}", [new LeafShare(Leaf[n % Leaf.Length])], "ribbon"), UnevenDate.Unknown, StatedMass.Parse("500g", SaidBy.Label), Money.Parse("40.00 EUR", SaidBy.Receipt)));
            foreach (var package in five)
            {
                var sealing = lines.Count % 4 < 2 ? UnevenDate.On(seen) : lines.Count % 4 == 2 ? UnevenDate.Parse(FormattableString.Invariant($"{seen.Year - 1}")) : UnevenDate.Unknown;
                Say(seen, UnevenDate.On(seen), new Fact.PackagesAdded(lot, [package], new Container(Containers[random.Next(Containers.Length)]), StatedMass.Parse("50g", SaidBy.Label), Sealed: sealing, Place: places[random.Next(Shelves)]));
                if (weighed == 0 || lines.Count % weighed != 0)
                    continue;
                Weigh(seen.AddDays(1), package, 0.4200);
                Weigh(seen.AddDays(365), package, 0.4198);
            }
        }

        return lines;

        void Weigh(DateOnly day, PackageId package, double kilograms) => Say(day, UnevenDate.On(day), new Fact.PackageWeighed(package, new Mass(kilograms), false, new Mass(0.0001)));

        ShortId Next()
        {
            ids.MoveNext();
            return ids.Current;
        }

        void Say(DateOnly recorded, UnevenDate on, Fact fact) =>
            lines.Add(CellarEvent.New(fact, on, new DateTimeOffset(recorded, new TimeOnly(9, 0), TimeSpan.Zero).AddMilliseconds(lines.Count)));
    }
}
