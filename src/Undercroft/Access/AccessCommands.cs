using System.CommandLine;
using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Shell;

namespace Undercroft.Access;

/// <summary><c>access</c>: who may come in from other machines.</summary>
public static class AccessCommands
{
    /// <summary>The commands.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return CommandLine.Group("access", "Who may come in from other machines: password, devices, tokens.", Password(line), Code(line), List(line), Revoke(line), Token(line));
    }

    private static Command Password(CommandLine line) => line.Command(
        "password", "Set the password for other machines; it is asked for, or read as one line from standard input. Every device is signed out.", call =>
    {
        var typed = call.Terminal.ReadSecret($"New password ({PasswordRule.Shortest} letters at least, any signs): ");
        if (string.IsNullOrEmpty(typed))
            throw new Refusal("No password was given: type one when asked, or hand it in as one line on standard input. Nothing was changed.");
        PasswordRule.Check(typed); // before a folder is made for it
        var folder = DataFolder.OrNew(call.DataFolder);
        using var store = AccessStore.Open(folder.Path, call.Terminal.Clock);
        store.SetPassword(typed);
        return Done(new { set = true }, "The password is set; every device has to sign in anew.\nNow other machines may be let in, such as: undercroft serve --urls https://0.0.0.0:7420 --certificate cellar.pem");
    });

    private static Command Code(CommandLine line) => line.Command("code", "Make a code that lets one other device in, once.", call =>
    {
        using var store = Existing(call);
        if (!store.HasPassword)
            throw new Refusal("No password is set yet, so no other machine can come in. Set one first: undercroft access password");
        var code = store.NewCode();
        return Done(new { code, minutes = AccessStore.CodeHolds.TotalMinutes }, $"{code}\nType it at /sign-in on the other device within ten minutes. It works once.");
    });

    private static Command List(CommandLine line) => line.Command("list", "List devices that signed in, and tokens of programs.", call =>
    {
        using var store = Existing(call);
        var (devices, tokens) = (store.Devices, store.Tokens);
        return ValueTask.FromResult(new Answer(
            new
            {
                password = store.HasPassword,
                devices = devices.Select(device => new { device.Id, device.Name, device.How, made = Text(device.Made), seen = Text(device.Seen), device.Revoked }).ToArray(),
                tokens = tokens.Select(token => new { token.Id, token.Name, scopes = ScopeWords.Of(token.May), made = Text(token.Made), used = token.Used is { } used ? Text(used) : null, token.Revoked }).ToArray(),
            },
            page =>
            {
                page.Write(new Spectre.Console.Text(store.HasPassword ? "A password is set.\n" : "No password is set: only this machine can come in.\n"));
                foreach (var device in devices)
                    page.Write(new Spectre.Console.Text($"device {device.Id}  {device.Name}, by {device.How}, last here {Text(device.Seen)[..10]}{(device.Revoked ? ", signed out" : "")}\n"));
                foreach (var token in tokens)
                    page.Write(new Spectre.Console.Text($"token  {token.Id}  {token.Name}, may {ScopeWords.Of(token.May)}, {(token.Used is { } used ? "last used " + Text(used)[..10] : "never used")}{(token.Revoked ? ", revoked" : "")}\n"));
            }));
    });

    private static Command Revoke(CommandLine line)
    {
        var id = new Argument<string>("id") { Description = "The ID of a device or token, as listed." };
        return line.Command("revoke", "Sign a device out, or make a token invalid, at once.", call =>
        {
            using var store = Existing(call);
            store.Revoke(call.Value(id)!);
            return Done(new { revoked = call.Value(id) }, "It can no longer come in.");
        }, id);
    }

    private static Command Token(CommandLine line)
    {
        var name = new Argument<string>("name") { Description = "What history calls the program, such as \"closet logger\"." };
        var scope = new Option<string>("--scope") { Description = $"What it may do, separated by commas: {ScopeWords.All}.", HelpName = "SCOPES", Required = true };
        return line.Command("token", "Make a token for a program that uses the HTTP API. It is shown once.", call =>
        {
            var may = ScopeWords.Read(call.Value(scope)!);
            using var store = Existing(call);
            var (token, secret) = store.NewToken(call.Value(name), may);
            return Done(
                new { token.Id, token = secret, scopes = ScopeWords.Of(token.May) },
                $"{secret}\nIt is not shown again. Send it as: Authorization: Bearer {secret}\nEnd it with: undercroft access revoke {token.Id}");
        }, name, scope);
    }

    private static AccessStore Existing(Call call) => AccessStore.Open(DataFolder.Existing(call.DataFolder).Path, call.Terminal.Clock);

    private static string Text(DateTimeOffset instant) => instant.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    private static ValueTask<Answer> Done(object json, string words) =>
        ValueTask.FromResult(new Answer(json, page => page.Write(new Spectre.Console.Text(words + "\n"))));
}
