using System.Collections.Frozen;
using System.Reflection;
using System.Security.Cryptography;

namespace Undercroft.Serving;

/// <summary>
/// The style sheet and pictures of the page. They are part of the program file itself, so that they are there from whatever directory it is started.
/// </summary>
public static class Assets
{
    internal const string CacheForYears = "public, max-age=31536000, immutable";
    private const string Prefix = "wwwroot/";
    private static readonly FrozenDictionary<string, Asset> All = Load();

    /// <summary>Names of all assets, such as <c>page.css</c>.</summary>
    public static IEnumerable<string> Names => All.Keys;

    /// <summary>The address of an asset; it changes with the content, so that browsers may keep it.</summary>
    /// <exception cref="KeyNotFoundException">There is no such asset.</exception>
    public static string AddressOf(string name) => $"/assets/{name}?v={All[name].Digest}";

    internal static async Task Send(HttpContext context, string name)
    {
        if (!All.TryGetValue(name, out var asset))
        {
            await RequestGate.Turn(context, StatusCodes.Status404NotFound, "There is nothing at this address.");
            return;
        }

        context.Response.ContentType = asset.ContentType;
        context.Response.ContentLength = asset.Content.Length;
        if (context.Request.Query["v"] == asset.Digest)
            context.Response.Headers.CacheControl = CacheForYears;
        if (!HttpMethods.IsHead(context.Request.Method))
            await context.Response.Body.WriteAsync(asset.Content, context.RequestAborted);
    }

    private static FrozenDictionary<string, Asset> Load()
    {
        var assembly = Assembly.GetExecutingAssembly();
        return assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
            .ToFrozenDictionary(name => name[Prefix.Length..], name => Asset.From(name, assembly.GetManifestResourceStream(name)!), StringComparer.Ordinal);
    }

    private sealed record Asset(byte[] Content, string ContentType, string Digest)
    {
        internal static Asset From(string name, Stream stream)
        {
            using var content = new MemoryStream();
            using (stream)
                stream.CopyTo(content);
            var bytes = content.ToArray();
            return new(bytes, TypeOf(name), Convert.ToHexStringLower(SHA256.HashData(bytes))[..16]);
        }

        private static string TypeOf(string name) => Path.GetExtension(name) switch
        {
            ".css" => "text/css; charset=utf-8",
            ".svg" => "image/svg+xml",
            ".png" => "image/png",
            ".js" => "text/javascript; charset=utf-8",
            ".webmanifest" => "application/manifest+json",
            ".txt" => "text/plain; charset=utf-8",
            _ => throw new InvalidOperationException($"No content type is known for the asset {name}."),
        };
    }
}
