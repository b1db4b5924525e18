using Microsoft.AspNetCore.Components;
using Undercroft.Ledger;

namespace Undercroft.Shell.Web;

/// <summary>A form for one act: done and sent on to an address that can be reloaded, or refused beside the form with what was typed.</summary>
public abstract class ActForm : ComponentBase
{
    /// <summary>Why the attempt was refused, in words for a person; null where there was none.</summary>
    protected string? Refused { get; private set; }

    /// <summary>The name that sets this form apart from others on its page.</summary>
    protected abstract string FormName { get; }

    /// <summary>The cellar and the present.</summary>
    [Inject]
    protected Desk Desk { get; set; } = default!;

    [Inject]
    private NavigationManager Navigation { get; set; } = default!;

    [Inject]
    private SentForms Before { get; set; } = default!;

    /// <summary>True where the very same form, sent twice, would write the same twice: it is then asked whether that is meant.</summary>
    protected virtual bool AsksBeforeTwice => false;

    /// <summary>The request that is answered.</summary>
    [CascadingParameter]
    protected HttpContext? Context { get; set; }

    /// <summary>Ends the wait when the person leaves the page.</summary>
    protected CancellationToken Left => Context?.RequestAborted ?? CancellationToken.None;

    /// <summary>True while this very form is being answered.</summary>
    protected bool Sent => Context is { Request.HasFormContentType: true } && Context.Request.Form["_handler"] == FormName;

    /// <summary>What was typed into a field of this form; null where nothing was.</summary>
    protected string? Typed(string field) => Sent && Context!.Request.Form[field].ToString().Trim() is { Length: > 0 } text ? text : null;

    /// <summary>The boxes that were ticked under one name.</summary>
    protected IReadOnlyList<string> Ticked(string field) => Sent ? [.. Context!.Request.Form[field].OfType<string>()] : [];

    /// <summary>The file that was chosen; null where none was.</summary>
    protected IFormFile? Chosen(string field) => Sent ? Context!.Request.Form.Files.GetFile(field) is { Length: > 0 } file ? file : null : null;

    /// <summary>Does the act and goes to the address that it returns; null stays on the page.</summary>
    protected async Task Do(Func<Task<string?>> act)
    {
        ArgumentNullException.ThrowIfNull(act);
        string? next;
        try
        {
            if (AsksBeforeTwice && Sent && Before.Ago(Context!.Request) is { } ago)
                throw new Refusal($"The very same was written {(ago.TotalMinutes < 2 ? "just now" : $"{(int)ago.TotalMinutes} minutes ago")}; it was not written again. If this is another one alike, send it once more.");
            next = await act();
            if (AsksBeforeTwice && Sent)
                Before.Done(Context!.Request);
        }
        catch (Refusal refusal)
        {
            Refused = refusal.Message;
            if (Context is { Response.HasStarted: false })
                Context.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return;
        }

        if (next is not null)
            Navigation.NavigateTo(next);
    }
}
