using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;

namespace Undercroft.Backups;

/// <summary>A backup that lies in the data folder.</summary>
/// <param name="Name">Of the file.</param>
/// <param name="Bytes">Its size.</param>
public sealed record KeptBackup(string Name, long Bytes);

/// <summary>How a cellar is backed up.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="LastDay">Day of the last backup, wherever it was written; null where none is known.</param>
/// <param name="Days">Its age in days.</param>
/// <param name="Behind">Lines written since.</param>
/// <param name="Late">True where one should be made now.</param>
/// <param name="Kept">Backups in the data folder, the latest first.</param>
public sealed record BackupStanding(string Verdict, string? LastDay, int? Days, long Behind, bool Late, IReadOnlyList<KeptBackup> Kept);

/// <summary>Backups made with one press: they lie in the data folder until somebody takes a copy elsewhere.</summary>
public static class KeptBackups
{
    /// <summary>Days after which a backup with lines missing from it counts as old (assumption: a month of writing is what a person would care to enter again).</summary>
    public const int LateDays = 30;

    /// <summary>How the cellar stands.</summary>
    /// <param name="folder">With a cellar in it.</param>
    /// <param name="cellar">As read.</param>
    /// <param name="today">The present.</param>
    public static BackupStanding Of(DataFolder folder, Cellar cellar, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(cellar);
        var kept = Files(folder);
        if (Backup.Last(folder) is not { } last)
            return new(cellar.Version == 0 ? "Nothing is written yet, so there is nothing to back up." : "No backup of this cellar is known.", null, null, cellar.Version, cellar.Version > 0, kept);
        var day = DateOnly.FromDateTime(last.Made.UtcDateTime);
        var days = Math.Max(today.DayNumber - day.DayNumber, 0);
        var behind = Math.Max(cellar.Version - last.Events, 0);
        var age = days switch { 0 => "today", 1 => "yesterday", _ => string.Create(CultureInfo.InvariantCulture, $"{days} days ago") };
        var missing = behind switch { 0 => "nothing was written since", 1 => "one line was written since", _ => string.Create(CultureInfo.InvariantCulture, $"{behind} lines were written since") };
        return new($"Last backup {age}; {missing}.", day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), days, behind, behind > 0 && days > LateDays, kept);
    }

    /// <summary>Makes one.</summary>
    /// <param name="folder">With a cellar in it.</param>
    /// <param name="now">When.</param>
    /// <exception cref="Refusal">It could not be written.</exception>
    public static KeptBackup Make(DataFolder folder, DateTimeOffset now)
    {
        ArgumentNullException.ThrowIfNull(folder);
        MakePrivate(folder.Backups);
        var stem = "undercroft-" + now.UtcDateTime.ToString("yyyy-MM-dd-HHmmss", CultureInfo.InvariantCulture);
        var name = stem + ".zip";
        for (var twin = 2; File.Exists(Path.Combine(folder.Backups, name)); twin++)
            name = string.Create(CultureInfo.InvariantCulture, $"{stem}-{twin}.zip");
        Backup.Write(folder, Path.Combine(folder.Backups, name), now);
        return new(name, new FileInfo(Path.Combine(folder.Backups, name)).Length);
    }

    /// <summary>The path of a backup in the data folder by its name; null where there is none of that name.</summary>
    public static string? Find(DataFolder folder, string name)
    {
        ArgumentNullException.ThrowIfNull(folder);
        return Files(folder).Any(file => file.Name == name) ? Path.Combine(folder.Backups, name) : null;
    }

    private static KeptBackup[] Files(DataFolder folder) => !Directory.Exists(folder.Backups) ? [] :
    [
        .. new DirectoryInfo(folder.Backups).EnumerateFiles("*.zip").OrderByDescending(file => file.Name, StringComparer.Ordinal).Select(file => new KeptBackup(file.Name, file.Length)),
    ];

    private static void MakePrivate(string path)
    {
        try
        {
            if (OperatingSystem.IsWindows())
                Directory.CreateDirectory(path);
            else
                Directory.CreateDirectory(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
        catch (Exception failed) when (failed is IOException or UnauthorizedAccessException)
        {
            throw new Refusal($"The folder {path} cannot be made: {failed.Message} Write a backup elsewhere with: undercroft backup --out FILE.zip");
        }
    }
}
