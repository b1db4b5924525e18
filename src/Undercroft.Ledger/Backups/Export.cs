using System.Text;
using Undercroft.Ledger.Sqlite;

namespace Undercroft.Ledger.Backups;

/// <summary>A cellar as plain files in a folder, for spreadsheets and other programs.</summary>
public static class Export
{
    /// <summary>Writes tables; and, where nothing is to be left out, the events with their schema, pictures and raw imported files.</summary>
    /// <param name="folder">From <see cref="DataFolder.Existing"/>.</param>
    /// <param name="target">A folder that does not exist or is empty; it appears whole or not at all.</param>
    /// <param name="redaction">What to leave out.</param>
    /// <param name="view">Which past to write; then tables alone are written, since the lines tell of everything.</param>
    /// <param name="cellar">Which of several ledgers in the file.</param>
    /// <returns>The files written, by their path inside the folder.</returns>
    /// <exception cref="Refusal">The folder is in use or cannot be written.</exception>
    public static IReadOnlyList<string> Into(DataFolder folder, string target, Redaction redaction = default, View view = default, string cellar = "cellar")
    {
        ArgumentNullException.ThrowIfNull(folder);
        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(target));
        if (File.Exists(full) || (Directory.Exists(full) && Directory.EnumerateFileSystemEntries(full).Any()))
            throw new Refusal($"{full} is not empty. An export is written into a folder that does not exist or is empty.");
        var half = full + ".half-" + Guid.NewGuid().ToString("N");
        try
        {
            List<string> written = [];
            using (var connection = LedgerFile.Open(folder.Ledger, create: false))
            {
                var rows = LedgerFile.Rows(connection, cellar);
                Directory.CreateDirectory(half);
                var whole = Cellar.Fold(rows.Select(row => Events.EventLine.Read(row.Line)), view);
                foreach (var (name, text) in Tables.Of(whole, redaction))
                    Write(half, name, "\uFEFF" + text, written);
                if (!redaction.Places)
                    written.AddRange(ReadingTables.Write(whole, new ReadingTable(connection, cellar), Path.Combine(half, "readings")).Select(name => "readings/" + name));
                if (redaction == Redaction.None && view == View.Now)
                {
                    Write(half, "events.jsonl", string.Concat(rows.Select(row => row.Line + "\n")), written);
                    Write(half, "event-schema.json", EventSchema.Text(), written);
                    Copy(folder.Photos, half, "photos", written);
                    Copy(folder.Imports, half, "imports", written);
                }
            }

            if (Directory.Exists(full))
                Directory.Delete(full);
            Directory.Move(half, full);
            return written;
        }
        catch (Exception failed) when (failed is IOException or UnauthorizedAccessException)
        {
            throw new Refusal($"The export {full} could not be written: {failed.Message} Nothing is left of it; name a place with room where you may write.");
        }
        finally
        {
            if (Directory.Exists(half))
                Directory.Delete(half, recursive: true);
        }
    }

    private static void Write(string root, string name, string text, List<string> written)
    {
        File.WriteAllText(Path.Combine(root, name), text, new UTF8Encoding(false));
        written.Add(name);
    }

    private static void Copy(string from, string root, string name, List<string> written)
    {
        if (!Directory.Exists(from))
            return;
        Directory.CreateDirectory(Path.Combine(root, name));
        foreach (var file in Directory.GetFiles(from).Order(StringComparer.Ordinal))
        {
            File.Copy(file, Path.Combine(root, name, Path.GetFileName(file)));
            written.Add($"{name}/{Path.GetFileName(file)}");
        }
    }
}
