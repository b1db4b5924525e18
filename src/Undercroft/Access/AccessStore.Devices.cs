using Microsoft.AspNetCore.Identity;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger;

namespace Undercroft.Access;

public sealed partial class AccessStore
{
    private const string DeviceColumns = "SELECT id, name, how, made, seen, revoked FROM devices";

    /// <summary>Devices that were let in, the latest here first; those shown out too.</summary>
    public IReadOnlyList<Device> Devices => [.. Rows(DeviceColumns, DeviceOf).OrderBy(device => device.Revoked).ThenByDescending(device => device.Seen)];

    /// <summary>Lets a device in that knew the password or a code.</summary>
    /// <param name="name">As history shall call it.</param>
    /// <param name="how"><c>password</c> or <c>code</c>.</param>
    /// <returns>The device, and the secret that its cookie carries.</returns>
    /// <exception cref="Refusal">No name, or one that cannot be printed.</exception>
    public (Device Device, string Secret) LetIn(string? name, string how)
    {
        var (id, secret) = (Secrets.Id(), Secrets.Token());
        Write("INSERT INTO devices (id, name, digest, how, made, seen) VALUES ($1, $2, $3, $4, $5, $5)", id, Named(name), Secrets.Digest(secret), how, Now);
        return (Devices.Single(device => device.Id == id), secret);
    }

    /// <summary>The device that carries a secret, where it may still come in; null otherwise.</summary>
    public Device? DeviceOf(string secret)
    {
        var device = Rows(DeviceColumns + " WHERE digest = $1", DeviceOf, Secrets.Digest(secret)).SingleOrDefault();
        var now = clock.GetUtcNow();
        if (device is null || device.Revoked || now - device.Seen > IdleAtMost || now - device.Made > SignedInAtMost)
            return null;
        if (now - device.Seen > SeenStep)
            Write("UPDATE devices SET seen = $2 WHERE id = $1", device.Id, Text(now));
        return device;
    }

    /// <summary>Shows a device out, or makes a token invalid.</summary>
    /// <exception cref="Refusal">Nothing of that ID holds.</exception>
    public void Revoke(string id)
    {
        var typed = Secrets.Read(id);
        if (Write("UPDATE devices SET revoked = $2 WHERE id = $1 AND revoked IS NULL", typed, Now) + Write("UPDATE tokens SET revoked = $2 WHERE id = $1 AND revoked IS NULL", typed, Now) == 0)
            throw new Refusal($"No device and no token of the ID '{id}' holds. See: undercroft access list");
    }

    /// <summary>A code that lets one other device in, once, within ten minutes. An earlier code ends.</summary>
    public string NewCode()
    {
        var code = Secrets.Code();
        Write("DELETE FROM codes");
        Write("INSERT INTO codes (hash, expires) VALUES ($1, $2)", hasher.HashPassword(this, Secrets.Read(code)), Text(clock.GetUtcNow() + CodeHolds));
        return code;
    }

    /// <summary>Uses a code up; true where it held.</summary>
    public bool UseCode(string typed)
    {
        foreach (var (hash, expires) in Rows("SELECT hash, expires FROM codes", row => (row.GetString(0), Instant(row.GetString(1)))))
        {
            if (expires > clock.GetUtcNow()
                && hasher.VerifyHashedPassword(this, hash, Secrets.Read(typed)) != PasswordVerificationResult.Failed
                && Write("DELETE FROM codes WHERE hash = $1", hash) == 1) // of two that come at once, one is let in
                return true;
        }

        return false;
    }

    private static Device DeviceOf(SqliteDataReader row) =>
        new(row.GetString(0), row.GetString(1), row.GetString(2), Instant(row.GetString(3)), Instant(row.GetString(4)), !row.IsDBNull(5));
}
