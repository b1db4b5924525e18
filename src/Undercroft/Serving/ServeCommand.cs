using System.CommandLine;
using Undercroft.Shell;

namespace Undercroft.Serving;

/// <summary><c>serve</c>: the page, on this machine only.</summary>
public static class ServeCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var urls = new Option<string>("--urls")
        {
            Description = "Where to listen; this machine only until there is a sign-in.",
            HelpName = "URL",
            DefaultValueFactory = _ => Binding.Usual,
        };
        return line.Command("serve", "Open the page in this machine's browser.", async call =>
        {
            // Only here: a command that does not serve must not load the web host.
            await Serve.RunAsync(call, call.Value(urls)!);
            return new Answer(new { stopped = true }, _ => { });
        }, urls);
    }
}
