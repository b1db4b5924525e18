using Undercroft.Forecasts;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Shell.Web;

namespace Undercroft.Keeping.Showing;

/// <summary>How a package stands at a glance, told from its records alone: no forecast is run, so that thousands are told at once.</summary>
/// <param name="Standing">Shape and colour.</param>
/// <param name="Word">One or two words.</param>
/// <param name="Why">A short sentence.</param>
public sealed record ShelfState(Standing Standing, string Word, string Why)
{
    private const int SoonDays = 60; // a look within two months is worth knowing of (assumption)

    /// <summary>Of a package.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="package">Which.</param>
    /// <param name="today">The present.</param>
    public static ShelfState Of(Cellar cellar, Package package, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(package);
        if (!package.IsHere)
            return new(Standing.Unknown, "gone", $"Left the cellar: {CodeWords.Of(package.Removed!.Value.Fact.As)}.");
        if (Findings.Unmended(package) is { } look)
            return new(Standing.Act, "amiss", $"{CodeWords.Of(look.Fact.Findings.First(Rules.IsAmiss)).Replace('-', ' ')} seen {look.Entry.InWords}, not settled.");
        if (package.Container.Kind is null && package.Container.Text is null)
            return new(Standing.Unknown, "not known", "Nobody said what it is packed in.");
        var due = Habit.Due(package, ContainerBelief.Of(cellar, package.Container).Kinds[0], today);
        return due.On <= today ? new(Standing.Look, "look", due.NeverLookedAt ? "Never looked at." : $"A look is {due.Said(today)}.")
            : due.On.DayNumber - today.DayNumber <= SoonDays ? new(Standing.Soon, "soon", $"A look is {due.Said(today)}.")
            : new(Standing.Well, "well", $"Nothing to do until {due.Words}.");
    }
}
