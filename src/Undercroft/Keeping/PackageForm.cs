using System.Globalization;
using Microsoft.AspNetCore.Components;
using Undercroft.Ledger;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Keeping;

/// <summary>A form that writes one fact about one package and goes back to its page.</summary>
public abstract class PackageForm : ActForm
{
    /// <summary>The package.</summary>
    [Parameter, EditorRequired]
    public required Package Package { get; set; }

    /// <summary>The cellar that it stands in.</summary>
    [Parameter, EditorRequired]
    public required Cellar Cellar { get; set; }

    /// <summary>Where the form is sent: the package's page, at this form.</summary>
    protected string Address => $"/packages/{Package.Id}#{FormName}";

    /// <summary>Writes the fact; its page then says so and offers to take it back.</summary>
    protected Task Keep(Func<Package, Cellar, Present, Said> say) => Do(async () =>
    {
        var kept = await new Recording(Desk.Cellars, Desk.Present).Of(Package.Id.ToString(), say);
        return $"/packages/{kept.Package.Id}?line={kept.Events[^1].Version.ToString(CultureInfo.InvariantCulture)}";
    });
}
