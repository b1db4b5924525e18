using System.CommandLine;
using Undercroft.Shell;

namespace Undercroft.Serving;

/// <summary><c>serve</c>: the page.</summary>
public static class ServeCommand
{
    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var urls = new Option<string>("--urls")
        {
            Description = "Where to listen; other machines are let in only after undercroft access password.",
            HelpName = "URL",
            DefaultValueFactory = _ => Binding.Usual,
        };
        var names = Many("--public-url", "A name under which others ask for it, such as https://cellar.example.", "URL");
        var proxies = Many("--proxy", "The address of a proxy before it, whose forwarded headers are believed.", "ADDRESS");
        var certificate = new Option<string?>("--certificate") { Description = "For https: a PEM file with certificate and key, or a PFX file.", HelpName = "FILE" };
        var key = new Option<string?>("--certificate-key") { Description = "The key of a PEM certificate, where it stands in a file of its own.", HelpName = "FILE" };
        return line.Command("serve", "Open the page in this machine's browser; for other machines too, once there is a password.", async call =>
        {
            // Only here: a command that does not serve must not load the web host.
            await Serve.RunAsync(call, new(call.Value(urls)!, call.Value(names) ?? [], call.Value(proxies) ?? [], call.Value(certificate), call.Value(key)));
            return new Answer(new { stopped = true }, _ => { });
        }, urls, names, proxies, certificate, key);
    }

    private static Option<string[]> Many(string name, string description, string help) =>
        new(name) { Description = description, HelpName = help, Arity = ArgumentArity.ZeroOrMore };
}
