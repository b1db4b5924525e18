using System.Net;
using Undercroft.Ledger;

namespace Undercroft.Serving;

/// <summary>Where the page listens: a loopback name or address and a port. Nothing else exists until sign-in does.</summary>
/// <param name="Host"><c>127.0.0.1</c>, <c>localhost</c> or <c>[::1]</c>.</param>
/// <param name="Port">1 to 65535, or 0 for any free port.</param>
public sealed record Binding(string Host, int Port)
{
    /// <summary>Where the page listens unless told otherwise.</summary>
    public const string Usual = "http://127.0.0.1:7420";

    /// <summary>The names under which a browser on this machine may ask for the page, without the port.</summary>
    public static readonly IReadOnlyList<string> LoopbackNames = ["127.0.0.1", "localhost", "[::1]"];

    /// <summary>The address to listen on, or null for <c>localhost</c>, which stands for both loopback addresses.</summary>
    public IPAddress? Address => Host switch
    {
        "127.0.0.1" => IPAddress.Loopback,
        "[::1]" => IPAddress.IPv6Loopback,
        "localhost" => null,
        _ => throw new InvalidOperationException($"No address for {Host}."),
    };

    /// <summary>Reads one or more addresses, separated by semicolons.</summary>
    /// <exception cref="Refusal">Not an http address, or one that other machines could reach.</exception>
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
        if (url.StartsWith("https:", StringComparison.OrdinalIgnoreCase))
            throw new Refusal($"'{url}' asks for an encrypted connection, for which there is no certificate yet. On this machine alone plain http is enough: {Usual}.");

        var afterScheme = url.IndexOf("://", StringComparison.Ordinal);
        var wildcard = afterScheme > 0 && afterScheme + 3 < url.Length && url[afterScheme + 3] is '+' or '*';
        if (wildcard)
            throw NotLoopback(url);

        if (!Uri.TryCreate(url, UriKind.Absolute, out var address) || address.Scheme != Uri.UriSchemeHttp)
            throw new Refusal($"'{url}' is not an address to listen on. Write one such as {Usual}.");
        if (!LoopbackNames.Contains(address.Host, StringComparer.OrdinalIgnoreCase))
            throw NotLoopback(url);
        if (address.UserInfo.Length > 0 || address.PathAndQuery != "/" || address.Fragment.Length > 0)
            throw new Refusal($"'{url}' says more than a name and a port. Write one such as {Usual}.");

        return new(address.Host.ToLowerInvariant(), address.Port);
    }

    private static Refusal NotLoopback(string url) => new(
        $"'{url}' could be reached from other machines. Until the page has a sign-in it listens on this machine alone: use 127.0.0.1, localhost or [::1], such as {Usual}.");
}
