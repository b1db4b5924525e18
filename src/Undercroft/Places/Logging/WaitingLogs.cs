using System.Security.Cryptography;
using Undercroft.Shell.Logs;
using Undercroft.Shell.Web;

namespace Undercroft.Places.Logging;

/// <summary>A logger's file that was handed in and waits for a yes.</summary>
/// <param name="FileName">Its name, without any folder.</param>
/// <param name="Bytes">The whole file.</param>
/// <param name="Place">Where the logger stood.</param>
/// <param name="Since">When it was handed in.</param>
public sealed record WaitingLog(string FileName, byte[] Bytes, string Place, DateTimeOffset Since)
{
    /// <summary>What the person said of it.</summary>
    public LogAnswers Answers { get; init; } = LogAnswers.None;

    /// <summary>The columns as typed.</summary>
    public string? Columns { get; init; }

    /// <summary>The import, once it was said yes to.</summary>
    public LongWork<LoggerAccount>? Keeping { get; init; }

    /// <summary>Counts what was said of it, so that an answer about it can be told from an earlier one.</summary>
    public int Edition { get; init; }
}

/// <summary>Logs between "show what it says" and "bring it in". They wait in memory alone, a few at a time and not for long.</summary>
public sealed class WaitingLogs(TimeProvider clock)
{
    private const int Most = 4;
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(30);
    private readonly Lock gate = new();
    private readonly Dictionary<string, WaitingLog> logs = new(StringComparer.Ordinal);

    /// <summary>Takes a log in and gives the key under which it waits.</summary>
    public string Add(string fileName, byte[] bytes, string place)
    {
        var key = RandomNumberGenerator.GetHexString(32, lowercase: true);
        lock (gate)
        {
            Forget();
            while (logs.Count >= Most)
                logs.Remove(logs.MinBy(pair => pair.Value.Since).Key);
            logs[key] = new(fileName, bytes, place, clock.GetUtcNow());
        }

        return key;
    }

    /// <summary>The log of a key; null where it is not there any more.</summary>
    public WaitingLog? Find(string? key)
    {
        lock (gate)
        {
            Forget();
            return key is not null && logs.TryGetValue(key, out var log) ? log : null;
        }
    }

    /// <summary>Puts a changed log in the place of what waited.</summary>
    public void Replace(string key, WaitingLog log)
    {
        lock (gate)
        {
            if (logs.ContainsKey(key))
                logs[key] = log with { Edition = log.Edition + 1 };
        }
    }

    private void Forget()
    {
        var before = clock.GetUtcNow() - Patience;
        foreach (var (key, _) in logs.Where(pair => pair.Value.Since < before).ToList())
            logs.Remove(key);
    }
}
