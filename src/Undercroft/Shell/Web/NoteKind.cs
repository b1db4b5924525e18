namespace Undercroft.Shell.Web;

/// <summary>What a note is for.</summary>
public enum NoteKind
{
    /// <summary>Handling can hurt someone.</summary>
    Caution,

    /// <summary>What was asked for is not done.</summary>
    Refused,

    /// <summary>What was asked for is done.</summary>
    Done,

    /// <summary>Something worth knowing.</summary>
    Hint,
}

/// <summary>How a package stands.</summary>
public enum Standing
{
    /// <summary>Do something.</summary>
    Act,

    /// <summary>Have a look.</summary>
    Look,

    /// <summary>A look is planned, and not late.</summary>
    Soon,

    /// <summary>Nothing to do.</summary>
    Well,

    /// <summary>Nobody can say yet.</summary>
    Unknown,
}
