using Undercroft.Keeping.Adding;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Shell;

namespace Undercroft.Tests.Forecasts;

/// <summary>A cellar in memory, written as a person would: requests in, facts out.</summary>
internal sealed class OneCellar
{
    private readonly List<CellarEvent> events = [];

    public DateOnly Today { get; init; } = new(2026, 5, 16);

    public Cellar Cellar => Cellar.Fold(events);

    private Present Present => new(Today, new DateTimeOffset(Today, new TimeOnly(12, 0), TimeSpan.Zero));

    public PackageId Add(AddRequest request)
    {
        Write(AddPackages.Decide(Cellar, request, Present));
        return ((Fact.PackagesAdded)events[^1].Fact).Packages[0];
    }

    public OneCellar Say(string on, Fact fact)
    {
        Write([CellarEvent.New(fact, UnevenDate.Parse(on), Present.Now)]);
        return this;
    }

    private void Write(IEnumerable<CellarEvent> lines)
    {
        foreach (var line in lines)
            events.Add(line with { Version = events.Count + 1 });
    }
}
