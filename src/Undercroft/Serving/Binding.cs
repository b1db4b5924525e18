using System.Net;
using Undercroft.Ledger;

namespace Undercroft.Serving;

/// <summary>Where the page listens: an address or <c>localhost</c>, and a port.</summary>
/// <param name="Host">As written, such as <c>127.0.0.1</c>, <c>[::1]</c>, <c>localhost</c>, <c>192.168.1.20</c>, or <c>0.0.0.0</c> for every address of the machine.</param>
/// <param name="Port">1 to 65535, or 0 for any free port.</param>
/// <param name="Encrypted">True for https.</param>
public sealed record Binding(string Host, int Port, bool Encrypted = false)
{
    /// <summary>Where the page listens unless told otherwise.</summary>
    public const string Usual = "http://127.0.0.1:7420";

    /// <summary>The names under which a browser on this machine may ask for the page, without the port.</summary>
    public static readonly IReadOnlyList<string> LoopbackNames = ["127.0.0.1", "localhost", "[::1]"];

    /// <summary>True where no other machine can reach it.</summary>
    public bool IsLoopback => LoopbackNames.Contains(Host, StringComparer.Ordinal);

    /// <summary>The address to listen on, or null for <c>localhost</c>, which stands for both loopback addresses.</summary>
    public IPAddress? Address => Host == "localhost" ? null : IPAddress.Parse(Host.Trim('[', ']'));

    /// <summary>As a person would write it.</summary>
    public override string ToString() => FormattableString.Invariant($"{(Encrypted ? "https" : "http")}://{Host}:{Port}");

    /// <summary>Reads one or more addresses, separated by semicolons.</summary>
    /// <exception cref="Refusal">Not an address to listen on.</exception>
    public static IReadOnlyList<Binding> Read(string urls)
    {
        ArgumentNullException.ThrowIfNull(urls);
        var parts = urls.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return parts.Length == 0
            ? throw new Refusal($"No address to listen on was given. Write one such as {Usual}.")
            : [.. parts.Select(ReadOne)];
    }

    private static Binding ReadOne(string url)
    {
        var plain = url.Replace("://+", "://0.0.0.0", StringComparison.Ordinal).Replace("://*", "://0.0.0.0", StringComparison.Ordinal);
        if (!Uri.TryCreate(plain, UriKind.Absolute, out var address) || (address.Scheme != Uri.UriSchemeHttp && address.Scheme != Uri.UriSchemeHttps))
            throw new Refusal($"'{url}' is not an address to listen on. Write one such as {Usual}.");
        if (address.UserInfo.Length > 0 || address.PathAndQuery != "/" || address.Fragment.Length > 0)
            throw new Refusal($"'{url}' says more than an address and a port. Write one such as {Usual}.");
        var host = address.Host.ToLowerInvariant();
        return host == "localhost" || IPAddress.TryParse(host.Trim('[', ']'), out _)
            ? new(host, address.Port, address.Scheme == Uri.UriSchemeHttps)
            : throw new Refusal($"'{url}' names a machine, and the page listens on addresses: {Usual} for this machine alone, https://0.0.0.0:7420 for others too. The name that others type goes to --public-url.");
    }
}
