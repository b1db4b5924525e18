using Undercroft.Ledger;
using Undercroft.Shell.Web;

namespace Undercroft.Backups;

/// <summary>Hands out a backup that lies in the data folder.</summary>
internal static class BackupDoor
{
    /// <summary>The address of one.</summary>
    internal static Shell.Web.Endpoint Download { get; } = new("GET", "/backup/{name}", Scope.Read, "A backup of the whole cellar, as a zip.", Send);

    private static IResult Send(string name, DataFolder folder) => KeptBackups.Find(folder, name) is { } path
        ? Results.File(path, "application/zip", name)
        : Results.Text("There is no such backup.", statusCode: StatusCodes.Status404NotFound);
}
