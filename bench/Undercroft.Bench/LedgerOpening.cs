using Microsoft.Data.Sqlite;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Sqlite;
using Undercroft.Physics.Quantities;

namespace Undercroft.Bench;

/// <summary>How long it takes to open and fold a long ledger, and to append one more line, against SQLite alone.</summary>
internal static class LedgerOpening
{
    private static readonly DateTimeOffset Begin = new(2010, 1, 1, 9, 0, 0, TimeSpan.Zero);

    /// <summary>A ledger of a house with one package for each forty lines: weighed, looked at, opened, taken from, moved, now and then corrected.</summary>
    internal static async Task<DataFolder> Made(string root, int events)
    {
        var folder = DataFolder.OrNew(Path.Combine(root, "l" + Guid.NewGuid().ToString("N")));
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        await cellars.AppendAsync(0, [.. Lines(events)]);
        return folder;
    }

    /// <summary>Opens the file anew and folds all of it, as a command does.</summary>
    internal static async Task<LedgerTiming> OpenAndFold(DataFolder folder) => await LedgerTiming.Of(async () =>
    {
        using var cellars = SqliteCellars.Open(folder);
        if ((await cellars.ReadAsync()).Packages.Count == 0)
            throw new InvalidOperationException("Nothing was read.");
    });

    /// <summary>Wall milliseconds of single durable appends to a warm ledger, in order.</summary>
    internal static async Task<double[]> Appends(DataFolder folder, int count)
    {
        using var cellars = SqliteCellars.Open(folder);
        var version = (await cellars.ReadAsync()).Version;
        var took = new double[count];
        for (var i = 0; i < count; i++)
        {
            var line = CellarEvent.New(new Fact.Noted("one more"), UnevenDate.Unknown, Begin);
            var timing = await LedgerTiming.Of(async () => version = ((AppendResult.Written)await cellars.AppendAsync(version, [line])).Version);
            took[i] = timing.WallMs;
        }

        return [.. took.Order()];
    }

    /// <summary>The same without the program: the same text into a table of the same shape by one prepared statement, one transaction each.</summary>
    internal static async Task<double[]> BareAppends(string root, int count)
    {
        using var connection = Bare(root);
        using var insert = Insert(connection);
        var text = EventLine.Write(CellarEvent.New(new Fact.Noted("one more"), UnevenDate.Unknown, Begin));
        var took = new double[count];
        for (var i = 0; i < count; i++)
            took[i] = (await LedgerTiming.Of(() =>
            {
                Put(insert, i + 1, text);
                return Task.CompletedTask;
            })).WallMs;
        return [.. took.Order()];
    }

    /// <summary>Many lines in one append, and the same by one bare prepared statement.</summary>
    internal static async Task<(LedgerTiming Ours, LedgerTiming Bare)> Together(string root, int events)
    {
        CellarEvent[] lines = [.. Lines(events)];
        var folder = DataFolder.OrNew(Path.Combine(root, "t" + Guid.NewGuid().ToString("N")));
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        var ours = await LedgerTiming.Of(async () => await cellars.AppendAsync(0, lines));
        string[] texts = [.. lines.Select(EventLine.Write)];
        using var connection = Bare(root);
        using var insert = Insert(connection);
        var bare = await LedgerTiming.Of(() =>
        {
            using var transaction = connection.BeginTransaction();
            insert.Transaction = transaction;
            for (var i = 0; i < texts.Length; i++)
                Put(insert, i + 1, texts[i]);
            transaction.Commit();
            return Task.CompletedTask;
        });
        return (ours, bare);
    }

    private static SqliteConnection Bare(string root)
    {
        var connection = new SqliteConnection($"Data Source={Path.Combine(root, Guid.NewGuid().ToString("N") + ".sqlite")};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = """
            PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL;
            CREATE TABLE events (cellar TEXT NOT NULL, version INTEGER NOT NULL, id TEXT NOT NULL, type TEXT NOT NULL, line TEXT NOT NULL, digest TEXT NOT NULL,
                PRIMARY KEY (cellar, version), UNIQUE (cellar, id)) WITHOUT ROWID;
            """;
        command.ExecuteNonQuery();
        return connection;
    }

    private static SqliteCommand Insert(SqliteConnection connection)
    {
        var command = connection.CreateCommand();
        command.CommandText = "INSERT INTO events VALUES ('cellar', $version, $id, 'noted/1', $line, '0000000000000000000000000000000000000000000000000000000000000000')";
        command.Parameters.Add("$version", SqliteType.Integer);
        command.Parameters.Add("$id", SqliteType.Text);
        command.Parameters.Add("$line", SqliteType.Text);
        command.Prepare();
        return command;
    }

    private static void Put(SqliteCommand insert, long version, string text)
    {
        insert.Parameters[0].Value = version;
        insert.Parameters[1].Value = new Guid((int)version, 0, 0x7000, [0x80, 0, 0, 0, 0, 0, 0, 0]).ToString();
        insert.Parameters[2].Value = text;
        insert.ExecuteNonQuery();
    }

    private static IEnumerable<CellarEvent> Lines(int events)
    {
        var random = new Random(20260304);
        using var ids = ShortId.From(0).GetEnumerator();
        PlaceId[] places = [.. Enumerable.Range(0, 20).Select(_ => new PlaceId(Next()))];
        var written = 0;
        foreach (var place in places)
            yield return New(new Fact.PlaceAdded(place, "Shelf " + written, null, "cupboard"));
        LotId lot = default;
        PackageId package = default;
        var weighed = Guid.Empty;
        while (written < events)
        {
            switch (written % 40)
            {
                case 20:
                    yield return New(new Fact.LotAdded(lot = new LotId(Next()), new Blend("Evening ribbon", [new LeafShare("flue-cured", StatedFraction.Parse("70%")), new LeafShare("burley")], "ribbon"), UnevenDate.Parse("2015~"), StatedMass.Parse("8oz", SaidBy.Label), Money.Parse("32.50 EUR", SaidBy.Receipt)));
                    break;
                case 21:
                    yield return New(new Fact.PackagesAdded(lot, [package = new PackageId(Next())], new Container("jar-473", Tare: StatedMass.Parse("412g", SaidBy.Weighed)), StatedMass.Parse("~100g", SaidBy.Guess), StatedMass.Parse("513.2g", SaidBy.Weighed), Sealed: UnevenDate.Parse("2016-03-10"), Place: places[random.Next(20)]));
                    break;
                case 22: yield return New(new Fact.PackageOpened(package, "for Sunday")); break;
                case 23: yield return New(new Fact.LeafTaken(package, StatedMass.Parse("about 10 g", SaidBy.Guess))); break;
                case 24: yield return New(new Fact.PackageClosed(package)); break;
                case 25: yield return New(new Fact.PackageMoved(package, places[random.Next(20)])); break;
                case 26: yield return New(new Fact.EventCorrected(weighed, new Fact.PackageWeighed(package, new Mass(0.5123)), Reason: "read the wrong line")); break;
                case var some when package == default || some % 4 == 0: yield return New(new Fact.Noted("smells of figs")); break;
                case var some when some % 4 == 1: yield return New(new Fact.PackageLooked(package, [Finding.AllWell], null, Feel.SpringsBack)); break;
                case var some when some % 4 == 2: yield return New(new Fact.HumidityRead(package, new RelativeHumidity(Math.Round(0.6 + (random.NextDouble() / 20), 3)), new Temperature(293.65), "62 %")); break;
                default:
                    var line = New(new Fact.PackageWeighed(package, new Mass(Math.Round(0.5 + (random.NextDouble() / 50), 4)), false, new Mass(0.0001), "513.2 g"));
                    weighed = line.Id;
                    yield return line;
                    break;
            }
        }

        ShortId Next()
        {
            ids.MoveNext();
            return ids.Current;
        }

        CellarEvent New(Fact fact)
        {
            written++;
            var at = Begin.AddMinutes(80 * written);
            return CellarEvent.New(fact, UnevenDate.On(DateOnly.FromDateTime(at.UtcDateTime)), at, written % 3 == 0 ? "kitchen scale" : null);
        }
    }
}
