using Undercroft.Ledger;
using Undercroft.Ledger.Dates;

namespace Undercroft.Shell;

/// <summary>The present of one use: which day it is, and the instant that is written beside what is recorded.</summary>
/// <param name="Today">What <c>--today</c> says, else a demo's own day, else the clock.</param>
/// <param name="Now">Instant of recording, UTC. Noon of <paramref name="Today"/> where the day is not the clock's, so that the same call writes the same line.</param>
public sealed record Present(DateOnly Today, DateTimeOffset Now)
{
    /// <summary>The present as the person means it.</summary>
    /// <param name="stated">From <c>--today</c>.</param>
    /// <param name="cellar">A demo cellar has a day of its own.</param>
    /// <param name="clock">Everybody else's.</param>
    public static Present Of(DateOnly? stated, Cellar cellar, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(clock);
        return (stated ?? cellar.DemoDay) is { } day
            ? new(day, Noon(day))
            : new(DateOnly.FromDateTime(clock.GetLocalNow().DateTime), clock.GetUtcNow());
    }

    /// <summary>The instant that stands for a day as a whole: its noon, UTC.</summary>
    public static DateTimeOffset Noon(DateOnly day) => new(day, new TimeOnly(12, 0), TimeSpan.Zero);

    /// <summary>When something happened: as said, else today.</summary>
    /// <param name="said">A date of any precision, or null.</param>
    /// <exception cref="Refusal">Not a date, or one that has not come yet.</exception>
    public UnevenDate When(string? said)
    {
        if (said is null)
            return UnevenDate.On(Today);
        var date = SaidDate.Read(said);
        return date.Earliest is { } first && first > Today
            ? throw new Refusal($"'{said}' has not come yet: it is {Today.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)}. Facts are written down after they happened.")
            : date;
    }
}
