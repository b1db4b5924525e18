using System.Security.Cryptography;
using Undercroft.Importing.Rows;
using Undercroft.Shell.Web;

namespace Undercroft.Importing;

/// <summary>A sheet that was handed in and waits for a yes.</summary>
/// <param name="FileName">Its name, without any folder.</param>
/// <param name="Bytes">The whole file.</param>
/// <param name="Since">When it was handed in.</param>
public sealed record WaitingSheet(string FileName, byte[] Bytes, DateTimeOffset Since)
{
    /// <summary>What the person said of its columns, or null.</summary>
    public SheetMap? Map { get; init; }

    /// <summary>The import, once it was said yes to.</summary>
    public LongWork<SheetAccount>? Keeping { get; init; }

    /// <summary>Counts what was said of it, so that an answer about it can be told from an earlier one.</summary>
    public int Edition { get; init; }
}

/// <summary>Sheets between "show what it says" and "bring it in". They wait in memory alone, a few at a time and not for long.</summary>
public sealed class WaitingSheets(TimeProvider clock)
{
    private const int Most = 4;
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(30);
    private readonly Lock gate = new();
    private readonly Dictionary<string, WaitingSheet> sheets = new(StringComparer.Ordinal);

    /// <summary>Takes a sheet in and gives the key under which it waits.</summary>
    public string Add(string fileName, byte[] bytes)
    {
        var key = RandomNumberGenerator.GetHexString(32, lowercase: true);
        lock (gate)
        {
            Forget();
            while (sheets.Count >= Most)
                sheets.Remove(sheets.MinBy(pair => pair.Value.Since).Key);
            sheets[key] = new(fileName, bytes, clock.GetUtcNow());
        }

        return key;
    }

    /// <summary>The sheet of a key; null where it is not there any more.</summary>
    public WaitingSheet? Find(string? key)
    {
        lock (gate)
        {
            Forget();
            return key is not null && sheets.TryGetValue(key, out var sheet) ? sheet : null;
        }
    }

    /// <summary>Puts a changed sheet in the place of what waited.</summary>
    public void Replace(string key, WaitingSheet sheet)
    {
        lock (gate)
        {
            if (sheets.ContainsKey(key))
                sheets[key] = sheet with { Edition = sheet.Edition + 1 };
        }
    }

    private void Forget()
    {
        var before = clock.GetUtcNow() - Patience;
        foreach (var (key, _) in sheets.Where(pair => pair.Value.Since < before).ToList())
            sheets.Remove(key);
    }
}
