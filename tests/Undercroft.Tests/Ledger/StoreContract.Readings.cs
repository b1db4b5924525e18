using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Ledger;

/// <summary>Readings in batches.</summary>
public abstract partial class StoreContract
{
    private static readonly long Noon = new DateTimeOffset(2020, 3, 1, 12, 0, 0, TimeSpan.Zero).ToUnixTimeSeconds();

    [Fact]
    public async Task A_batch_is_there_for_everybody_with_its_line()
    {
        var (home, cellars) = await Begun();
        var change = await Import(cellars, home, 1, Hours(0, 48));
        var told = Assert.IsType<Fact.ReadingsImported>(change.Events.Single().Fact);
        Assert.Equal((48L, Noon, Noon + (47 * 3600)), (told.Count, told.First.ToUnixTimeSeconds(), told.Last.ToUnixTimeSeconds()));
        var other = Open();
        var cellar = await other.ReadAsync(cancellation: Stop);
        Assert.Equal(5, cellar.Version);
        Assert.Equal(Hours(0, 48), await other.AllReadingsAsync(cellar.ReadingsOf(home.Cupboard), Stop));
        Assert.Equal(Hours(0, 48), await Streamed(other, cellar.ReadingsOf(home.Cupboard)));
        Assert.Empty(await other.AllReadingsAsync(cellar.ReadingsOf(home.Loft), Stop));
        var some = cellar.ReadingsOf(home.Cupboard, from: DateTimeOffset.FromUnixTimeSeconds(Noon + 3600), to: DateTimeOffset.FromUnixTimeSeconds(Noon + (4 * 3600)));
        Assert.Equal(Hours(1, 4), await other.AllReadingsAsync(some, Stop));
    }

    [Fact]
    public async Task What_a_logger_did_not_note_stays_unknown()
    {
        var (home, cellars) = await Begun();
        Reading[] readings =
        [
            new(Noon, new Temperature(291.15)),
            new(Noon + 1, null, new RelativeHumidity(0)),
            new(Noon + 2, null, null, new Pressure(0)),
            new(Noon + 3, null, null, null, 0),
            new(Noon + 4, new Temperature(0.1 + 0.2), new RelativeHumidity(1d / 3), new Pressure(101325.7), 1e-7),
            new(Reading.Latest, new Temperature(double.MaxValue)),
        ];
        await Import(cellars, home, 1, readings);
        var read = await Open().AllReadingsAsync((await cellars.ReadAsync(cancellation: Stop)).ReadingsOf(home.Cupboard), Stop);
        Assert.Equal(readings, read);
        Assert.Null(read[0].Humidity);
        Assert.Null(read[1].Temperature);
        Assert.Equal(0, read[3].LightLux);
    }

    [Fact]
    public async Task The_same_batch_again_adds_nothing()
    {
        var (home, cellars) = await Begun();
        await Import(cellars, home, 1, Hours(0, 10));
        var again = await Import(Open(), home, 1, Hours(0, 10));
        Assert.Equal(5, again.Events.Single().Version);
        Assert.Equal(5, again.After.Version);
    }

    [Fact]
    public async Task A_batch_on_an_old_version_is_a_conflict_and_its_readings_are_not_touched()
    {
        var (home, cellars) = await Begun();
        var touched = false;
        IEnumerable<Reading> Touched()
        {
            touched = true;
            yield return Hours(0, 1)[0];
        }

        Assert.Equal(new AppendResult.Conflict(4), await cellars.AppendAsync(3, new ReadingBatch(Guid.NewGuid(), Touched(), taken => [Told(home, 1, taken)]), Stop));
        Assert.False(touched);
    }

    [Fact]
    public async Task A_file_that_breaks_off_or_events_that_do_not_fit_leave_nothing()
    {
        var (home, cellars) = await Begun();
        static IEnumerable<Reading> Breaking() => Hours(0, 5000).Concat(Hours(5000, 1).Select<Reading, Reading>(_ => throw new IOException("the stick was pulled out")));
        await Assert.ThrowsAsync<IOException>(async () => await cellars.AppendAsync(4, new ReadingBatch(Guid.NewGuid(), Breaking(), taken => [Told(home, 1, taken)]), Stop));
        await Assert.ThrowsAsync<ArgumentException>(async () => await cellars.AppendAsync(4, new ReadingBatch(Guid.NewGuid(), Hours(0, 3), taken => [Told(home, 1, taken with { Count = 4 })]), Stop));
        await Assert.ThrowsAsync<ArgumentException>(async () => await cellars.AppendAsync(4, new ReadingBatch(Guid.NewGuid(), Hours(0, 3), _ => [home.Next(new Fact.Noted("no readings"))]), Stop));
        await Assert.ThrowsAsync<ArgumentException>(async () => await cellars.AppendAsync(4, [Told(home, 1, Taken)], Stop));
        await Assert.ThrowsAsync<Refusal>(async () => await cellars.AppendAsync(4, new ReadingBatch(Guid.NewGuid(), [], _ => []), Stop));
        Assert.Equal(new AppendResult.Written(4, []).Version, Assert.IsType<AppendResult.Written>(await cellars.AppendAsync(4, new ReadingBatch(Guid.NewGuid(), Hours(0, 3), _ => []), Stop)).Version);
        Assert.Equal(4, (await Open().ReadAsync(cancellation: Stop)).Version);
        await Import(cellars, home, 1, Hours(0, 3)); // and goes on as if nothing had been
        Assert.Equal(5, (await Open().ReadAsync(cancellation: Stop)).Version);
    }

    [Fact]
    public async Task Rows_out_of_order_and_twice_make_the_same_batch()
    {
        var (home, cellars) = await Begun();
        var mixed = Hours(0, 9);
        Reading[] rows = [.. mixed.Reverse(), mixed[3], new(mixed[4].UtcSeconds, new Temperature(250))];
        ReadingsTaken? taken = null;
        await Import(cellars, home, 1, rows, told => taken = told);
        Assert.Equal((9L, 1L, 1L), (taken!.Count, taken.Repeated, taken.Contradicted));
        await Import(cellars, home, 2, mixed, told => Assert.Equal(taken.Sha256, told.Sha256), home.Loft);
        Assert.Equal(mixed, await cellars.AllReadingsAsync((await cellars.ReadAsync(cancellation: Stop)).ReadingsOf(home.Cupboard), Stop));
    }

    [Fact]
    public async Task Overlapping_batches_merge_the_older_counts_and_either_can_be_undone()
    {
        var (home, cellars) = await Begun();
        var first = await Import(cellars, home, 1, Hours(0, 10));
        ReadingsTaken? taken = null;
        Reading[] later = [.. Hours(5, 10).Select((reading, i) => i == 0 ? new Reading(reading.UtcSeconds, new Temperature(250)) : reading)];
        var second = await Import(cellars, home, 2, later, told => taken = told);
        Assert.Equal((5L, 1L, false), (taken!.Known, taken.Differing, taken.AddsNothing));
        Assert.Equal(Hours(0, 15), await All());

        await Undo(first);
        Assert.Equal(later, await All());
        await cellars.ChangeAsync(cellar => [Rules.Undo(cellar, cellar.Lines[^1].Event.Id, home.AddJars.Recorded)], Stop);
        Assert.Equal(Hours(0, 15), await All());
        await Undo(second);
        Assert.Equal(Hours(0, 10), await All());

        await Import(cellars, home, 9, Hours(2, 4), told => Assert.True(told.AddsNothing));
        async Task<IReadOnlyList<Reading>> All()
        {
            var span = (await cellars.ReadAsync(cancellation: Stop)).ReadingsOf(home.Cupboard);
            var all = await cellars.AllReadingsAsync(span, Stop);
            Assert.Equal(all, await Streamed(cellars, span));
            return all;
        }

        ValueTask<Change> Undo(Change change) => cellars.ChangeAsync(cellar => [Rules.Undo(cellar, change.Events[0].Id, home.AddJars.Recorded)], Stop);
    }

    [Fact]
    public async Task Long_streams_of_many_batches_come_in_order()
    {
        var (home, cellars) = await Begun();
        for (var i = 0; i < 7; i++)
            await Import(cellars, home, i + 1, Hours(i * 2500, 3000));
        var cellar = await cellars.ReadAsync(cancellation: Stop);
        Assert.Equal(Hours(0, 18_000), await Streamed(cellars, cellar.ReadingsOf(home.Cupboard)));
        Assert.Equal(Hours(4000, 9000), await Streamed(cellars, cellar.ReadingsOf(home.Cupboard, from: At(4000), to: At(12_999))));
    }

    [Fact]
    public async Task Both_pasts_of_readings_can_be_read_and_sensors_told_apart()
    {
        var (home, cellars) = await Begun();
        var change = await Import(cellars, home, 1, Hours(0, 72));
        await Import(cellars, home, 2, Hours(36, 72), series: "door");
        var now = await cellars.ReadAsync(cancellation: Stop);
        Assert.Equal(["", "door"], now.SeriesAt(home.Cupboard));
        Assert.Equal(Hours(36, 72), await cellars.AllReadingsAsync(now.ReadingsOf(home.Cupboard, "door"), Stop));
        Assert.Equal(Hours(0, 108), await cellars.AllReadingsAsync(now.ReadingsOf(home.Cupboard), Stop));
        var then = await cellars.ReadAsync(new View(AsOf: new DateOnly(2020, 3, 2)), Stop); // noon of the first to midnight of the second
        Assert.Equal(Hours(0, 36), await cellars.AllReadingsAsync(then.ReadingsOf(home.Cupboard), Stop));
        Assert.Null(then.ReadingsNear(home.Loft));
        Assert.Equal(home.Cupboard, then.ReadingsNear(home.Cupboard)?.Id);
        var before = await cellars.ReadAsync(new View(KnownOn: change.Events[0].Recorded.AddSeconds(-1)), Stop);
        Assert.Empty(before.Readings);
        Assert.True(before.ReadingsOf(home.Cupboard).IsEmpty);
    }

    private static ReadingsTaken Taken => new(Guid.NewGuid(), 1, 0, 0, 0, 0, At(0), At(0), new string('0', 64));

    private static DateTimeOffset At(int hour) => DateTimeOffset.FromUnixTimeSeconds(Noon + (3600L * hour));

    private static Reading[] Hours(int from, int count) =>
        [.. Enumerable.Range(from, count).Select(hour => new Reading(Noon + (3600L * hour), new Temperature(290.15 + (hour % 24 / 10d)), new RelativeHumidity(0.55 + (hour % 7 / 100d))))];

    private static CellarEvent Told(Household home, int number, ReadingsTaken taken, string? series = null, Undercroft.Ledger.Ids.PlaceId? place = null) =>
        Household.New(1000 + number, taken.Fact(new Fact.ReadingsImported(place ?? home.Cupboard, "logger.csv", "9f86d081", series))) with { Happened = taken.Happened };

    private static ValueTask<Change> Import(ICellars cellars, Household home, int number, IEnumerable<Reading> readings, Action<ReadingsTaken>? look = null, Undercroft.Ledger.Ids.PlaceId? place = null, string? series = null) =>
        cellars.ImportAsync(
            cellar => new ReadingBatch(
                new Guid(number, 0, 0, [9, 9, 9, 9, 9, 9, 9, 9]),
                readings,
                taken =>
                {
                    look?.Invoke(taken);
                    return [Told(home, number, taken, series, place)];
                },
                cellar.ReadingsOf(place ?? home.Cupboard, series ?? "")),
            Stop);

    private static async Task<List<Reading>> Streamed(ICellars cellars, ReadingSpan span)
    {
        List<Reading> all = [];
        await foreach (var reading in cellars.ReadingsAsync(span, Stop))
            all.Add(reading);
        return all;
    }

    private async Task<(Household Home, ICellars Cellars)> Begun()
    {
        var home = new Household();
        var cellars = Open();
        await cellars.AppendAsync(0, home.Events, Stop);
        return (home, cellars);
    }
}
