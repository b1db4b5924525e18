using System.Text.Json.Serialization;
using Microsoft.Data.Sqlite;

namespace Undercroft.Ledger.Backups;

/// <summary>The page in a backup that says what the rest must add up to.</summary>
internal sealed record BackupManifest(string Format, int Schema, long Events, string Digest, DateTimeOffset Made, long Readings = 0);

/// <summary>Small notes beside the ledger that are no part of its digest.</summary>
internal static class Marks
{
    internal const string LastBackup = "last-backup";

    internal static void Set(SqliteConnection connection, string name, string value)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "INSERT INTO marks (name, value) VALUES ($name, $value) ON CONFLICT (name) DO UPDATE SET value = excluded.value";
        command.Parameters.AddWithValue("$name", name);
        command.Parameters.AddWithValue("$value", value);
        command.ExecuteNonQuery();
    }

    internal static string? Get(SqliteConnection connection, string name)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT value FROM marks WHERE name = $name";
        command.Parameters.AddWithValue("$name", name);
        return command.ExecuteScalar() as string;
    }
}

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(BackupMade))]
[JsonSerializable(typeof(BackupManifest))]
internal sealed partial class MarksJson : JsonSerializerContext;
