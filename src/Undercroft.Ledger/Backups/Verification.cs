using System.Globalization;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Sqlite;

namespace Undercroft.Ledger.Backups;

/// <summary>What checking a whole ledger found.</summary>
/// <param name="Events">Events read.</param>
/// <param name="Readings">Readings in force: undone ones are not counted, and one that two imports of a sensor hold is counted once.</param>
/// <param name="Digest">
/// Of the whole ledger; two ledgers with the same digest hold the same events in the same order, and the same readings, since the lines hold the digests of these.
/// </param>
/// <param name="Problems">What is wrong, in words; empty where all is well.</param>
public sealed record Verified(long Events, long Readings, string Digest, IReadOnlyList<string> Problems);

/// <summary>Checks a ledger from the bytes of its file up to the cellar that it tells of.</summary>
public static class Verification
{
    /// <summary>Checks the file, the chain of digests, every line, and the fold from zero. Changes nothing.</summary>
    /// <param name="folder">From <see cref="DataFolder.Existing"/>.</param>
    /// <param name="cellar">Which of several ledgers in the file.</param>
    public static Verified Of(DataFolder folder, string cellar = "cellar")
    {
        ArgumentNullException.ThrowIfNull(folder);
        List<string> problems = [];
        List<LedgerRow> rows = [];
        var digest = LedgerDigest.Start;
        var readings = 0L;
        try
        {
            using var connection = LedgerFile.Open(folder.Ledger, create: false);
            problems.AddRange(Integrity(connection));
            rows = LedgerFile.Rows(connection, cellar);
            digest = Lines([.. rows], problems, out var events);
            var whole = Folds(events, problems);
            readings = ReadingCheck.Of(new ReadingTable(connection, cellar), events, whole, problems);
        }
        catch (Exception broken) when (broken is SqliteException or Refusal or InvalidCastException)
        {
            problems.Add($"The file cannot be read through: {broken.Message}");
        }

        return new Verified(rows.Count, readings, digest, problems);
    }

    private static IEnumerable<string> Integrity(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA integrity_check(20)";
        using var reader = command.ExecuteReader();
        while (reader.Read())
        {
            if (reader.GetString(0) is not "ok" and var found)
                yield return $"The file is damaged: {found}";
        }
    }

    private static string Lines(LedgerRow[] rows, List<string> problems, out List<CellarEvent> events)
    {
        events = [];
        var digest = LedgerDigest.Start;
        for (var i = 0; i < rows.Length; i++)
        {
            var row = rows[i];
            var name = string.Create(CultureInfo.InvariantCulture, $"Line {row.Version}");
            if (row.Version != i + 1)
                problems.Add(string.Create(CultureInfo.InvariantCulture, $"{name} stands at place {i + 1}: a line is missing before it."));
            digest = LedgerDigest.After(digest, row.Line);
            if (digest != row.Digest)
            {
                problems.Add($"{name}: it does not fit its digest. It was changed after it was written, or one before it was.");
                digest = row.Digest;
            }

            try
            {
                var line = EventLine.Read(row.Line);
                if (line.Version != row.Version || line.Id.ToString() != row.Id || line.Fact.Type != row.Type)
                    problems.Add($"{name}: it speaks of another number, ID or type than its row.");
                events.Add(line);
            }
            catch (InvalidDataException unread)
            {
                problems.Add($"{name}: {unread.Message}");
            }
        }

        return digest;
    }

    private static Cellar? Folds(List<CellarEvent> events, List<string> problems)
    {
        try
        {
            return Cellar.Fold(events);
        }
        catch (InvalidDataException broken)
        {
            problems.Add($"The lines do not make a cellar: {broken.Message}");
            return null;
        }
    }
}
