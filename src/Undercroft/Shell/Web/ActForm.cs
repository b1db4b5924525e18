using Microsoft.AspNetCore.Components;
using Undercroft.Ledger;

namespace Undercroft.Shell.Web;

/// <summary>A form for one act: done and sent on to a page that can be reloaded, or refused beside the form with what was typed.</summary>
public abstract class ActForm : ComponentBase
{
    /// <summary>Why the last attempt was refused, in words for a person; null where there was none.</summary>
    protected string? Refused { get; private set; }

    [Inject]
    private NavigationManager Navigation { get; set; } = default!;

    [CascadingParameter]
    private HttpContext? Context { get; set; }

    /// <summary>Ends the wait when the person leaves the page.</summary>
    protected CancellationToken Left => Context?.RequestAborted ?? CancellationToken.None;

    /// <summary>Does the act and goes to the address that it returns.</summary>
    protected async Task Do(Func<Task<string>> act)
    {
        ArgumentNullException.ThrowIfNull(act);
        string next;
        try
        {
            next = await act();
        }
        catch (Refusal refusal)
        {
            Refused = refusal.Message;
            if (Context is { Response.HasStarted: false })
                Context.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return;
        }

        Navigation.NavigateTo(next);
    }
}
