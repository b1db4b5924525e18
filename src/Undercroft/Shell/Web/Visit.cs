namespace Undercroft.Shell.Web;

/// <summary>Who is here in this request, and what they may do. The door fills it in before any page is made.</summary>
public sealed class Visit
{
    /// <summary>As history calls the device or program; null where nobody said.</summary>
    public string? Name { get; set; }

    /// <summary>What it may do.</summary>
    public Scope May { get; set; }

    /// <summary>The ID of a device that signed in; null on this machine itself, where nobody signs in.</summary>
    public string? Device { get; set; }

    /// <summary>True where this server lets nobody in without sign-in.</summary>
    public bool Guarded { get; set; }

    /// <summary>True where ounces, degrees Fahrenheit and inches are wanted.</summary>
    public bool Imperial { get; set; }
}
