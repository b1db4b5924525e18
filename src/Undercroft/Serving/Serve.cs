using Undercroft.Access;
using Undercroft.Ledger;
using Undercroft.Shell;

namespace Undercroft.Serving;

/// <summary>Opens the page and keeps it open until told to stop.</summary>
public static class Serve
{
    /// <summary>Runs until the process is told to stop. A data folder that does not exist is made: a first visit needs one.</summary>
    /// <param name="call">Names the data folder and the present.</param>
    /// <param name="asked">Where to listen, and who stands before it.</param>
    /// <param name="stop">Ends it.</param>
    /// <exception cref="Refusal">Other machines could ask and no sign-in is set up, the port is taken, or the folder holds something else than a cellar.</exception>
    public static async Task RunAsync(Call call, DoorsAsked asked, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(call);
        ArgumentNullException.ThrowIfNull(asked);
        var say = call.Terminal.Error;
        var doors = Doors.Read(asked, call.DataFolder, () => AccessStore.HasPasswordIn(call.DataFolder, call.Terminal.Clock), call.Terminal.FullPath);
        await using var app = Server.Build(
            call.DataFolder, doors, services => Features.Add(services, DataFolder.OrNew(call.DataFolder), call.CellarsOrNew(), call.Present, call.Terminal.Clock));
        try
        {
            await app.StartAsync(stop);
        }
        catch (IOException taken)
        {
            throw new Refusal($"The page could not be opened at {asked.Urls}: {taken.Message.TrimEnd('.')}. Another program may be using that port: choose another, such as --urls http://127.0.0.1:7421.");
        }

        foreach (var address in Server.AddressesOf(app))
            await say.WriteLineAsync($"The page is open at {address} {(doors.Guarded ? "to whoever signs in" : "on this machine only")}. Stop it with Ctrl+C.");
        foreach (var way in doors.InTheClear)
            await say.WriteLineAsync($"Take care: {way} is not encrypted. Whoever is on the same network can read the password and the cellar; --certificate FILE and https close that.");
        await say.FlushAsync(stop);
        await app.WaitForShutdownAsync(stop);
    }
}
