using System.Diagnostics;

namespace Undercroft.Shell.Web;

/// <summary>Work that may take longer than a person waits: it goes on beside the page that began it, and tells how far it is.</summary>
/// <param name="what">What is being done, as a sentence begins: <c>Forecasts of your packages</c>.</param>
/// <param name="of">How many steps there are; 0 where nobody knows.</param>
public abstract class LongWork(string what, int of)
{
    /// <summary>So long a person waits without being told anything.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);

    private readonly long began = Stopwatch.GetTimestamp();
    private int done;
    private int steps = of;

    /// <summary>What is being done.</summary>
    public string What { get; private set; } = what;

    /// <summary>Steps done, never more than <see cref="Of"/> where that is known.</summary>
    public int Done => Of > 0 ? Math.Min(done, Of) : done;

    /// <summary>Steps in all; 0 where nobody knows.</summary>
    public int Of => steps;

    /// <summary>How long it has been going on.</summary>
    public TimeSpan Since => Stopwatch.GetElapsedTime(began);

    /// <summary>One step more is done.</summary>
    public void Step() => Interlocked.Increment(ref done);

    /// <summary>So many steps are done.</summary>
    public void Reached(int step) => Volatile.Write(ref done, step);

    /// <summary>The next part of the work begins.</summary>
    public void Begin(string part, int ofSteps)
    {
        (What, steps) = (part, ofSteps);
        Volatile.Write(ref done, 0);
    }
}

/// <summary>Long work and its answer.</summary>
public sealed class LongWork<T> : LongWork where T : class
{
    private readonly Task<T> answer;

    /// <summary>Begins it.</summary>
    /// <param name="what">As <see cref="LongWork.What"/>.</param>
    /// <param name="of">As <see cref="LongWork.Of"/>.</param>
    /// <param name="work">Does it, and tells of steps.</param>
    public LongWork(string what, int of, Func<LongWork, Task<T>> work) : base(what, of) => answer = Task.Run(() => work(this));

    /// <summary>True where it failed.</summary>
    public bool Failed => answer.IsFaulted || answer.IsCanceled;

    /// <summary>The answer, or null where it is not there after so long.</summary>
    /// <exception cref="Exception">What the work failed with.</exception>
    public async Task<T?> Within(TimeSpan patience)
    {
        await Task.WhenAny(answer, Task.Delay(patience));
        return answer.IsCompleted ? await answer : null;
    }
}
