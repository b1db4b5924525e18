using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Xunit;

namespace Undercroft.Tests.Ledger;

/// <summary>What every store of a ledger does. A second store derives from this and nothing else.</summary>
public abstract partial class StoreContract
{
    /// <summary>Another way into the same, at first empty, ledger, as another program would have.</summary>
    protected abstract ICellars Open();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task An_empty_ledger_reads_as_an_empty_cellar()
    {
        var cellars = Open();
        Assert.Equal(0, (await cellars.ReadAsync(cancellation: Stop)).Version);
        Assert.Empty(await cellars.EventsAsync(cancellation: Stop));
    }

    [Fact]
    public async Task What_was_written_is_there_for_everybody_in_order()
    {
        var home = new Household();
        var (one, other) = (Open(), Open());
        var written = Assert.IsType<AppendResult.Written>(await one.AppendAsync(0, home.Events, Stop));
        Assert.Equal(4, written.Version);
        Assert.Equal([1L, 2, 3, 4], written.Events.Select(line => line.Version));
        Assert.Equal(home.Events.Select(EventLine.Write), (await other.EventsAsync(cancellation: Stop)).Select(EventLine.Write));
        Assert.Equal([3L, 4], (await other.EventsAsync(2, Stop)).Select(line => line.Version));
        Assert.Equal(4, (await other.ReadAsync(cancellation: Stop)).Version);
        Assert.Equal(2, (await other.ReadAsync(cancellation: Stop)).Packages.Count);
    }

    [Fact]
    public async Task Writing_on_an_old_version_is_a_conflict_and_writes_nothing()
    {
        var home = new Household();
        var cellars = Open();
        await cellars.AppendAsync(0, home.Events, Stop);
        var late = home.Next(new Fact.Noted("late"));
        Assert.Equal(new AppendResult.Conflict(4), await cellars.AppendAsync(3, [late], Stop));
        Assert.Equal(new AppendResult.Conflict(4), await cellars.AppendAsync(9, [late], Stop));
        Assert.Equal(4, (await cellars.ReadAsync(cancellation: Stop)).Version);
        Assert.IsType<AppendResult.Written>(await cellars.AppendAsync(4, [late], Stop));
    }

    [Fact]
    public async Task The_same_event_again_adds_nothing_and_answers_with_its_version()
    {
        var home = new Household();
        var cellars = Open();
        await cellars.AppendAsync(0, home.Events, Stop);
        var again = Assert.IsType<AppendResult.Written>(await Open().AppendAsync(0, [.. home.Events.Take(2).Select(line => line with { Version = 0 })], Stop));
        Assert.Equal([1L, 2], again.Events.Select(line => line.Version));
        Assert.Equal(4, again.Version);
        Assert.Equal(4, (await cellars.ReadAsync(cancellation: Stop)).Version);
    }

    [Fact]
    public async Task Another_event_under_a_known_id_is_refused_and_nothing_of_the_append_is_kept()
    {
        var home = new Household();
        var cellars = Open();
        await cellars.AppendAsync(0, home.Events, Stop);
        var fresh = home.Next(new Fact.Noted("fresh"));
        var liar = home.Events[0] with { Fact = new Fact.Noted("something else") };
        Assert.Contains("says something else", (await Assert.ThrowsAsync<Refusal>(async () => await cellars.AppendAsync(4, [fresh, liar], Stop))).Message, StringComparison.Ordinal);
        Assert.Equal(4, (await Open().ReadAsync(cancellation: Stop)).Version);
    }

    [Fact]
    public async Task Every_append_is_there_after_opening_anew()
    {
        var home = new Household();
        for (var i = 0; i < home.Events.Count; i++)
        {
            Assert.IsType<AppendResult.Written>(await Open().AppendAsync(i, [home.Events[i] with { Version = 0 }], Stop));
            Assert.Equal(i + 1, (await Open().ReadAsync(cancellation: Stop)).Version);
        }
    }

    [Fact]
    public async Task Long_lines_and_many_lines_come_back_in_order()
    {
        CellarEvent[] lines = [.. Enumerable.Range(1, 2000).Select(i => Household.New(i, new Fact.Noted(i % 500 == 0 ? new string('x', 100 * i) : $"€ {i}")))];
        await Open().AppendAsync(0, lines, Stop);
        Assert.Equal(lines.Select((line, i) => EventLine.Write(line with { Version = i + 1 })), (await Open().EventsAsync(cancellation: Stop)).Select(EventLine.Write));
    }

    [Fact]
    public async Task Two_writers_at_once_lose_nothing()
    {
        const int Each = 25;
        var writers = Enumerable.Range(0, 3).Select(writer => Task.Run(
            async () =>
            {
                var cellars = Open();
                for (var i = 0; i < Each; i++)
                {
                    var line = Household.New((1000 * writer) + i, new Fact.Noted($"{writer}/{i}"));
                    while (await cellars.AppendAsync((await cellars.ReadAsync(cancellation: Stop)).Version, [line], Stop) is not AppendResult.Written)
                    {
                    }
                }
            },
            Stop));
        await Task.WhenAll(writers);
        var events = await Open().EventsAsync(cancellation: Stop);
        Assert.Equal(Enumerable.Range(1, 3 * Each).Select(version => (long)version), events.Select(line => line.Version));
        Assert.Equal(3 * Each, events.Select(line => ((Fact.Noted)line.Fact).Text).Distinct().Count());
    }

    [Fact]
    public async Task A_change_decides_again_where_somebody_came_between()
    {
        var home = new Household();
        var (one, other) = (Open(), Open());
        var decided = 0;
        var change = await one.ChangeAsync(
            cellar =>
            {
                if (decided++ == 0)
                    Assert.IsType<AppendResult.Written>(other.AppendAsync(0, home.Events, Stop).AsTask().GetAwaiter().GetResult());
                return [home.Next(new Fact.Noted(FormattableString.Invariant($"seen {cellar.Version}")))];
            },
            Stop);
        Assert.Equal(2, decided);
        Assert.Equal("seen 4", ((Fact.Noted)change.Events.Single().Fact).Text);
        Assert.Equal((4L, 5L), (change.Before.Version, change.After.Version));
    }

    [Fact]
    public async Task A_change_that_the_rules_refuse_writes_nothing()
    {
        var home = new Household();
        var cellars = Open();
        await cellars.AppendAsync(0, home.Events, Stop);
        await Assert.ThrowsAsync<Refusal>(async () => await cellars.ChangeAsync(_ => [home.Next(new Fact.Noted("good")), home.Next(home.Weighed(-1))], Stop));
        Assert.Equal(4, (await Open().ReadAsync(cancellation: Stop)).Version);
    }

    [Fact]
    public async Task Both_pasts_can_be_read()
    {
        var home = new Household();
        var moved = home.Add(new Fact.PackageMoved(home.Jar, home.Loft), "2018-06-01");
        var cellars = Open();
        await cellars.AppendAsync(0, home.Events, Stop);
        Assert.Equal(home.Cupboard, (await cellars.ReadAsync(new View(AsOf: new DateOnly(2018, 5, 1)), Stop)).Packages[home.Jar].Place);
        Assert.Equal(home.Cupboard, (await cellars.ReadAsync(new View(KnownOn: moved.Recorded.AddSeconds(-1)), Stop)).Packages[home.Jar].Place);
        Assert.Equal(home.Loft, (await cellars.ReadAsync(View.Now, Stop)).Packages[home.Jar].Place);
    }
}
