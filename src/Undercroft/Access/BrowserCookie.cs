using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;

namespace Undercroft.Access;

/// <summary>The cookie by which a browser that was let in is known again: it carries a random secret, of which the store keeps the digest.</summary>
internal static class BrowserCookie
{
    private const string Secret = "secret";

    /// <summary>Sets the cookie up.</summary>
    /// <param name="services">Of the host.</param>
    /// <param name="port">Cookies know no ports: two cellars side by side must not overwrite each other's.</param>
    /// <param name="encrypted">True where the server is asked through https alone.</param>
    internal static void Add(IServiceCollection services, int port, bool encrypted) =>
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(options =>
        {
            options.Cookie.Name = FormattableString.Invariant($"{(encrypted ? "__Host-" : "")}undercroft-{port}");
            options.Cookie.HttpOnly = true;
            options.Cookie.SameSite = SameSiteMode.Strict;
            options.Cookie.Path = "/";
            options.Cookie.SecurePolicy = encrypted ? CookieSecurePolicy.Always : CookieSecurePolicy.SameAsRequest;
            options.ExpireTimeSpan = AccessStore.SignedInAtMost;
            options.SlidingExpiration = false;
        });

    /// <summary>The secret that a request carries; null where none, or none of ours.</summary>
    internal static async Task<string?> SecretOf(HttpContext context) => (await context.AuthenticateAsync()).Principal?.FindFirst(Secret)?.Value;

    /// <summary>Lets the browser of this request in from now on.</summary>
    internal static Task SignIn(HttpContext context, string secret) => context.SignInAsync(
        new ClaimsPrincipal(new ClaimsIdentity([new(Secret, secret)], CookieAuthenticationDefaults.AuthenticationScheme)),
        new AuthenticationProperties { IsPersistent = true });

    /// <summary>Has the browser forget its cookie.</summary>
    internal static Task SignOut(HttpContext context) => context.SignOutAsync();
}
