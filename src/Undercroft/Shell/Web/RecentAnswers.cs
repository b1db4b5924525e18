using System.Collections.Concurrent;
using Undercroft.Forecasts;
using Undercroft.Ledger;

namespace Undercroft.Shell.Web;

/// <summary>Answers that took long, kept until the ledger or the day moves on. Nothing of it is written anywhere.</summary>
public sealed class RecentAnswers
{
    private readonly ConcurrentDictionary<string, Lazy<object>> answers = new(StringComparer.Ordinal);
    private readonly Lock gate = new();
    private (long Version, DateOnly Today) about;

    /// <summary>Answers about single packages, which outlive what is written about others.</summary>
    public PackageMemory Packages { get; } = new();

    /// <summary>The answer of a name, worked out once for a cellar as it stands.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="today">The present.</param>
    /// <param name="name">Sets this answer apart from others, such as <c>due 15</c>.</param>
    /// <param name="answer">Works it out.</param>
    public T Of<T>(Cellar cellar, DateOnly today, string name, Func<T> answer) where T : class
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(answer);
        lock (gate)
        {
            if (about != (cellar.Version, today))
            {
                answers.Clear();
                about = (cellar.Version, today);
            }
        }

        var kept = answers.GetOrAdd(name, _ => new Lazy<object>(answer));
        try
        {
            return (T)kept.Value;
        }
        catch
        {
            answers.TryRemove(new(name, kept));
            throw;
        }
    }
}
