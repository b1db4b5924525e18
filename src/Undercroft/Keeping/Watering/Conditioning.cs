using Undercroft.Keeping.Measuring;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Keeping.Watering;

/// <summary>A step of rewetting or drying as it was done: what the scale showed before and after, and what the hygrometer then showed.</summary>
/// <param name="Before">Such as <c>412.0g</c>.</param>
/// <param name="After">Such as <c>414.3g</c>.</param>
/// <param name="Net">True where the leaf alone was weighed.</param>
/// <param name="Humidity">Inside, afterwards, such as <c>62%</c>.</param>
/// <param name="Scale">Last step of the scale.</param>
/// <param name="On">When.</param>
public sealed record ConditionDone(string Before, string After, bool Net = false, string? Humidity = null, string? Scale = null, string? On = null);

/// <summary>Writes a step of rewetting or drying down, so that it ends in a measured state: two weighings, the water between them, and a day to look again.</summary>
public static class Conditioning
{
    /// <summary>After a day leaf has evened out enough to be measured (common practice, no source).</summary>
    public const int LookAgainAfterDays = 1;

    /// <summary>The lines of one step, in their order.</summary>
    /// <exception cref="Refusal">Not masses, or the same before and after.</exception>
    public static IReadOnlyList<Said> Lines(Package package, Present present, ConditionDone done)
    {
        ArgumentNullException.ThrowIfNull(package);
        ArgumentNullException.ThrowIfNull(present);
        ArgumentNullException.ThrowIfNull(done);
        var (before, after) = (Measure.Weighed(package, present, done.Before, done.Net, done.Scale, done.On), Measure.Weighed(package, present, done.After, done.Net, done.Scale, done.On));
        var water = ((Fact.PackageWeighed)after.Fact).Mass - ((Fact.PackageWeighed)before.Fact).Mass;
        if (Math.Abs(water.Grams) < 1e-9)
            throw new Refusal("Before and after are the same, so nothing was added or lost. Weigh it again, or write the weight down alone.");
        var happened = before.Happened;
        List<Said> lines = [before, new(new Fact.WaterAdded(package.Id, StatedMass.Exactly(Mass.FromGrams(Math.Round(water.Grams, 4)), SaidBy.Weighed)), happened), after];
        if (done.Humidity is not null)
            lines.Add(Measure.Humidity(package, present, done.Humidity, on: done.On));
        var again = (happened.Latest ?? present.Today).AddDays(LookAgainAfterDays);
        if (again > present.Today)
            lines.Add(new(new Fact.Decided(package.Id, Decision.Watch, again, water.Grams > 0 ? "water was added" : "it was dried"), happened));
        return lines;
    }

    /// <summary>Writes them, all or none.</summary>
    public static async ValueTask<Kept> Of(ICellars cellars, Func<Cellar, Present> presentOf, string typedId, ConditionDone done)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(presentOf);
        Ledger.Ids.PackageId id = default;
        var change = await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            var package = cellar.FindPackage(typedId);
            id = package.Id;
            List<CellarEvent> lines = [];
            foreach (var said in Lines(package, present, done))
                lines.Add(CellarEvent.New(said.Fact, said.Happened, present.Now, cause: lines.FirstOrDefault()?.Id)); // taking the first back takes the step back
            return Recording.Checked(cellar, [.. lines]);
        });
        return new(change.Events, change.After, change.After.Packages[id], Recording.NewDoubts(change, id));
    }
}
