using System.Globalization;
using Spectre.Console;
using Undercroft.Ledger.Backups;
using Undercroft.Shell;

namespace Undercroft.Backups;

/// <summary>A backup that was made or brought back.</summary>
/// <param name="Events">Lines of the ledger in it.</param>
/// <param name="Readings">Readings of loggers in it, those that were taken back too.</param>
/// <param name="Digest">Of all lines in their order.</param>
/// <param name="Files">Pictures and sheets in it.</param>
/// <param name="MadeDay">When it was made.</param>
/// <param name="Path">The zip, or the folder it was brought back into.</param>
/// <param name="Problems">What checking the ledger afterwards found.</param>
public sealed record BackupAnswer(long Events, long Readings, string Digest, int Files, string MadeDay, string Path, IReadOnlyList<string> Problems)
{
    /// <summary>Of what was made.</summary>
    public static BackupAnswer Of(BackupMade made, string path, LedgerFound found)
    {
        ArgumentNullException.ThrowIfNull(made);
        ArgumentNullException.ThrowIfNull(found);
        return new(made.Events, made.Readings, made.Digest, made.Files, made.Made.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), path, found.Problems);
    }

    /// <summary>The answer for both kinds of reader.</summary>
    /// <param name="done">What was done, as the first line begins.</param>
    /// <param name="after">What to do now.</param>
    internal Answer ToAnswer(string done, string after) => new(this, page =>
    {
        page.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{done}: {Events} lines, {Readings} readings and {Files} {(Files == 1 ? "file" : "files")}, made {MadeDay}."));
        page.WriteLine(Path);
        page.WriteLine($"Digest {Digest}");
        foreach (var problem in Problems)
            page.WriteLine($"Wrong: {problem}");
        page.WriteLine(after);
    });
}
