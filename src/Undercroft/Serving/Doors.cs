using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using Undercroft.Ledger;

namespace Undercroft.Serving;

/// <summary>What a server was told of where it listens and who stands before it, as typed.</summary>
/// <param name="Urls">Addresses to listen on.</param>
/// <param name="PublicUrls">Names under which others ask for it, such as <c>https://cellar.example</c>.</param>
/// <param name="Proxies">Addresses of machines whose forwarded headers are believed.</param>
/// <param name="Certificate">A PEM or PFX file, or null.</param>
/// <param name="Key">The key of a PEM certificate, where it is not in the same file.</param>
public sealed record DoorsAsked(string Urls, IReadOnlyList<string> PublicUrls, IReadOnlyList<string> Proxies, string? Certificate = null, string? Key = null)
{
    /// <summary>This machine alone.</summary>
    public static DoorsAsked Loopback(string urls = Binding.Usual) => new(urls, [], []);
}

/// <summary>The ways in, and whether they are guarded.</summary>
/// <param name="Bindings">Where it listens.</param>
/// <param name="PublicUrls">Origins under which others ask for it, without a path.</param>
/// <param name="Proxies">Whose forwarded headers are believed.</param>
/// <param name="Certificate">For https; null where nothing is encrypted here.</param>
public sealed record Doors(IReadOnlyList<Binding> Bindings, IReadOnlyList<Uri> PublicUrls, IReadOnlyList<IPAddress> Proxies, X509Certificate2? Certificate)
{
    /// <summary>True where nobody comes in without sign-in: as soon as anything but this machine itself could ask.</summary>
    public bool Guarded => Bindings.Any(binding => !binding.IsLoopback) || PublicUrls.Count > 0 || Proxies.Count > 0;

    /// <summary>True where every way in from another machine is encrypted, here or by the proxy before it.</summary>
    public bool Encrypted => (PublicUrls.Count > 0 || Bindings.Any(binding => binding.Encrypted))
        && PublicUrls.All(url => url.Scheme == Uri.UriSchemeHttps)
        && Bindings.All(binding => binding.Encrypted || (binding.IsLoopback && PublicUrls.Count > 0));

    /// <summary>Ways in through which a password would travel in the clear.</summary>
    public IEnumerable<string> InTheClear =>
    [
        .. Bindings.Where(binding => binding is { IsLoopback: false, Encrypted: false }).Select(binding => binding.ToString()),
        .. PublicUrls.Where(url => url.Scheme == Uri.UriSchemeHttp).Select(url => url.GetLeftPart(UriPartial.Authority)),
    ];

    /// <summary>Reads what was asked for.</summary>
    /// <param name="asked">As typed.</param>
    /// <param name="dataFolder">For the command that a refusal names.</param>
    /// <param name="hasPassword">True where sign-in is set up; asked only where it is needed.</param>
    /// <param name="fullPath">Makes the certificate's path absolute.</param>
    /// <exception cref="Refusal">A part cannot be read, or other machines could ask and no password is set.</exception>
    public static Doors Read(DoorsAsked asked, string dataFolder, Func<bool> hasPassword, Func<string, string> fullPath)
    {
        ArgumentNullException.ThrowIfNull(asked);
        ArgumentNullException.ThrowIfNull(hasPassword);
        ArgumentNullException.ThrowIfNull(fullPath);
        var doors = new Doors(Binding.Read(asked.Urls), [.. asked.PublicUrls.Select(PublicUrl)], [.. asked.Proxies.Select(Proxy)], null);
        if (doors.Guarded && !hasPassword())
        {
            var way = doors.Bindings.FirstOrDefault(binding => !binding.IsLoopback)?.ToString()
                ?? doors.PublicUrls.Select(url => url.GetLeftPart(UriPartial.Authority)).FirstOrDefault() ?? "a proxy";
            throw new Refusal($"'{way}' lets other machines ask, and no sign-in is set up. Set a password first: undercroft access password --data {dataFolder} – or listen on this machine alone: {Binding.Usual}.");
        }

        if (asked.Certificate is null)
        {
            return doors.Bindings.FirstOrDefault(binding => binding.Encrypted) is { } encrypted
                ? throw new Refusal($"'{encrypted}' asks for an encrypted connection, for which a certificate is needed: --certificate FILE. On this machine alone plain http is enough: {Binding.Usual}.")
                : doors;
        }

        return doors with { Certificate = Loaded(fullPath(asked.Certificate), asked.Key is null ? null : fullPath(asked.Key)) };
    }

    private static Uri PublicUrl(string typed) =>
        Uri.TryCreate(typed, UriKind.Absolute, out var url) && (url.Scheme == Uri.UriSchemeHttp || url.Scheme == Uri.UriSchemeHttps)
        && url.UserInfo.Length == 0 && url.PathAndQuery == "/" && url.Fragment.Length == 0
            ? url
            : throw new Refusal($"'{typed}' is not a name that a browser could ask for. Write one such as https://cellar.example, without a path.");

    private static IPAddress Proxy(string typed) => IPAddress.TryParse(typed, out var address)
        ? address
        : throw new Refusal($"'{typed}' is not the address of a proxy. Write one such as 127.0.0.1 or 192.168.1.2.");

    private static X509Certificate2 Loaded(string file, string? key)
    {
        try
        {
            if (Path.GetExtension(file).ToLowerInvariant() is ".pfx" or ".p12")
                return X509CertificateLoader.LoadPkcs12FromFile(file, Environment.GetEnvironmentVariable("UNDERCROFT_CERTIFICATE_PASSWORD"));
            var pem = X509Certificate2.CreateFromPemFile(file, key);
            // Through PKCS 12, so that the key also serves where the system wants it in a store.
            using (pem)
                return X509CertificateLoader.LoadPkcs12(pem.Export(X509ContentType.Pkcs12), null);
        }
        catch (Exception failed) when (failed is CryptographicException or IOException or UnauthorizedAccessException)
        {
            throw new Refusal($"The certificate {file} cannot be used: {failed.Message.TrimEnd('.')}. Give a PEM file with certificate and key (or the key by --certificate-key), or a PFX file (its password in UNDERCROFT_CERTIFICATE_PASSWORD).");
        }
    }
}
