using Undercroft.Ledger;

namespace Undercroft.Serving;

/// <summary>Opens the page and keeps it open until told to stop.</summary>
public static class Serve
{
    /// <summary>Runs until the process is told to stop.</summary>
    /// <param name="dataFolder">The data folder; made where it is missing.</param>
    /// <param name="urls">Where to listen.</param>
    /// <param name="say">Where to say that the page is open, with its address.</param>
    /// <param name="features">What the pages need.</param>
    /// <param name="stop">Ends it.</param>
    /// <exception cref="Refusal">The binding is not loopback, or the port is taken.</exception>
    public static async Task RunAsync(string dataFolder, string urls, TextWriter say, Action<IServiceCollection>? features = null, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(say);
        var bindings = Binding.Read(urls);
        await using var app = Server.Build(dataFolder, bindings, features);
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
