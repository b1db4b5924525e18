namespace Undercroft.Forecasts;

/// <summary>How a package is opened from today on.</summary>
public enum Opening
{
    /// <summary>Opened today and used from then on, its lid put back by hand.</summary>
    InUse,

    /// <summary>Closed today and left alone.</summary>
    LeftAlone,

    /// <summary>Closed, and opened for a moment once a month: the air inside is the room's again each time.</summary>
    Monthly,
}
