using System.Net;

namespace Undercroft.Access;

/// <summary>What the program says on its output of sign-ins: where from, never what was typed.</summary>
internal static partial class SignInLog
{
    internal static void Failed(ILoggerFactory logs, IPAddress? from) => Failure(logs.CreateLogger("Undercroft.Access"), from);

    internal static void Succeeded(ILoggerFactory logs, string device, IPAddress? from) => Success(logs.CreateLogger("Undercroft.Access"), device, from);

    [LoggerMessage(Level = LogLevel.Warning, Message = "A sign-in failed from {From}.")]
    private static partial void Failure(ILogger log, IPAddress? from);

    [LoggerMessage(Level = LogLevel.Warning, Message = "The device {Device} signed in from {From}.")]
    private static partial void Success(ILogger log, string device, IPAddress? from);
}
