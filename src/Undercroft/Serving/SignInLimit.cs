using System.Net;
using System.Threading.RateLimiting;

namespace Undercroft.Serving;

/// <summary>How often somebody may try to sign in: ten times in five minutes from one address, sixty from all together.</summary>
/// <remarks>
/// The limit over all stands against many addresses guessing at once. It never touches who is signed in already, so that a stranger can keep nobody out for
/// longer than it lasts.
/// </remarks>
internal static class SignInLimit
{
    internal const int FromOneAddress = 10;
    internal const int FromAll = 60;
    private static readonly TimeSpan Window = TimeSpan.FromMinutes(5);

    internal static void Add(IServiceCollection services) => services.AddRateLimiter(options =>
    {
        options.GlobalLimiter = PartitionedRateLimiter.CreateChained(
            PartitionedRateLimiter.Create<HttpContext, string>(context => Limited(context, "from " + AddressOf(context.Connection.RemoteIpAddress), FromOneAddress)),
            PartitionedRateLimiter.Create<HttpContext, string>(context => Limited(context, "from all", FromAll)));
        options.OnRejected = (rejected, _) => new(RequestGate.Turn(
            rejected.HttpContext, StatusCodes.Status429TooManyRequests, "Too many attempts to sign in. Wait five minutes, then try again."));
    });

    private static RateLimitPartition<string> Limited(HttpContext context, string name, int most) => IsAttempt(context.Request)
        ? RateLimitPartition.GetFixedWindowLimiter(name, _ => new() { PermitLimit = most, Window = Window, QueueLimit = 0 })
        : RateLimitPartition.GetNoLimiter("not an attempt");

    private static bool IsAttempt(HttpRequest request) => HttpMethods.IsPost(request.Method) && request.Path.StartsWithSegments("/sign-in");

    /// <summary>Of an IPv6 address the network that one household has.</summary>
    private static string AddressOf(IPAddress? address) => address switch
    {
        null => "nowhere",
        { AddressFamily: System.Net.Sockets.AddressFamily.InterNetworkV6, IsIPv4MappedToIPv6: false } => Convert.ToHexString(address.GetAddressBytes().AsSpan(0, 8)),
        { IsIPv4MappedToIPv6: true } => address.MapToIPv4().ToString(),
        _ => address.ToString(),
    };
}
