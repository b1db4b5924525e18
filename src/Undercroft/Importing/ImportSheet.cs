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

    /// <summary>Leave what was imported as it is, also where its rows have changed since, and add the rows that are new.</summary>
    AddNew,

    /// <summary>Bring packages of changed rows up to date where nothing was noted of them since, ask about the others and about rows that are gone, and add the rows that are new.</summary>
    Update,

    /// <summary>Undo the earlier import and import the file anew; what was answered about rows that are the same still holds.</summary>
    Replace,
}

/// <summary>A sheet that a person hands in.</summary>
/// <param name="FileName">Its name, without any folder.</param>
/// <param name="Bytes">The whole file.</param>
/// <param name="Map">What the person says about its columns, or null.</param>
/// <param name="DryRun">True to write nothing and say the same numbers.</param>
/// <param name="WhenChanged">What to do where it changed since it was imported.</param>
public sealed record SheetRequest(string FileName, ReadOnlyMemory<byte> Bytes, SheetMap? Map = null, bool DryRun = false, WhenChanged WhenChanged = WhenChanged.Ask)
{
    /// <summary>The file as it was read already; null to read it from the bytes.</summary>
    public SheetFile? Read { get; init; }
}

/// <summary>Brings a sheet into the cellar: all of it in one import that can be undone, the same file never twice, the file itself kept.</summary>
public static class ImportSheet
{
    private const int Attempts = 20;

    /// <summary>Reads, understands and writes.</summary>
    /// <param name="cellars">The cellar; null in a dry run where there is none yet.</param>
    /// <param name="folder">Where the file is kept; null in a dry run.</param>
    /// <param name="request">The sheet.</param>
    /// <param name="today">The present day, for a cellar as it was read.</param>
    /// <param name="now">The instant that is written beside what is recorded.</param>
    /// <param name="progress">Told how many rows are done, now and then.</param>
    /// <param name="writing">Told how many lines are about to be written.</param>
    /// <exception cref="Refusal">The file is no sheet, or it changed since it was imported and nobody said what to do. Nothing was written.</exception>
    public static async ValueTask<SheetAccount> RunAsync(
        ICellars? cellars, DataFolder? folder, SheetRequest request, Func<Cellar, DateOnly> today, Func<Cellar, DateTimeOffset> now, Action<int>? progress = null, Action<int>? writing = null)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(today);
        ArgumentNullException.ThrowIfNull(now);
        var file = request.Read ?? SheetReader.Read(request.Bytes, encoding: request.Map?.Encoding);
        var sha256 = Convert.ToHexStringLower(SHA256.HashData(request.Bytes.Span));
        for (var attempt = 0; attempt < Attempts; attempt++)
        {
            var cellar = cellars is null ? Cellar.Empty : await cellars.ReadAsync();
            var (account, events) = Understood(cellar, folder, request with { Read = file }, sha256, today(cellar), now(cellar), progress);
            if (events.Count == 0)
                return account;
            writing?.Invoke(events.Count);
            // As a change of the cellar is always made, but without reading it once more afterwards: a large sheet is half of what there is to read.
            if (await cellars!.AppendAsync(cellar.Version, events) is AppendResult.Written)
                return account;
        }

        throw new Refusal("The ledger is busy: others kept writing to it. Nothing was imported; try again.");
    }

    // What the file says beside the cellar as it stands, and the lines to write. Of a long sheet only these are kept while they are written.
    private static (SheetAccount Account, IReadOnlyList<CellarEvent> Events) Understood(
        Cellar cellar, DataFolder? folder, SheetRequest request, string sha256, DateOnly today, DateTimeOffset now, Action<int>? progress)
    {
        var reading = SheetUnderstanding.Of(request.Read!, today, request.Map, progress);
        if (cellar.Imports.Any(import => import.Fact.Sha256 == sha256))
            return (SheetAccount.Of(cellar, request.FileName, request.DryRun, true, reading, [], null), []);
        var earlier = EarlierSheet.Of(cellar, folder, request, reading, today);
        var replaces = request.WhenChanged == WhenChanged.Replace;
        var rows = earlier is null || replaces ? reading.Rows : earlier.Changes.Added;
        IReadOnlyList<RowFacts> entered = earlier is not null && replaces ? [.. rows.Select(earlier.Answers.Answered).OfType<RowFacts>()] : rows;
        var update = earlier is { Changes.OnlyAdds: false } && (request.DryRun || request.WhenChanged == WhenChanged.Update) ? SheetUpdate.Of(cellar, earlier, request.FileName, sha256, now) : null;
        var account = SheetAccount.Of(cellar, request.FileName, request.DryRun, false, reading, entered, earlier, update);
        if (request.DryRun || folder is null)
            return (account, []);
        if (earlier is { Changes.OnlyAdds: false } && request.WhenChanged == WhenChanged.Ask)
            throw new Refusal(earlier.Asked());
        Keep(folder, request, sha256);
        var events = RowEvents.Of(cellar, reading, rows, request.FileName, sha256, now, replaces ? earlier?.Answers : null, request.WhenChanged == WhenChanged.Update ? update : null);
        if (earlier is not null && replaces)
            events = [CellarEvent.New(new Fact.EventUndone(earlier.Import.Entry.Event, $"replaced by {request.FileName}"), Ledger.Dates.UnevenDate.Unknown, now), .. events];
        try
        {
            Rules.Check(cellar, events);
        }
        catch (Refusal refusal) when (replaces)
        {
            throw new Refusal($"The earlier import cannot be taken back: {refusal.Message} Or keep it: --changed update corrects the packages of which nothing was noted since and asks about the others; --changed add brings the new rows alone. Nothing was imported.");
        }

        return (account, events);
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
