using Undercroft.Ledger;
using Undercroft.Shell.Logs;

namespace Undercroft.Places.Logging;

/// <summary>A copy of a logger's file beside the ledger, made while its readings are written and kept once they are.</summary>
internal sealed class KeptLog : IDisposable
{
    private readonly string path;
    private readonly string half;
    private readonly Task copying;

    /// <summary>Begins to copy, unless the same file is there.</summary>
    internal KeptLog(DataFolder folder, LogSource source, string sha256)
    {
        Directory.CreateDirectory(folder.Imports);
        var ending = Path.GetExtension(source.Name).ToLowerInvariant();
        path = Path.Combine(folder.Imports, sha256 + (ending is ".csv" or ".xlsx" or ".tsv" or ".txt" ? ending : ".log"));
        half = $"{path}.{Guid.NewGuid():N}.part";
        copying = File.Exists(path) ? Task.CompletedTask : Task.Run(() => Copy(source, half));
    }

    /// <summary>Waits for the copy and gives it its name.</summary>
    internal async Task KeepAsync()
    {
        await copying;
        if (File.Exists(half))
            File.Move(half, path, overwrite: true);
    }

    /// <summary>Lets go of a copy that was not kept.</summary>
    public void Dispose()
    {
        ((IAsyncResult)copying).AsyncWaitHandle.WaitOne();
        File.Delete(half);
    }

    private static void Copy(LogSource source, string to)
    {
        using var from = source.Open();
        using var file = new FileStream(to, FileMode.CreateNew, FileAccess.Write);
        from.CopyTo(file, 1 << 18);
        file.Flush(flushToDisk: true);
    }
}
