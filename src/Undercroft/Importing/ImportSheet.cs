using System.Security.Cryptography;
using Undercroft.Importing.Entering;
using Undercroft.Importing.Rows;
using Undercroft.Importing.Sheets;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing;

/// <summary>What to do where the sheet was imported before and rows of it have changed since.</summary>
public enum WhenChanged
{
    /// <summary>Say what differs and ask.</summary>
    Ask,

    /// <summary>Leave what was imported as it is and add the rows that are new.</summary>
    AddNew,

    /// <summary>Undo the earlier import and import the file anew.</summary>
    Replace,
}

/// <summary>A sheet that a person hands in.</summary>
/// <param name="FileName">Its name, without any folder.</param>
/// <param name="Bytes">The whole file.</param>
/// <param name="Map">What the person says about its columns, or null.</param>
/// <param name="DryRun">True to write nothing and say the same numbers.</param>
/// <param name="WhenChanged">What to do where it changed since it was imported.</param>
public sealed record SheetRequest(string FileName, ReadOnlyMemory<byte> Bytes, SheetMap? Map = null, bool DryRun = false, WhenChanged WhenChanged = WhenChanged.Ask);

/// <summary>Brings a sheet into the cellar: all of it in one import that can be undone, the same file never twice, the file itself kept.</summary>
public static class ImportSheet
{
    /// <summary>Reads, understands and writes.</summary>
    /// <param name="cellars">The cellar; null in a dry run where there is none yet.</param>
    /// <param name="folder">Where the file is kept; null in a dry run.</param>
    /// <param name="request">The sheet.</param>
    /// <param name="today">The present day, for a cellar as it was read.</param>
    /// <param name="now">The instant that is written beside what is recorded.</param>
    /// <param name="progress">Told how many rows are done, now and then.</param>
    /// <exception cref="Refusal">The file is no sheet, or it changed since it was imported and nobody said what to do. Nothing was written.</exception>
    public static async ValueTask<SheetAccount> RunAsync(
        ICellars? cellars, DataFolder? folder, SheetRequest request, Func<Cellar, DateOnly> today, Func<Cellar, DateTimeOffset> now, Action<int>? progress = null)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(today);
        ArgumentNullException.ThrowIfNull(now);
        var file = SheetReader.Read(request.Bytes);
        var sha256 = Convert.ToHexStringLower(SHA256.HashData(request.Bytes.Span));
        var before = cellars is null ? Cellar.Empty : await cellars.ReadAsync();
        var reading = SheetUnderstanding.Of(file, today(before), request.Map, progress);
        if (before.Imports.Any(import => import.Fact.Sha256 == sha256))
            return SheetAccount.Of(request.FileName, request.DryRun, true, reading, [], null);
        var (changes, earlier) = Earlier(before, folder, request, reading, today(before));
        var entered = Entered(request, reading, changes);
        if (request.DryRun || cellars is null || folder is null)
            return SheetAccount.Of(request.FileName, request.DryRun, false, reading, entered, changes);
        if (changes is { OnlyAdds: false } && request.WhenChanged == WhenChanged.Ask)
            throw new Refusal(Asked(changes));
        Keep(folder, request, sha256);
        await Write(cellars, before, cellar => Decide(cellar, request, reading, entered, earlier, sha256, now(cellar)));
        return SheetAccount.Of(request.FileName, false, false, reading, entered, changes);
    }

    // As a change of the cellar is always made, but without reading it once more afterwards: a large sheet is half of what there is to read.
    private static async ValueTask Write(ICellars cellars, Cellar before, Func<Cellar, IReadOnlyList<CellarEvent>> decide)
    {
        for (var attempt = 0; attempt < 20; attempt++)
        {
            var cellar = attempt == 0 ? before : await cellars.ReadAsync();
            var events = decide(cellar);
            if (events.Count == 0)
                return;
            Rules.Check(cellar, events);
            if (await cellars.AppendAsync(cellar.Version, events) is AppendResult.Written)
                return;
        }

        throw new Refusal("The ledger is busy: others kept writing to it. Nothing was imported; try again.");
    }

    private static IReadOnlyList<CellarEvent> Decide(Cellar cellar, SheetRequest request, SheetReading reading, IReadOnlyList<RowFacts> entered, Guid? earlier, string sha256, DateTimeOffset now)
    {
        if (cellar.Imports.Any(import => import.Fact.Sha256 == sha256))
            return [];
        var events = RowEvents.Of(cellar, reading, entered, request.FileName, sha256, now);
        return earlier is { } id && request.WhenChanged == WhenChanged.Replace
            ? [CellarEvent.New(new Fact.EventUndone(id, $"replaced by {request.FileName}"), Ledger.Dates.UnevenDate.Unknown, now), .. events]
            : events;
    }

    // Rows that were only added are new; rows that changed are entered anew only where the person says so.
    private static IReadOnlyList<RowFacts> Entered(SheetRequest request, SheetReading reading, SheetChanges? changes) =>
        changes is null || request.WhenChanged == WhenChanged.Replace ? reading.Rows : changes.Added;

    private static (SheetChanges? Changes, Guid? Import) Earlier(Cellar cellar, DataFolder? folder, SheetRequest request, SheetReading reading, DateOnly today)
    {
        if (folder is null)
            return (null, null);
        foreach (var import in cellar.Imports.Reverse())
        {
            var kept = KeptPath(folder, import.Fact.Sha256, import.Fact.File);
            if (!System.IO.File.Exists(kept))
                continue;
            SheetReading former;
            try
            {
                former = SheetUnderstanding.Of(SheetReader.Read(System.IO.File.ReadAllBytes(kept)), today, request.Map);
            }
            catch (Refusal)
            {
                // What is kept is not a sheet any more; it cannot be compared, and the new file stands for itself.
                continue;
            }

            var changes = SheetChanges.Between(import.Fact.File, former, reading);
            if (changes.IsSameSheet(string.Equals(import.Fact.File, request.FileName, StringComparison.OrdinalIgnoreCase)))
                return (changes, import.Entry.Event);
        }

        return (null, null);
    }

    private static string Asked(SheetChanges changes)
    {
        static string Rows(IReadOnlyList<RowFacts> rows) => rows.Count == 0 ? "none" : string.Join(", ", rows.Take(12).Select(row => row.Row)) + (rows.Count > 12 ? ", ..." : "");
        return $"The sheet was imported before as '{changes.Before}' and has changed: {changes.Same} rows are the same, rows of the new file that were not there: {Rows(changes.Added)}; "
            + $"rows of the earlier file that are gone or changed: {Rows(changes.Missing)}. Nothing was imported. Say --changed add to leave what is there and add the new rows, "
            + "or --changed replace to undo the earlier import and take the file anew; --dry-run shows it first.";
    }

    private static void Keep(DataFolder folder, SheetRequest request, string sha256)
    {
        Directory.CreateDirectory(folder.Imports);
        var path = KeptPath(folder, sha256, request.FileName);
        if (System.IO.File.Exists(path))
            return;
        var half = path + ".part";
        using (var stream = new FileStream(half, FileMode.Create, FileAccess.Write))
        {
            stream.Write(request.Bytes.Span);
            stream.Flush(flushToDisk: true);
        }

        System.IO.File.Move(half, path, overwrite: true);
    }

    internal static string KeptPath(DataFolder folder, string sha256, string fileName)
    {
        var ending = Path.GetExtension(fileName).ToLowerInvariant();
        return Path.Combine(folder.Imports, sha256 + (ending is ".csv" or ".xlsx" or ".tsv" or ".txt" ? ending : ".sheet"));
    }
}
