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

    /// <inheritdoc/>
    protected override bool AsksBeforeTwice => true;

    /// <summary>Where the form is sent: the package's page, at this form, with the last line that its writer could see.</summary>
    protected string Address => string.Create(CultureInfo.InvariantCulture, $"/packages/{Package.Id}?Seen={Cellar.Version}#{FormName}");

    /// <summary>Writes the fact; its page then says so and offers to take it back.</summary>
    protected Task Keep(Func<Package, Cellar, Present, Said> say) => Do(async () =>
    {
        var kept = await new Recording(Desk.Cellars, Desk.Present).Of(Package.Id.ToString(), say);
        var seen = long.TryParse(Context?.Request.Query["Seen"], NumberStyles.None, CultureInfo.InvariantCulture, out var version) ? version : kept.Events[0].Version - 1;
        return string.Create(CultureInfo.InvariantCulture, $"/packages/{kept.Package.Id}?line={kept.Events[^1].Version}{(seen < kept.Events[0].Version - 1 ? $"&Seen={seen}" : "")}");
    });
}
