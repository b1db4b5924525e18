using System.Diagnostics;
using System.Globalization;
using System.Runtime.CompilerServices;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Readings;
using Undercroft.Ledger.Sqlite;
using Undercroft.Physics.Quantities;

namespace Undercroft.Tests.Ledger.Faults;

/// <summary>These tests started as a process of its own that does one thing and may be killed at it, before any test is looked for.</summary>
/// <remarks>It says what is done on lines of standard output, each only after the ledger acknowledged it.</remarks>
internal static class Victim
{
    internal const string Variable = "UNDERCROFT_TESTS_VICTIM";
    internal const int ReadingsPerBatch = 3000;
    private static readonly DateTimeOffset Now = new(2020, 5, 1, 12, 0, 0, TimeSpan.Zero);

    internal static string Fixture(int schema) => Path.Combine(AppContext.BaseDirectory, "Ledger", "Schemas", FormattableString.Invariant($"schema-{schema}.sqlite"));

    /// <summary>A process that will do <paramref name="part"/> in a folder.</summary>
    /// <param name="part">Name of the part.</param>
    /// <param name="root">The folder.</param>
    /// <param name="number">Tells several apart.</param>
    /// <param name="shell">Null, or the shell commands to run before it in a mount namespace of its own, where <c>$ROOT</c> is the folder.</param>
    internal static ProcessStartInfo Start(string part, string root, int number = 0, string? shell = null)
    {
        var program = Path.Combine(AppContext.BaseDirectory, "Undercroft.Tests" + (OperatingSystem.IsWindows() ? ".exe" : ""));
        var start = shell is null
            ? new ProcessStartInfo(program)
            : new ProcessStartInfo("unshare", ["--map-root-user", "--mount", "sh", "-ec", shell + "\nexec \"$PROGRAM\""]);
        start.RedirectStandardOutput = true;
        start.RedirectStandardError = true;
        start.Environment[Variable] = FormattableString.Invariant($"{part}|{number}|{root}");
        start.Environment["ROOT"] = root;
        start.Environment["PROGRAM"] = program;
        start.Environment["DOTNET_TieredPGO"] = "0"; // it lives for a second
        return start;
    }

    /// <summary>Runs a part to its end and returns the lines that it said.</summary>
    internal static async Task<string[]> Run(string part, string root, int number = 0, string? shell = null)
    {
        using var process = Process.Start(Start(part, root, number, shell))!;
        var error = process.StandardError.ReadToEndAsync();
        var said = await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        Xunit.Assert.True(process.ExitCode == 0, $"{part} ended with {process.ExitCode}: {said}{await error}");
        return said.Split('\n', StringSplitOptions.RemoveEmptyEntries);
    }

    [ModuleInitializer]
    internal static void Begin()
    {
        if (Environment.GetEnvironmentVariable(Variable)?.Split('|', 3) is not [var part, var number, var root])
            return;
        switch (part)
        {
            case "writes": Writes(root, int.Parse(number, CultureInfo.InvariantCulture)); break;
            case "together": Together(root, int.Parse(number, CultureInfo.InvariantCulture)); break;
            case "full": FullDisk.Live(root); break;
            case "read-only": ReadOnlyFolder.Live(root); break;
            default: throw new InvalidOperationException($"No part is called {part}.");
        }

        Environment.Exit(0);
    }

    internal static void Say(string line)
    {
        Console.Out.Write(line + "\n");
        Console.Out.Flush();
    }

    /// <summary>Synchronous here: nothing of this module may run on another thread before it is initialised.</summary>
    internal static T Done<T>(ValueTask<T> task) => task.AsTask().GetAwaiter().GetResult();

    internal static CellarEvent Note(long number, string text) => Household.New((int)(1_000_000 + number), new Fact.Noted(text));

    internal static ReadingBatch Batch(PlaceId place, long number, int count) => new(
        new Guid((int)number, 7, 0, [9, 9, 9, 9, 9, 9, 9, 9]),
        Enumerable.Range(0, count).Select(i => new Reading((number * 10_000_000) + (60L * i), new Temperature(290 + (i % 30 / 10d)), new RelativeHumidity(0.6))),
        taken => [Household.New((int)(5_000_000 + number), taken.Fact(new Fact.ReadingsImported(place, "logger.csv", "00"))) with { Happened = UnevenDate.Unknown }]);

    /// <summary>Appends, imports, backs up and upgrades in turn until it is killed.</summary>
    private static void Writes(string root, int life)
    {
        var random = new Random(life);
        var folder = DataFolder.OrNew(Path.Combine(root, "data"));
        using var cellars = SqliteCellars.OpenOrCreate(folder);
        var place = new PlaceId(ShortId.From(0).First());
        var version = Done(cellars.ReadAsync()).Version;
        if (version == 0)
            version = ((AppendResult.Written)Done(cellars.AppendAsync(0, [Household.New(1, new Fact.PlaceAdded(place, "Cellar"))]))).Version;
        Say("ready");
        for (var i = 0; ; i++)
        {
            switch (random.Next(8))
            {
                case 0:
                    version = ((AppendResult.Written)Done(cellars.AppendAsync(version, Batch(place, version + 1, ReadingsPerBatch)))).Version;
                    Say(FormattableString.Invariant($"batch {version}"));
                    break;
                case 1:
                    var zip = FormattableString.Invariant($"{life}-{i}.zip");
                    Backup.Write(folder, Path.Combine(root, zip), Now);
                    Say("backup " + zip);
                    break;
                case 2:
                    var old = DataFolder.OrNew(Path.Combine(root, FormattableString.Invariant($"old-{life}-{i}")));
                    File.Copy(Fixture(2), old.Ledger);
                    Say("old " + Path.GetFileName(old.Path));
                    SqliteCellars.Open(old).Dispose();
                    Say("upgraded " + Path.GetFileName(old.Path));
                    break;
                default:
                    CellarEvent[] lines = [.. Enumerable.Range(1, random.Next(1, 4)).Select(n => Note(version + n, new string('x', 3000)))];
                    version = ((AppendResult.Written)Done(cellars.AppendAsync(version, lines))).Version;
                    Say(FormattableString.Invariant($"lines {version}"));
                    break;
            }
        }
    }

    /// <summary>Writes thirty notes while others write too.</summary>
    private static void Together(string root, int number)
    {
        using var cellars = SqliteCellars.Open(DataFolder.Existing(Path.Combine(root, "data")));
        for (var i = 0; i < 30; i++)
        {
            var line = Household.New((10_000 * number) + i, new Fact.Noted(FormattableString.Invariant($"{number}/{i}")));
            Done(cellars.ChangeAsync(_ => [line]));
        }

        Say("done");
    }
}
