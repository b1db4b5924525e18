using System.Globalization;
using Microsoft.AspNetCore.Identity;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger;
using Undercroft.Shell.Web;

namespace Undercroft.Access;

/// <summary>A browser that was let in.</summary>
/// <param name="Id">To revoke it by.</param>
/// <param name="Name">As history calls it.</param>
/// <param name="How"><c>password</c> or <c>code</c>.</param>
/// <param name="Made">When it came in.</param>
/// <param name="Seen">When it was last here, to within five minutes.</param>
/// <param name="Revoked">True where it was shown out.</param>
public sealed record Device(string Id, string Name, string How, DateTimeOffset Made, DateTimeOffset Seen, bool Revoked);

/// <summary>What a program carries to come in.</summary>
/// <param name="Id">To revoke it by.</param>
/// <param name="Name">As history calls it.</param>
/// <param name="May">What it may do.</param>
/// <param name="Made">When.</param>
/// <param name="Used">When it was last used, to within five minutes; null where never.</param>
/// <param name="Revoked">True where it does not hold any more.</param>
public sealed record Token(string Id, string Name, Scope May, DateTimeOffset Made, DateTimeOffset? Used, bool Revoked);

/// <summary>Who may come in: a password, the devices that were let in, codes to pair another, tokens for programs.</summary>
public sealed partial class AccessStore : IDisposable
{
    /// <summary>How long a pairing code holds.</summary>
    public static readonly TimeSpan CodeHolds = TimeSpan.FromMinutes(10);

    /// <summary>A device that was not here for so long is asked for the password again.</summary>
    public static readonly TimeSpan IdleAtMost = TimeSpan.FromDays(90);

    /// <summary>However often it is here, after so long a device is asked again.</summary>
    public static readonly TimeSpan SignedInAtMost = TimeSpan.FromDays(365);

    private const int LongestName = 40;
    private static readonly TimeSpan SeenStep = TimeSpan.FromMinutes(5);

    private readonly PasswordHasher<AccessStore> hasher = new();
    private readonly Lock gate = new();
    private readonly SqliteConnection connection;
    private readonly TimeProvider clock;

    private AccessStore(SqliteConnection connection, TimeProvider clock) => (this.connection, this.clock) = (connection, clock);

    /// <summary>True where a password is set.</summary>
    public bool HasPassword => PasswordHash is not null;

    private string? PasswordHash => Rows("SELECT value FROM secret WHERE name = 'password'", row => row.GetString(0)).FirstOrDefault();

    /// <summary>Opens the store of a data folder, which must exist.</summary>
    /// <exception cref="Refusal">The file is not this program's.</exception>
    public static AccessStore Open(string folder, TimeProvider clock) => new(AccessFile.Open(folder), clock);

    /// <summary>True where a data folder has a password. Makes nothing.</summary>
    public static bool HasPasswordIn(string folder, TimeProvider clock)
    {
        if (!File.Exists(Path.Combine(folder, "access.sqlite")))
            return false;
        using var store = Open(folder, clock);
        return store.HasPassword;
    }

    /// <summary>Sets the password and shows every device out but one.</summary>
    /// <param name="password">New.</param>
    /// <param name="stays">The device that changes it; null where it is changed at the machine itself.</param>
    /// <exception cref="Refusal">Too short or easily guessed.</exception>
    public void SetPassword(string password, string? stays = null)
    {
        PasswordRule.Check(password);
        Write("INSERT INTO secret (name, value) VALUES ('password', $1) ON CONFLICT (name) DO UPDATE SET value = $1", hasher.HashPassword(this, password));
        Write("UPDATE devices SET revoked = $1 WHERE revoked IS NULL AND id <> $2", Now, stays ?? "");
        Write("DELETE FROM codes");
    }

    /// <summary>True for the password that was set.</summary>
    public bool IsPassword(string typed)
    {
        // A missing password costs the time of a wrong one.
        var kept = PasswordHash ?? hasher.HashPassword(this, Secrets.Token());
        var verdict = hasher.VerifyHashedPassword(this, kept, typed);
        if (verdict == PasswordVerificationResult.SuccessRehashNeeded)
            Write("UPDATE secret SET value = $1 WHERE name = 'password'", hasher.HashPassword(this, typed));
        return verdict != PasswordVerificationResult.Failed && HasPassword;
    }

    /// <summary>Closes the file.</summary>
    public void Dispose() => connection.Dispose();

    private string Now => Text(clock.GetUtcNow());

    /// <summary>A name for history: one line, not too long.</summary>
    internal static string Named(string? name)
    {
        var words = string.Join(' ', (name ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return words.Length switch
        {
            0 => throw new Refusal("It has no name yet. Give it one that history can call it by, such as kitchen tablet."),
            > LongestName => throw new Refusal($"The name is too long: {LongestName} letters at most."),
            _ => words.Any(char.IsControl) ? throw new Refusal("The name holds signs that cannot be printed.") : words,
        };
    }

    private static string Text(DateTimeOffset instant) => instant.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    private static DateTimeOffset Instant(string text) => DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal);

    private int Write(string sql, params string[] values)
    {
        lock (gate)
        {
            using var command = Command(sql, values);
            return command.ExecuteNonQuery();
        }
    }

    private List<T> Rows<T>(string sql, Func<SqliteDataReader, T> row, params string[] values)
    {
        lock (gate)
        {
            using var command = Command(sql, values);
            using var reader = command.ExecuteReader();
            List<T> rows = [];
            while (reader.Read())
                rows.Add(row(reader));
            return rows;
        }
    }

#pragma warning disable CA2100 // Every statement is a constant of this class; what people typed goes in as parameters.
    private SqliteCommand Command(string sql, string[] values)
    {
        var command = connection.CreateCommand();
        command.CommandText = sql;
        for (var n = 0; n < values.Length; n++)
            command.Parameters.AddWithValue(string.Create(CultureInfo.InvariantCulture, $"${n + 1}"), values[n]);
        return command;
    }
#pragma warning restore CA2100
}
