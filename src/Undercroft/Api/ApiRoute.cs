using Undercroft.Shell.Web;

namespace Undercroft.Api;

/// <summary>An address of the HTTP API and the command that it stands for.</summary>
/// <param name="Method"><c>GET</c> reads, <c>POST</c> writes.</param>
/// <param name="Path">Below <c>/api</c>; a part in braces is the argument of that name.</param>
/// <param name="Words">The command, such as <c>place show</c>.</param>
/// <param name="Needs">What a caller must be allowed to do.</param>
/// <param name="Without">Options of the command that cannot be said here: those that would write where the address only reads.</param>
internal sealed record ApiRoute(string Method, string Path, string Words, Scope Needs, params IReadOnlyList<string> Without)
{
    /// <summary>Where it is asked for.</summary>
    internal string Address => "/api" + Path;

    /// <summary>Names of the parts in braces.</summary>
    internal IReadOnlyList<string> InPath { get; } = [.. Path.Split('/').Where(part => part.StartsWith('{')).Select(part => part.Trim('{', '}'))];
}
