namespace Undercroft.Ledger;

/// <summary>The folder in which everything of one person lies. Nothing lives outside it.</summary>
public sealed record DataFolder
{
    private DataFolder(string path) => Path = path;

    /// <summary>Full path.</summary>
    public string Path { get; }

    /// <summary>The ledger.</summary>
    public string Ledger => System.IO.Path.Combine(Path, "ledger.sqlite");

    /// <summary>Pictures, named by their digest.</summary>
    public string Photos => System.IO.Path.Combine(Path, "photos");

    /// <summary>The bytes of a kept picture by its digest; null where there is no such file.</summary>
    public byte[]? Photo(string sha256)
    {
        ArgumentNullException.ThrowIfNull(sha256);
        if (sha256.Length != 64 || !sha256.All(char.IsAsciiHexDigitLower))
            return null;
        var file = System.IO.Path.Combine(Photos, sha256);
        return File.Exists(file) ? File.ReadAllBytes(file) : null;
    }

    /// <summary>Sheets and logger files as they were read.</summary>
    public string Imports => System.IO.Path.Combine(Path, "imports");

    /// <summary>Backups that were made with one press; a copy belongs in another house.</summary>
    public string Backups => System.IO.Path.Combine(Path, "backups");

    /// <summary>A folder with a cellar in it. Creates nothing.</summary>
    /// <exception cref="Refusal">There is no such folder, or no cellar in it.</exception>
    public static DataFolder Existing(string path)
    {
        var full = System.IO.Path.GetFullPath(path);
        if (File.Exists(full))
            throw new Refusal($"{full} is a file, not a data folder. Name the folder that holds the cellar.");
        if (!Directory.Exists(full))
            throw new Refusal($"There is no cellar at {full}: the folder does not exist. Add a first package, import a sheet, or name another folder with --data.");
        var folder = new DataFolder(full);
        return File.Exists(folder.Ledger)
            ? folder
            : throw new Refusal($"There is no cellar in {full}: it has no ledger.sqlite. Add a first package, import a sheet, or name another folder with --data.");
    }

    /// <summary>A folder for a cellar, made with access for its owner alone where it does not exist.</summary>
    /// <exception cref="Refusal">Something else is there, or the folder cannot be made.</exception>
    public static DataFolder OrNew(string path)
    {
        var full = System.IO.Path.GetFullPath(path);
        if (File.Exists(full))
            throw new Refusal($"{full} is a file, not a data folder. Name a folder.");
        var folder = new DataFolder(full);
        if (Directory.Exists(full))
        {
            if (!File.Exists(folder.Ledger) && Directory.EnumerateFileSystemEntries(full).Any(entry => System.IO.Path.GetFileName(entry) is not ("photos" or "imports" or "backups" or "keys" or "access.sqlite")))
                throw new Refusal($"{full} holds other things and no cellar. Name an empty folder or one that does not exist.");
            if (!File.Exists(folder.Ledger))
                ForItsOwnerAlone(full);
            return folder;
        }

        ForItsOwnerAlone(full);
        return folder;
    }

    private static void ForItsOwnerAlone(string full)
    {
        const UnixFileMode Owner = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
        try
        {
            if (OperatingSystem.IsWindows())
            {
                Directory.CreateDirectory(full);
            }
            else
            {
                Directory.CreateDirectory(full, Owner);
                File.SetUnixFileMode(full, Owner);
            }
        }
        catch (Exception failed) when (failed is IOException or UnauthorizedAccessException)
        {
            throw new Refusal($"The folder {full} cannot be made: {failed.Message} Name another folder with --data.");
        }
    }
}
