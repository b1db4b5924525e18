using System.Globalization;
using Undercroft.Ledger;

namespace Undercroft.Bench;

/// <summary>How fast the ledger is, against SQLite alone.</summary>
internal static class LedgerSpeed
{
    private static readonly int[] Sizes = [25_000, 100_000, 400_000];

    internal static async Task<int> Run(string[] args)
    {
        if (args is ["open", var path])
        {
            Console.WriteLine(await LedgerOpening.OpenAndFold(DataFolder.Existing(path)));
            Console.WriteLine(await LedgerOpening.OpenAndFold(DataFolder.Existing(path)));
            return 0;
        }
        if (args is ["stages", var p2])
        {
            for (var k = 0; k < 3; k++)
            {
                using var cellars = Undercroft.Ledger.Sqlite.SqliteCellars.Open(DataFolder.Existing(p2));
                IReadOnlyList<Undercroft.Ledger.Events.CellarEvent> events = [];
                Console.WriteLine("events " + await LedgerTiming.Of(async () => events = await cellars.EventsAsync()));
                Console.WriteLine("fold   " + await LedgerTiming.Of(() => { Cellar.Fold(events); return Task.CompletedTask; }));
                string[] lines = [.. events.Select(Undercroft.Ledger.Events.EventLine.Write)];
                Console.WriteLine("parse  " + await LedgerTiming.Of(() => { foreach (var l in lines) Undercroft.Ledger.Events.EventLine.Read(l); return Task.CompletedTask; }));
            }
            return 0;
        }
        if (args is ["make", var root2, var n])
        {
            Console.WriteLine((await LedgerOpening.Made(root2, int.Parse(n, CultureInfo.InvariantCulture))).Path);
            return 0;
        }

        var root = Directory.CreateTempSubdirectory("undercroft-bench-").FullName;
        try
        {
            for (var i = 0; i < 3; i++)
                Console.WriteLine(await LedgerReadings.Import(root, 1_000_000));
            return 0;
        }
        finally
        {
            Directory.Delete(root, recursive: true);
        }
    }
}
