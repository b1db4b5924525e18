namespace Undercroft.Shell.Web;

/// <summary>How one device likes things: its name where nobody signs in, and its units. Kept by the device itself, in a cookie that holds nothing secret.</summary>
/// <param name="port">Sets the cookies of two cellars side by side apart.</param>
public sealed class Manners(int port)
{
    private const int LongestName = 40;
    private readonly string cookie = FormattableString.Invariant($"undercroft-manners-{port}");

    /// <summary>What a device said.</summary>
    public (string? Name, bool Imperial) Of(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var (name, imperial) = ((string?)null, false);
        foreach (var part in (request.Cookies[cookie] ?? "").Split('&', StringSplitOptions.RemoveEmptyEntries))
        {
            if (part == "units=imperial")
                imperial = true;
            else if (part.StartsWith("name=", StringComparison.Ordinal))
                name = Cleaned(Uri.UnescapeDataString(part[5..]));
        }

        return (name, imperial);
    }

    /// <summary>Has the device keep it for a year.</summary>
    public void Keep(HttpContext context, string? name, bool imperial)
    {
        ArgumentNullException.ThrowIfNull(context);
        context.Response.Cookies.Append(
            cookie,
            $"units={(imperial ? "imperial" : "metric")}{(Cleaned(name) is { } clean ? "&name=" + Uri.EscapeDataString(clean) : "")}",
            new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Secure = context.Request.IsHttps, Path = "/", MaxAge = TimeSpan.FromDays(365) });
    }

    private static string? Cleaned(string? name)
    {
        var words = string.Join(' ', new string([.. (name ?? "").Where(letter => !char.IsControl(letter))]).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return words.Length is 0 ? null : words[..Math.Min(words.Length, LongestName)];
    }
}
