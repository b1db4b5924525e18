using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;
using Undercroft.Ledger.Sqlite;

namespace Undercroft.Ledger.Backups;

/// <summary>Brings a backup back into a new folder, with the same digest or not at all.</summary>
public static class Restoring
{
    private const long AlwaysAllowed = 1L << 30;
    private const int MostExpansion = 200;

    /// <summary>Restores a backup.</summary>
    /// <param name="file">The zip.</param>
    /// <param name="target">A folder that does not exist or is empty.</param>
    /// <exception cref="Refusal">The folder is in use, or the file is no sound backup; nothing was made.</exception>
    public static BackupMade Into(string target, string file)
    {
        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(target));
        if (File.Exists(full) || (Directory.Exists(full) && Directory.EnumerateFileSystemEntries(full).Any()))
            throw new Refusal($"{full} is not empty. A backup is restored into a folder that does not exist or is empty.");
        var half = full + ".half-" + Guid.NewGuid().ToString("N");
        try
        {
            using var zip = Opened(file);
            var manifest = Checked(zip, file);
            var folder = DataFolder.OrNew(half);
            var files = Files(zip, folder);
            Ledger(zip, folder, manifest, file);
            if (Directory.Exists(full))
                Directory.Delete(full);
            Directory.Move(half, full);
            return new BackupMade(manifest.Events, manifest.Digest, files, manifest.Made, manifest.Readings);
        }
        catch (Exception failed) when (failed is IOException or UnauthorizedAccessException or InvalidDataException or JsonException or DecoderFallbackException)
        {
            throw new Refusal($"{file} could not be restored: {failed.Message} Nothing was made at {full}.");
        }
        catch (SqliteException failed)
        {
            throw LedgerFile.Told(failed, half);
        }
        finally
        {
            if (Directory.Exists(half))
                Directory.Delete(half, recursive: true);
        }
    }

    private static ZipArchive Opened(string file)
    {
        if (!File.Exists(file))
            throw new Refusal($"There is no file {Path.GetFullPath(file)}. Name a backup that was written by 'backup'.");
        try
        {
            return ZipFile.OpenRead(file);
        }
        catch (InvalidDataException)
        {
            throw new Refusal($"{file} is not a backup: it is no zip. Name a backup that was written by 'backup'.");
        }
    }

    /// <summary>Every name is one that a backup has, no name leads out of the folder, and it does not swell beyond measure.</summary>
    private static BackupManifest Checked(ZipArchive zip, string file)
    {
        var names = new HashSet<string>(StringComparer.Ordinal);
        foreach (var entry in zip.Entries)
        {
            if (!IsOurs(entry.FullName) || !names.Add(entry.FullName))
                throw new Refusal($"{file} is no sound backup: it holds '{entry.FullName}', which a backup never does. Nothing was restored.");
        }

        if (zip.Entries.Sum(entry => Math.Max(entry.Length, 0)) > Math.Max(AlwaysAllowed, MostExpansion * new FileInfo(file).Length))
            throw new Refusal($"{file} would unpack to far more than a backup can hold. Nothing was restored.");
        var manifest = zip.GetEntry(Backup.Manifest) is { } page ? JsonSerializer.Deserialize(Text(page), MarksJson.Default.BackupManifest) : null;
        if (manifest is null || zip.GetEntry(Backup.Lines) is null)
            throw new Refusal($"{file} is not a backup: its manifest or its events are missing. Name a backup that was written by 'backup'.");
        if (manifest.Format != Backup.Format || manifest.Schema > LedgerFile.NewestSchema)
            throw new Refusal($"{file} was written by a newer Undercroft ({manifest.Format}, schema {manifest.Schema.ToString(CultureInfo.InvariantCulture)}). Update this program, then restore.");
        return manifest;
    }

    private static bool IsOurs(string name)
    {
        if (name is "README.txt" or Backup.Manifest or Backup.Lines or "ledger/event-schema.json")
            return true;
        var parts = name.Split('/');
        return parts.Length == 2 && parts[0] is "photos" or "imports" or "tables" or "readings" && parts[1].Length is > 0 and <= 255 && parts[1] is not ("." or "..")
            && parts[1].All(letter => !char.IsControl(letter) && letter is not ('\\' or ':'));
    }

    private static int Files(ZipArchive zip, DataFolder folder)
    {
        var files = 0;
        foreach (var entry in zip.Entries)
        {
            var parts = entry.FullName.Split('/');
            var into = parts[0] switch { "photos" => folder.Photos, "imports" => folder.Imports, _ => null };
            if (into is null)
                continue;
            Directory.CreateDirectory(into);
            using var from = entry.Open();
            using var to = new FileStream(Path.Combine(into, parts[1]), FileMode.CreateNew);
            Copy(from, to, entry.Length);
            files++;
        }

        return files;
    }

    private static void Ledger(ZipArchive zip, DataFolder folder, BackupManifest manifest, string file)
    {
        using var connection = LedgerFile.Open(folder.Ledger, create: true);
        var digest = LedgerDigest.Start;
        var events = new List<CellarEvent>();
        using (var transaction = connection.BeginTransaction(deferred: false))
        {
            using var insert = new LineInsert(connection, "cellar");
            foreach (var text in Text(zip.GetEntry(Backup.Lines)!).Split('\n')[..^1])
            {
                var line = EventLine.Read(text);
                if (line.Version != events.Count + 1)
                    throw new InvalidDataException(string.Create(CultureInfo.InvariantCulture, $"line {line.Version} stands at place {events.Count + 1}."));
                var bytes = Encoding.UTF8.GetBytes(text);
                digest = LedgerDigest.After(digest, bytes);
                events.Add(line);
                if (!insert.Add(line, bytes, digest))
                    throw new InvalidDataException(string.Create(CultureInfo.InvariantCulture, $"line {line.Version} has the ID of another."));
            }

            if (digest != manifest.Digest || events.Count != manifest.Events)
                throw new Refusal($"{file} is damaged: its events do not add up to the digest in its manifest. Nothing was restored; try another backup.");
            Cellar.Fold(events);
            Readings(zip, connection, events, file);
            transaction.Commit();
        }

        LedgerFile.Run(connection, "PRAGMA wal_checkpoint(TRUNCATE)");
    }

    /// <summary>Every batch of which a line tells, and no other, exactly as it was sealed.</summary>
    private static void Readings(ZipArchive zip, SqliteConnection connection, List<CellarEvent> events, string file)
    {
        var table = new ReadingTable(connection, "cellar");
        var left = zip.Entries.Where(entry => entry.FullName.StartsWith("readings/", StringComparison.Ordinal)).ToDictionary(entry => entry.FullName);
        foreach (var told in events.Select(line => line.Fact).OfType<Fact.ReadingsImported>())
        {
            if (!left.Remove(Backup.NameOf(told.Batch), out var entry))
                throw new Refusal($"{file} is damaged: the readings of {told.File} are missing. Nothing was restored; try another backup.");
            using var from = new Measured(entry.Open(), entry.Length);
            var taken = table.Take(new ReadingBatch(told.Batch, ReadingLines.Read(from), _ => []));
            if (taken.Sha256 != told.Sha256 || taken.Count != told.Count || taken.Repeated + taken.Contradicted > 0)
                throw new Refusal($"{file} is damaged: the readings of {told.File} do not add up to their digest. Nothing was restored; try another backup.");
        }

        if (left.Count > 0)
            throw new Refusal($"{file} is no sound backup: no line of the ledger tells of '{left.Keys.First()}'. Nothing was restored.");
    }

    private static string Text(ZipArchiveEntry entry)
    {
        using var from = entry.Open();
        using var to = new MemoryStream();
        Copy(from, to, entry.Length);
        return new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(to.GetBuffer(), 0, (int)to.Length);
    }

    /// <summary>Copies at most what the entry says that it holds.</summary>
    private static void Copy(Stream from, Stream to, long length)
    {
        using var measured = new Measured(from, length);
        measured.CopyTo(to);
    }
}
