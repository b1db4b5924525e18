using System.Diagnostics;
using System.Globalization;
using System.Text;
using Microsoft.Data.Sqlite;

namespace Undercroft.Bench;

/// <summary>How long the program takes to bring a logger's file into a new cellar, beside a bare prepared insert of as many rows into SQLite in one transaction.</summary>
internal static class LoggerImport
{
    /// <summary>Arguments: rows, rounds.</summary>
    public static int Run(string[] args)
    {
        var rows = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 1_000_000;
        var rounds = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 3;
        var folder = Directory.CreateTempSubdirectory("undercroft-bench-");
        try
        {
            var file = Path.Combine(folder.FullName, "log.csv");
            Write(file, rows);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{rows} rows, {new FileInfo(file).Length / 1e6:0.0} MB"));
            Console.WriteLine("| what | wall, s | CPU, s | peak memory, MB |");
            Console.WriteLine("|---|---|---|---|");
            for (var round = 0; round < rounds; round++)
            {
                Import(file, Path.Combine(folder.FullName, "cellar" + round.ToString(CultureInfo.InvariantCulture)));
                Anchor(Path.Combine(folder.FullName, "bare" + round.ToString(CultureInfo.InvariantCulture)), rows);
            }

            return 0;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static void Write(string file, int rows)
    {
        using var to = new StreamWriter(file, false, new UTF8Encoding(false));
        to.Write("time,temperature (°C),humidity (%)\n");
        var start = new DateTime(2015, 1, 1, 0, 0, 0, DateTimeKind.Unspecified);
        for (var i = 0; i < rows; i++)
            to.Write(string.Create(CultureInfo.InvariantCulture, $"{start.AddMinutes(i):yyyy-MM-dd HH:mm:ss},{18 + (6 * Math.Sin(i / 83_000.0)):0.0},{55 + (9 * Math.Cos(i / 70_000.0)):0.0}\n"));
    }

    private static void Import(string file, string cellar)
    {
        var run = ProgramRun.Of("import", "logger", file, "--place", "Closet", "--zone", "UTC", "--data", cellar, "--json");
        Line("import logger, whole process", run.WallMs / 1000, run.CpuMs / 1000, (long)(run.PeakMb * 1e6));
    }

    private static void Anchor(string path, int rows)
    {
        using var process = Process.GetCurrentProcess();
        var (wall, cpu) = (Stopwatch.StartNew(), process.TotalProcessorTime);
        using (var connection = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            connection.Open();
            using var make = connection.CreateCommand();
            make.CommandText = "PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; CREATE TABLE r (utc INTEGER PRIMARY KEY, t REAL, h REAL)";
            make.ExecuteNonQuery();
            using var transaction = connection.BeginTransaction();
            using var insert = connection.CreateCommand();
            insert.CommandText = "INSERT INTO r VALUES ($u, $t, $h)";
            var (u, t, h) = (insert.Parameters.Add("$u", SqliteType.Integer), insert.Parameters.Add("$t", SqliteType.Real), insert.Parameters.Add("$h", SqliteType.Real));
            insert.Prepare();
            for (var i = 0; i < rows; i++)
            {
                u.Value = 1_420_070_400L + (60L * i);
                t.Value = 291.15 + (0.1 * (i % 60));
                h.Value = 0.5 + (0.001 * (i % 90));
                insert.ExecuteNonQuery();
            }

            transaction.Commit();
        }

        process.Refresh();
        Line("bare prepared insert", wall.Elapsed.TotalSeconds, (process.TotalProcessorTime - cpu).TotalSeconds, 0);
    }

    private static void Line(string what, double wall, double cpu, long peak) => Console.WriteLine(string.Create(
        CultureInfo.InvariantCulture, $"| {what} | {wall:0.00} | {cpu:0.00} | {(peak > 0 ? (peak / 1e6).ToString("0", CultureInfo.InvariantCulture) : "")} |"));
}
