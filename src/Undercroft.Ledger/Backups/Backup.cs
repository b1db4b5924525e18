using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;
using Undercroft.Ledger.Sqlite;

namespace Undercroft.Ledger.Backups;

/// <summary>What a backup holds.</summary>
/// <param name="Events">Events in it.</param>
/// <param name="Digest">Of the ledger at that moment.</param>
/// <param name="Files">Pictures and raw files in it.</param>
/// <param name="Made">When.</param>
/// <param name="Readings">Readings in it, undone ones too.</param>
public sealed record BackupMade(long Events, string Digest, int Files, DateTimeOffset Made, long Readings = 0);

/// <summary>
/// One zip that a person can read without this program: the events as lines of JSON with their schema, plain tables, pictures, the raw imported files, and a page that explains
/// it all. Passwords and keys are never in it.
/// </summary>
public static class Backup
{
    internal const string Format = "undercroft-backup/1";
    internal const string Lines = "ledger/events.jsonl";
    internal const string Manifest = "manifest.json";

    /// <summary>Writes a backup while others may go on writing to the ledger: it holds one moment.</summary>
    /// <param name="folder">From <see cref="DataFolder.Existing"/>.</param>
    /// <param name="file">The zip to write; it appears whole or not at all.</param>
    /// <param name="now">When it is made.</param>
    /// <param name="cellar">Which of several ledgers in the file.</param>
    /// <exception cref="Refusal">The file exists, cannot be written, or the ledger is damaged.</exception>
    public static BackupMade Write(DataFolder folder, string file, DateTimeOffset now, string cellar = "cellar")
    {
        ArgumentNullException.ThrowIfNull(folder);
        var full = Path.GetFullPath(file);
        if (File.Exists(full) || Directory.Exists(full))
            throw new Refusal($"{full} is there already. A backup never overwrites; name another file.");
        using var connection = LedgerFile.Open(folder.Ledger, create: false);
        var half = full + ".half-" + Guid.NewGuid().ToString("N");
        try
        {
            var rows = LedgerFile.Rows(connection, cellar);
            var digest = rows.Count == 0 ? LedgerDigest.Start : rows[^1].Digest;
            int files;
            long readings;
            using (var stream = new FileStream(half, FileMode.CreateNew, FileAccess.Write, FileShare.None))
            {
                using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
                {
                    (files, readings) = Write(zip, rows, new ReadingTable(connection, cellar), digest, folder, now);
                }

                stream.Flush(flushToDisk: true);
            }

            File.Move(half, full, overwrite: false);
            var made = new BackupMade(rows.Count, digest, files, now, readings);
            Marks.Set(connection, Marks.LastBackup, JsonSerializer.Serialize(made, MarksJson.Default.BackupMade));
            return made;
        }
        catch (SqliteException failed)
        {
            throw LedgerFile.Told(failed, folder.Ledger);
        }
        catch (Exception failed) when (failed is IOException or UnauthorizedAccessException)
        {
            throw new Refusal($"The backup {full} could not be written: {failed.Message} Nothing is left of it; name a place with room where you may write.");
        }
        finally
        {
            if (File.Exists(half))
                File.Delete(half);
        }
    }

    /// <summary>The last backup of a ledger; null where none was ever made.</summary>
    /// <param name="folder">From <see cref="DataFolder.Existing"/>.</param>
    public static BackupMade? Last(DataFolder folder)
    {
        ArgumentNullException.ThrowIfNull(folder);
        if (!File.Exists(folder.Ledger))
            return null;
        using var connection = LedgerFile.Open(folder.Ledger, create: false);
        return Marks.Get(connection, Marks.LastBackup) is { } text ? JsonSerializer.Deserialize(text, MarksJson.Default.BackupMade) : null;
    }

    private static (int Files, long Readings) Write(ZipArchive zip, List<LedgerRow> rows, ReadingTable readings, string digest, DataFolder folder, DateTimeOffset now)
    {
        CellarEvent[] events = [.. rows.Select(row => EventLine.Read(row.Line))];
        Fact.ReadingsImported[] batches = [.. events.Select(line => line.Fact).OfType<Fact.ReadingsImported>()];
        var count = batches.Sum(batch => batch.Count);
        Add(zip, Manifest, JsonSerializer.Serialize(new BackupManifest(Format, LedgerFile.NewestSchema, rows.Count, digest, now.ToUniversalTime(), count), MarksJson.Default.BackupManifest));
        Add(zip, "README.txt", ReadMe(rows.Count, digest, now));
        Add(zip, Lines, string.Concat(rows.Select(row => row.Line + "\n")));
        Add(zip, "ledger/event-schema.json", EventSchema.Text());
        foreach (var (name, text) in Tables.Of(Cellar.Fold(events)))
            Add(zip, "tables/" + name, "\uFEFF" + text);
        foreach (var batch in batches)
        {
            using var stream = zip.CreateEntry(NameOf(batch.Batch), CompressionLevel.Fastest).Open();
            ReadingLines.Write(stream, readings.Rows(batch.Batch));
        }

        var files = 0;
        foreach (var (name, path) in new[] { ("photos", folder.Photos), ("imports", folder.Imports) })
        {
            foreach (var source in (Directory.Exists(path) ? Directory.GetFiles(path) : []).Order(StringComparer.Ordinal))
            {
                zip.CreateEntryFromFile(source, $"{name}/{Path.GetFileName(source)}");
                files++;
            }
        }

        return (files, count);
    }

    /// <summary>Where a batch lies in a backup.</summary>
    internal static string NameOf(Guid batch) => $"readings/{batch}.csv";

    private static void Add(ZipArchive zip, string name, string text)
    {
        using var stream = zip.CreateEntry(name, CompressionLevel.Optimal).Open();
        stream.Write(Encoding.UTF8.GetBytes(text));
    }

    private static string ReadMe(int events, string digest, DateTimeOffset now) => string.Create(CultureInfo.InvariantCulture, $"""
        A cellar of pipe tobacco, written by Undercroft on {now.ToUniversalTime():yyyy-MM-dd HH:mm} UTC.

        tables/*.csv            for reading: packages, lots, places, measurements, history. UTF-8, commas, ISO 8601 dates, units in the names of the columns.
                                Low and high are the ends of what is known; blank is unknown.
        ledger/events.jsonl     the truth: {events} events, one line of JSON each, in order. The tables are worked out from them.
        ledger/event-schema.json  what the lines mean.
        readings/*.csv          what loggers noted, one file an import; tables/readings.csv says which place and sensor each is of. Kelvin; humidity from 0 to 1; Pa; lx.
                                The SHA-256 of each file stands in its line of the ledger.
        photos/, imports/       pictures, and the sheets and logger files as they were read.
        manifest.json           number of events and digest.

        Digest: {digest}
        It is a chain: the digest after each line is the SHA-256 of the digest before it, a line end, the line, and a line end; before the first line it is empty.
        With common tools:  d=; while IFS= read -r l; do d=$(printf '%s\n%s\n' "$d" "$l" | sha256sum | cut -d' ' -f1); done < ledger/events.jsonl; echo $d

        To have it back in the program:  undercroft restore THIS.zip --data NEW-FOLDER

        """);
}
