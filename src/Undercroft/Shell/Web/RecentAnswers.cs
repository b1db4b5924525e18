using System.Collections.Concurrent;
using System.Globalization;
using Undercroft.Forecasts;
using Undercroft.Forecasts.Due;
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

    /// <summary>The answer of a name where it is there soon; else null, while the work goes on.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="today">The present.</param>
    /// <param name="name">Sets this answer apart from others.</param>
    /// <param name="begin">Begins the work.</param>
    /// <param name="patience">How long to wait; <see cref="LongWork.Patience"/> unless said.</param>
    /// <returns>The answer or null, and the work.</returns>
    public async Task<(T? Answer, LongWork Work)> Soon<T>(Cellar cellar, DateOnly today, string name, Func<LongWork<T>> begin, TimeSpan? patience = null) where T : class
    {
        var work = Of(cellar, today, name, begin);
        try
        {
            return (await work.Within(patience ?? LongWork.Patience), work);
        }
        catch when (work.Failed)
        {
            answers.TryRemove(name, out _);
            throw;
        }
    }

    /// <summary>What needs a look within some minutes, as every page that asks for it shares it.</summary>
    public Task<(DueAnswer? Answer, LongWork Work)> Due(Cellar cellar, DateOnly today, double minutes, TimeSpan? patience = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        return Soon(cellar, today, $"due {minutes.ToString(CultureInfo.InvariantCulture)}", () => new LongWork<DueAnswer>(
            "Forecasts of what stands here", cellar.Here.Count(), work => Task.FromResult(DueList.Of(cellar, today, minutes, memory: Packages, done: work.Step))), patience);
    }
}
