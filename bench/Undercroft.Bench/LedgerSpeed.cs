namespace Undercroft.Bench;

/// <summary>How fast the ledger is, against SQLite alone.</summary>
internal static class LedgerSpeed
{
    internal static async Task<int> Run(string[] args)
    {
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
