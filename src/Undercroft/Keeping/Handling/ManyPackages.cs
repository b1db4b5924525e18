using Undercroft.Keeping.Measuring;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Shell;

namespace Undercroft.Keeping.Handling;

/// <summary>What is written about several packages.</summary>
/// <param name="Act">A code of <see cref="ManyPackages.Acts"/>.</param>
/// <param name="Place">Where to, for a move.</param>
/// <param name="Container">A kind, for what they are packed in.</param>
/// <param name="On">When; null means today.</param>
/// <param name="Note">In words.</param>
public sealed record SaidOfMany(string? Act, string? Place = null, string? Container = null, string? On = null, string? Note = null);

/// <summary>One fact written about several packages in one act: all of it, or nothing; taken back as a whole.</summary>
public static class ManyPackages
{
    /// <summary>More than this at once is a slip of the finger (assumption).</summary>
    public const int MostAtOnce = 5000;

    /// <summary>What can be written about several at once.</summary>
    public static IReadOnlyList<(string Code, string Word)> Acts { get; } =
    [
        ("look", "looked at: all is well"), ("move", "moved"), ("packed-in", "what they are packed in"), ("open", "opened"), ("close", "closed again"), ("note", "a note"), ("finished", "used up"), ("given", "given away"), ("lost", "not found any more"),
    ];

    /// <summary>Writes it.</summary>
    /// <param name="cellars">Where.</param>
    /// <param name="choose">The packages, on the cellar as it is read.</param>
    /// <param name="said">What is written about each.</param>
    /// <param name="presentOf">The present for the cellar as read.</param>
    /// <returns>What was written; undoing its last line takes all of it back.</returns>
    /// <exception cref="Refusal">No package, another act, or one package for which it cannot be, which is named; nothing is written.</exception>
    public static async ValueTask<Change> Write(
        ICellars cellars, Func<Cellar, IReadOnlyList<Package>> choose, SaidOfMany said, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(said);
        return await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            var packages = choose(cellar);
            if (packages.Count is 0 or > MostAtOnce)
                throw new Refusal(packages.Count == 0 ? "No package is chosen: tick some, or choose all that match." : $"{packages.Count} packages are more than {MostAtOnce} at once: narrow the filter.");
            CellarEvent[] lines = [.. packages.Select(package => Line(cellar, package, present, said))];
            return Recording.Checked(cellar, [.. lines[..^1].Select(line => line with { Cause = lines[^1].Id }), lines[^1]]);
        });
    }

    private static CellarEvent Line(Cellar cellar, Package package, Present present, SaidOfMany of)
    {
        var (act, place, container, on, note) = of;
        try
        {
            if (!package.IsHere)
                throw new Refusal("it has left the cellar.");
            var said = act switch
            {
                "look" => Measure.Looked(package, present, [], on: on, note: note),
                "move" => Handle.Moved(package, cellar, present, place ?? throw new Refusal("say where to."), on, note),
                "packed-in" => Measure.Contained(package, cellar, present, new(Kind: container ?? throw new Refusal("say what they are packed in.")), on),
                "open" => package.IsOpen ? throw new Refusal("it stands open already.") : Handle.Opened(package, present, on, note),
                "close" => !package.IsOpen ? throw new Refusal("it is closed already.") : Handle.Closed(package, present, on, note),
                "note" => new Said(new Fact.Noted(note ?? throw new Refusal("a note needs words."), package.Id.Id), on is null ? UnevenDate.On(present.Today) : present.When(on)),
                "finished" or "given" or "lost" => Handle.Removed(package, present, act, on, note: note),
                _ => throw new Refusal($"'{act}' is nothing that can be written about several at once."),
            };
            return CellarEvent.New(said.Fact, said.Happened, present.Now);
        }
        catch (Refusal refusal)
        {
            throw new Refusal($"{package.Id}: {refusal.Message} Nothing was written for any of them.");
        }
    }
}
