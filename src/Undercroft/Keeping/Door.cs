using System.CommandLine;
using Undercroft.Ledger;
using Undercroft.Shell;

namespace Undercroft.Keeping;

/// <summary>What the doors of this room share: the same arguments under the same names, and one way to write a fact about a package.</summary>
internal static class Door
{
    internal static Argument<string> Package() => new("id") { Description = "The package's ID, as on its label." };

    internal static Option<string?> On() => new("--on") { Description = "When it happened: 2026-05-03, 2026-05, 2026, 2026~ … (else today).", HelpName = "DATE" };

    internal static Option<string?> Note() => new("--note") { Description = "Anything else, in words.", HelpName = "TEXT" };

    internal static async ValueTask<Answer> Keep(Call call, string id, Func<Package, Cellar, Present, Said> say)
    {
        using var cellars = call.Cellars();
        var kept = await new Recording(cellars, call.Present).Of(id, say);
        return KeptAnswer.Of(kept, call.Present(kept.After)).ToAnswer();
    }
}
