using CsCheck;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Ledger;

public class FoldTests
{
    [Fact]
    public void An_empty_ledger_is_an_empty_cellar()
    {
        Assert.Equal(0, Cellar.Empty.Version);
        Assert.Empty(Cellar.Empty.Packages);
        Assert.False(Cellar.Empty.IsDemo);
    }

    [Fact]
    public void A_household_reads_back()
    {
        var home = new Household();
        var jar = home.TheJar;
        Assert.Equal(4, home.Cellar.Version);
        Assert.Equal("Cupboard", home.Cellar.PathOf(jar.Place));
        Assert.Equal("cupboard", home.Cellar.RoomKindAt(jar.Place));
        Assert.Equal("Evening ribbon", home.Cellar.BlendOf(jar).Name);
        Assert.Equal([home.Jar, home.Other], home.Cellar.Lots[home.Ribbon].Packages);
        Assert.Equal(0.1, jar.BookNet.Mid!.Value.Kilograms, 12);
        Assert.Equal("2016-03-10", jar.UndisturbedSince.ToString());
        Assert.Equal(home.AddJars.Id, jar.AddedBy);
        Assert.False(jar.IsOpen);
        Assert.True(jar.IsHere);
    }

    [Fact]
    public void State_follows_when_things_happened_not_when_they_were_written_down()
    {
        var home = new Household();
        home.Add(new Fact.PackageMoved(home.Jar, home.Loft), "2019-06-01");
        home.Add(new Fact.PackageMoved(home.Jar, home.Cupboard), "2018-01-01");
        Assert.Equal(home.Loft, home.TheJar.Place);
        Assert.Equal(["2018-01-01", "2019-06-01"], home.TheJar.Moves.Select(move => move.Entry.Happened.ToString()));
    }

    [Fact]
    public void Opening_closing_taking_and_repacking_change_the_state()
    {
        var home = new Household();
        home.Add(new Fact.PackageOpened(home.Jar), "2018-05");
        Assert.True(home.TheJar.IsOpen);
        home.Add(new Fact.LeafTaken(home.Jar, StatedMass.Parse("10g")), "2018-05-20");
        home.Add(new Fact.PackageClosed(home.Jar), "2018-05-21");
        Assert.False(home.TheJar.IsOpen);
        Assert.Equal(90, home.TheJar.BookNet.Mid!.Value.Grams, 9);
        Assert.Equal("2018-05-21", home.TheJar.UndisturbedSince.ToString());
        home.Add(new Fact.WaterAdded(home.Jar, StatedMass.Parse("~2g")), "2018-05-22");
        Assert.Equal((91.8, 92.2), (Math.Round(home.TheJar.BookNet.Low!.Value.Grams, 9), Math.Round(home.TheJar.BookNet.High!.Value.Grams, 9)));
        home.Add(new Fact.PackageRepacked(home.Jar, new Container("jar-237", Tare: StatedMass.Parse("250g")), StatedMass.Parse("340g")), "2019");
        Assert.Equal("jar-237", home.TheJar.Container.Kind);
        Assert.Equal(90, home.TheJar.BookNet.Mid!.Value.Grams, 9);
        home.Add(home.Weighed(335), "2020");
        Assert.Equal(85, home.TheJar.BookNet.Mid!.Value.Grams, 9);
        home.Add(new Fact.PackageRemoved(home.Jar, RemovedAs.Given), "2020-02");
        Assert.False(home.TheJar.IsHere);
        Assert.Equal([home.Other], home.Cellar.Here.Select(package => package.Id));
    }

    [Fact]
    public void A_tare_weighed_later_tells_what_an_earlier_weight_meant()
    {
        var home = new Household();
        var id = new PackageId(home.Cellar.NextIds(1)[0]);
        home.Add(new Fact.PackagesAdded(home.Ribbon, [id], new Container("jar-473")));
        home.Add(new Fact.PackageWeighed(id, Mass.FromGrams(480)), "2018");
        Assert.False(home.Cellar.Packages[id].BookNet.IsKnown);
        Assert.Equal(1, MassTotal.Of(home.Cellar.Here).Unknown);
        home.Add(new Fact.ContainerStated(id, new Container(Tare: StatedMass.Parse("400g"))), "2019");
        Assert.Equal("jar-473", home.Cellar.Packages[id].Container.Kind);
        Assert.Equal(80, home.Cellar.Packages[id].BookNet.Mid!.Value.Grams, 9);
        var total = MassTotal.Of(home.Cellar.Here);
        Assert.Equal((280, 3, 0), (Math.Round(total.Low.Grams, 6), total.Packages, total.Unknown));
        Assert.Contains("Nothing was said", home.Refused(new Fact.ContainerStated(id, Container.Unknown)), StringComparison.Ordinal);
    }

    [Fact]
    public void What_changed_between_two_views_is_told()
    {
        var home = new Household();
        home.Add(new Fact.PackageMoved(home.Jar, home.Loft), "2019");
        home.Add(new Fact.PackageRepacked(home.Jar, new Container("jar-237")), "2019-08");
        home.Add(new Fact.PackageOpened(home.Jar), "2019-09");
        home.Add(new Fact.PackageRemoved(home.Other, RemovedAs.Given), "2019-10");
        var fresh = new PackageId(home.Cellar.NextIds(1)[0]);
        home.Add(new Fact.PackagesAdded(home.Ribbon, [fresh], Container.Unknown), "2019-11");
        var changes = Changes.Between(Cellar.Fold(home.Events, new View(AsOf: new DateOnly(2018, 12, 31))), home.Cellar);
        Assert.Equal([fresh], changes.Came);
        Assert.Equal([home.Other], changes.Went);
        Assert.Equal([new Moved(home.Jar, home.Cupboard, home.Loft)], changes.Moved);
        Assert.Equal([home.Jar], changes.Opened);
        Assert.Equal([home.Jar], changes.Repacked);
        Assert.Empty(changes.Closed);
        Assert.Equal((200, 100, 1), (Math.Round(changes.Before.High.Grams, 6), Math.Round(changes.After.High.Grams, 6), changes.After.Unknown));
    }

    [Fact]
    public void The_timeline_begins_with_the_sealing_whatever_the_dates_say()
    {
        var home = new Household();
        home.Add(home.Weighed(500), "2016-03-01");
        var jar = home.TheJar;
        Assert.IsType<Fact.PackagesAdded>(jar.Timeline[0].Fact);
        Assert.Equal(new DateOnly(2016, 3, 1), jar.Timeline[0].Day);
        Assert.Equal(jar.Timeline.Select(entry => entry.Day).Order(), jar.Timeline.Select(entry => entry.Day));
    }

    [Fact]
    public void As_of_shows_what_was_true_then_by_what_is_known_now()
    {
        var home = new Household();
        home.Add(new Fact.PackageMoved(home.Jar, home.Loft), "2018-06-01");
        home.Add(new Fact.PackageRemoved(home.Other, RemovedAs.Finished), "2019-01-01");
        var early = Cellar.Fold(home.Events, new View(AsOf: new DateOnly(2018, 5, 31)));
        Assert.Equal(home.Cupboard, early.Packages[home.Jar].Place);
        Assert.Equal(2, early.Here.Count());
        var late = Cellar.Fold(home.Events, new View(AsOf: new DateOnly(2018, 6, 1)));
        Assert.Equal(home.Loft, late.Packages[home.Jar].Place);
        Assert.Empty(Cellar.Fold(home.Events, new View(AsOf: new DateOnly(2016, 3, 9))).Packages);
        Assert.Single(Cellar.Fold(home.Events, new View(AsOf: new DateOnly(2019, 1, 1))).Here);
    }

    [Fact]
    public void Known_on_shows_what_the_ledger_said_then()
    {
        var home = new Household();
        var moved = home.Add(new Fact.PackageMoved(home.Jar, home.Loft), "2017-06-01");
        Assert.Equal(home.Cupboard, Cellar.Fold(home.Events, new View(KnownOn: moved.Recorded.AddSeconds(-1))).Packages[home.Jar].Place);
        Assert.Equal(home.Loft, Cellar.Fold(home.Events, new View(KnownOn: moved.Recorded)).Packages[home.Jar].Place);
    }

    [Fact]
    public void Known_on_follows_the_order_of_the_ledger_where_a_clock_was_set_back()
    {
        var home = new Household();
        var ahead = home.Next(home.Weighed(499)) with { Version = 5, Recorded = home.AddJars.Recorded.AddYears(1) };
        var back = home.Next(new Fact.Noted("after", home.Jar.Id)) with { Version = 6, Id = Guid.NewGuid(), Recorded = home.AddJars.Recorded.AddMinutes(1) };
        var then = Cellar.Fold([.. home.Events, ahead, back], new View(KnownOn: back.Recorded));
        Assert.Equal(6, then.Version);
    }

    [Fact]
    public void A_correction_replaces_the_fact_and_undoing_it_brings_the_old_one_back()
    {
        var home = new Household();
        var weighed = home.Add(home.Weighed(512), "2018");
        var corrected = home.Add(new Fact.EventCorrected(weighed.Id, home.Weighed(498), true, UnevenDate.Parse("2019-04")));
        Assert.Equal((498, "2019-04"), (Math.Round(home.TheJar.Weighings.Single().Fact.Mass.Grams, 9), home.TheJar.Weighings.Single().Entry.Happened.ToString()));
        Assert.Equal(weighed.Id, home.TheJar.Weighings.Single().Entry.Event);
        home.Add(new Fact.EventCorrected(weighed.Id, home.Weighed(497)));
        Assert.Equal((497, "2018"), (Math.Round(home.TheJar.Weighings.Single().Fact.Mass.Grams, 9), home.TheJar.Weighings.Single().Entry.Happened.ToString()));
        home.Add(new Fact.EventUndone(home.Events[^1].Id));
        home.Add(new Fact.EventUndone(corrected.Id));
        Assert.Equal((512, "2018"), (Math.Round(home.TheJar.Weighings.Single().Fact.Mass.Grams, 9), home.TheJar.Weighings.Single().Entry.Happened.ToString()));
    }

    [Fact]
    public void Undoing_an_import_takes_back_all_that_it_brought_and_its_ids_stay_used()
    {
        var home = new Household();
        var import = home.Add(new Fact.SheetImported("stock.csv", "00", 1));
        var ids = home.Cellar.NextIds(2);
        CellarEvent[] brought = [
            home.Next(new Fact.LotAdded(new LotId(ids[0]), Blend.Unknown)) with { Version = 6, Id = Guid.NewGuid(), Cause = import.Id },
            home.Next(new Fact.PackagesAdded(new LotId(ids[0]), [new PackageId(ids[1])], Container.Unknown)) with { Version = 7, Id = Guid.NewGuid(), Cause = import.Id }];
        Assert.Equal(3, Cellar.Fold([.. home.Events, .. brought]).Packages.Count);
        var undone = Cellar.Fold([.. home.Events, .. brought, home.Next(new Fact.EventUndone(import.Id)) with { Version = 8, Id = Guid.NewGuid() }]);
        Assert.Equal(2, undone.Packages.Count);
        Assert.Empty(undone.Imports);
        Assert.True(undone.IsUsed(ids[1]));
        Assert.DoesNotContain(ids[1], undone.NextIds(50));
    }

    [Fact]
    public void An_event_about_nothing_known_is_not_passed_over()
    {
        var home = new Household();
        var stray = home.Next(new Fact.PackageOpened(new PackageId(home.Cellar.NextIds(1)[0]))) with { Version = 5 };
        Assert.Throws<InvalidDataException>(() => Cellar.Fold([.. home.Events, stray]));
    }

    [Fact]
    public void Any_order_of_writing_down_gives_the_same_cellar()
    {
        var home = new Household();
        var facts = Gen.Select(Gen.Int[0, 7], Gen.Int[1, 90]).Array[0, 12];
        Gen.Select(facts, Gen.Int[0, int.MaxValue]).Sample(
            (drawn, shuffle) =>
            {
                // One event a day, so that the day alone decides; the order of writing down is shuffled.
                CellarEvent[] written = [.. drawn.Select((draw, i) => Household.New(100 + i, Drawn(home, draw.Item1, draw.Item2), new DateOnly(2017, 1, 1).AddDays(10 * i).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture)))];
                var shuffled = written.ToArray();
                new Random(shuffle).Shuffle(shuffled);
                Assert.Equal(State(Numbered(home, written)), State(Numbered(home, shuffled)));
            },
            seed: Gens.Seed);
    }

    [Fact]
    public void Further_lines_about_packages_tell_the_same_cellar_as_all_lines_from_the_start()
    {
        var home = new Household();
        Gen.Select(Gen.Select(Gen.Int[0, 8], Gen.Int[1, 90], Gen.Int[0, 3000]).Array[1, 14], Gen.Int[0, 13]).Sample(
            (drawn, known) =>
            {
                // Dates come in any order, several on one day, some before the jar was closed.
                CellarEvent[] written = [.. home.Events, .. drawn.Select((draw, i) => Household.New(
                    100 + i, draw.Item1 == 8 ? new Fact.Noted("on the lid", home.Jar.Id) : Drawn(home, draw.Item1, draw.Item2), draw.Item3 % 5 == 0 ? null : Day(new DateOnly(2016, 1, 1).AddDays(draw.Item3 / 10 * 10))) with { Version = 5 + i })];
                var before = Cellar.Fold(written[..(4 + (known % drawn.Length))]);
                var (after, whole) = (before.After(written[(int)before.Version..]), Cellar.Fold(written));
                Assert.NotNull(after);
                Assert.Equal(State(whole), State(after));
                Assert.Equal(whole.Packages.Values.Select(package => (package.Since, package.Removed, package.Lot)), after.Packages.Values.Select(package => (package.Since, package.Removed, package.Lot)));
                Assert.Equal((whole.Version, whole.NextIds(3)[2]), (after.Version, after.NextIds(3)[2]));
                Assert.Equal(whole.Lines, after.Lines);
            },
            seed: Gens.Seed);
        static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
    }

    [Fact]
    public void What_changes_more_than_packages_is_told_from_the_start()
    {
        var home = new Household();
        var weighed = home.Add(home.Weighed(500), "2018");
        var before = home.Cellar;
        Fact[] further =
        [
            new Fact.EventCorrected(weighed.Id, home.Weighed(499)), new Fact.EventUndone(weighed.Id), new Fact.PlaceAdded(new PlaceId(before.NextIds(1)[0]), "Shelf"),
            new Fact.Noted("about the cupboard", home.Cupboard.Id), new Fact.Noted("about all"), new Fact.PaceStated(StatedMass.Parse("20g"), Package: home.Jar),
        ];
        foreach (var fact in further)
            Assert.Null(before.After([home.Next(fact) with { Version = 6 }]));
        Assert.Null(before.After([home.Next(home.Weighed(498)) with { Version = 6, Cause = weighed.Id }])); // what brought it may have been taken back
        Assert.Null(before.After([home.Next(home.Weighed(498)) with { Version = 7 }])); // a line is missing
        Assert.NotNull(before.After([home.Next(home.Weighed(498)) with { Version = 6 }]));
    }

    private static Cellar Numbered(Household home, CellarEvent[] written) => Cellar.Fold([.. home.Events, .. written.Select((line, i) => line with { Version = 5 + i })]);

    private static string State(Cellar cellar) => string.Join('\n', cellar.Packages.Values.Select(package => string.Join(' ', package.Id, package.Place, package.IsOpen, package.IsHere, package.BookNet.Si, package.UndisturbedSince, package.Container.Kind, string.Join(',', package.Timeline.Select(entry => $"{entry.Event}@{entry.Day:yyyy-MM-dd}")))));

    private static Fact Drawn(Household home, int kind, int grams) => kind switch
    {
        0 => home.Weighed(400 + grams),
        1 => new Fact.PackageOpened(home.Jar),
        2 => new Fact.PackageClosed(home.Jar),
        3 => new Fact.LeafTaken(home.Jar, StatedMass.Exactly(Mass.FromGrams(grams))),
        4 => new Fact.PackageMoved(home.Jar, grams % 2 == 0 ? home.Loft : home.Cupboard),
        5 => new Fact.PackageRepacked(home.Jar, new Container(grams % 2 == 0 ? "jar-237" : "jar-473", Tare: StatedMass.Exactly(Mass.FromGrams(300)))),
        6 => new Fact.WaterAdded(home.Jar, StatedMass.Exactly(Mass.FromGrams(grams - 45.5))),
        _ => new Fact.PackageLooked(home.Other, [Finding.AllWell]),
    };
}
