namespace Undercroft.Shell.Web;

/// <summary>What somebody who comes in may do.</summary>
[Flags]
public enum Scope
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>See everything that is kept.</summary>
    Read = 1,

    /// <summary>Write down measurements: weighings, humidity, looks, readings.</summary>
    Measure = 2,

    /// <summary>Write down anything. Measuring is part of it, reading is not.</summary>
    Write = 4,

    /// <summary>Fetch the calendar of due dates and nothing else.</summary>
    Calendar = 8,
}

/// <summary>An address that answers with something else than a page: JSON, a calendar, a file. The rooms of the program each bring their own.</summary>
/// <param name="Method"><c>GET</c>, <c>POST</c> …</param>
/// <param name="Path">Its route, such as <c>/calendar.ics</c>.</param>
/// <param name="Needs">What a caller must be allowed to do.</param>
/// <param name="Summary">One line for the description of the API.</param>
/// <param name="Handler">Answers; its parameters are bound as those of any route handler.</param>
public sealed record Endpoint(string Method, string Path, Scope Needs, string Summary, Delegate Handler);
