using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;

namespace Undercroft.Backups;

/// <summary>What a whole ledger adds up to.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="Events">Lines of the ledger.</param>
/// <param name="Readings">Readings of loggers in force.</param>
/// <param name="Digest">Of all lines in their order; the same digest means the same ledger.</param>
/// <param name="Problems">What is wrong, in words; empty where all adds up.</param>
/// <param name="LastBackupDay">Day of the last backup, or null where none was ever made or the ledger cannot be read.</param>
public sealed record LedgerFound(string Verdict, long Events, long Readings, string Digest, IReadOnlyList<string> Problems, string? LastBackupDay);

/// <summary>Checks a ledger from its bytes up to the cellar that it tells of. Changes nothing.</summary>
public static class LedgerCheck
{
    /// <summary>Checks it.</summary>
    /// <param name="folder">With a cellar in it.</param>
    public static LedgerFound Of(DataFolder folder)
    {
        ArgumentNullException.ThrowIfNull(folder);
        var found = Verification.Of(folder);
        var verdict = found.Problems.Count switch
        {
            0 => string.Create(CultureInfo.InvariantCulture, $"All {found.Events} lines{(found.Readings > 0 ? $" and {found.Readings} readings" : "")} are there, unchanged since they were written, and make a cellar."),
            1 => "One thing is wrong with this ledger. Copy the folder before anything else, then restore the last backup into a new one.",
            _ => string.Create(CultureInfo.InvariantCulture, $"{found.Problems.Count} things are wrong with this ledger. Copy the folder before anything else, then restore the last backup into a new one."),
        };
        return new(verdict, found.Events, found.Readings, found.Digest, found.Problems, LastBackup(folder));
    }

    private static string? LastBackup(DataFolder folder)
    {
        try
        {
            return Backup.Last(folder)?.Made.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        }
        catch (Exception broken) when (broken is Refusal or System.Data.Common.DbException)
        {
            return null; // a file that is no ledger: the problems say so
        }
    }
}
