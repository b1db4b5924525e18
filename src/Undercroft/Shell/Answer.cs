using Spectre.Console;

namespace Undercroft.Shell;

/// <summary>What a use case has to say, for programs and for people.</summary>
/// <param name="Json">Serialised as the one JSON value of <c>--json</c>; property names end in their unit.</param>
/// <param name="Print">Prints the same answer for people: verdict first.</param>
/// <param name="ExitCode">0 done; 1 only where CLI rules say that problems print and fail (<c>verify</c>).</param>
public sealed record Answer(object Json, Action<IAnsiConsole> Print, int ExitCode = 0);
