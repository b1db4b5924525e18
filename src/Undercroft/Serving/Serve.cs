using Undercroft.Ledger;
using Undercroft.Shell;

namespace Undercroft.Serving;

/// <summary>Opens the page and keeps it open until told to stop.</summary>
public static class Serve
{
    /// <summary>Runs until the process is told to stop. A data folder that does not exist is made: a first visit needs one.</summary>
    /// <param name="call">Names the data folder and the present.</param>
    /// <param name="urls">Where to listen.</param>
    /// <param name="stop">Ends it.</param>
    /// <exception cref="Refusal">The binding is not loopback, the port is taken, or the folder holds something else than a cellar.</exception>
    public static async Task RunAsync(Call call, string urls, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(call);
        var say = call.Terminal.Error;
        var bindings = Binding.Read(urls);
        await using var app = Server.Build(call.DataFolder, bindings, services => Features.Add(services, DataFolder.OrNew(call.DataFolder), call.CellarsOrNew(), call.Present, call.Terminal.Clock));
        try
        {
            await app.StartAsync(stop);
        }
        catch (IOException taken)
        {
            throw new Refusal($"The page could not be opened at {urls}: {taken.Message.TrimEnd('.')}. Another program may be using that port: choose another, such as --urls http://127.0.0.1:7421.");
        }

        foreach (var address in Server.AddressesOf(app))
            await say.WriteLineAsync($"The page is open at {address} on this machine only. Stop it with Ctrl+C.");
        await say.FlushAsync(stop);
        await app.WaitForShutdownAsync(stop);
    }
}
