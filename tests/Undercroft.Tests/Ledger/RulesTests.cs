using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Ledger;

public class RulesTests
{
    private readonly Household home = new();

    [Theory]
    [InlineData(0)]
    [InlineData(-3)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_weight_is_more_than_zero(double grams) => Assert.Contains("more than zero", home.Refused(home.Weighed(grams)), StringComparison.Ordinal);

    [Theory]
    [InlineData(-0.01)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    public void Humidity_lies_between_nothing_and_saturation(double fraction) =>
        Assert.Contains("between 0 % and 100 %", home.Refused(new Fact.HumidityRead(home.Jar, new RelativeHumidity(fraction))), StringComparison.Ordinal);

    [Fact]
    public void Amounts_stated_at_adding_are_possible()
    {
        var ids = home.Cellar.NextIds(1);
        Fact.PackagesAdded Jar(string? net = null, string? tare = null, string? moisture = null, string? sealing = null) =>
            new(home.Ribbon, [new PackageId(ids[0])], new Container(Tare: StatedMass.Parse(tare)), StatedMass.Parse(net), Moisture: StatedFraction.Parse(moisture), Sealed: UnevenDate.Parse(sealing));
        Assert.Contains("net mass must be more than zero", home.Refused(Jar(net: "0g")), StringComparison.Ordinal);
        Assert.Contains("net mass must be more than zero", home.Refused(Jar(net: "-5g")), StringComparison.Ordinal);
        Assert.Contains("tare must be more than zero", home.Refused(Jar(tare: "-5g")), StringComparison.Ordinal);
        Assert.Contains("not including, 100 %", home.Refused(Jar(moisture: "100%")), StringComparison.Ordinal);
        Assert.Contains("before the leaf was made", home.Refused(Jar(sealing: "2014")), StringComparison.Ordinal);
        home.Add(Jar(net: "50g", tare: "200g", moisture: "14%", sealing: "2014~"));
    }

    [Fact]
    public void Nothing_is_opened_before_it_was_sealed_where_the_dates_are_certain()
    {
        Assert.Contains("sealed 2016-03-10", home.Refused(new Fact.PackageOpened(home.Jar), "2016-02"), StringComparison.Ordinal);
        home.Add(new Fact.PackageOpened(home.Jar), "2016-03");
        Assert.Contains("cannot have been sealed 2017", home.Refused(new Fact.EventCorrected(home.AddJars.Id, ((Fact.PackagesAdded)home.AddJars.Fact) with { Sealed = UnevenDate.Parse("2017") })), StringComparison.Ordinal);
    }

    [Fact]
    public void Surprising_measurements_are_never_refused()
    {
        home.Add(home.Weighed(5000), "2010");
        home.Add(new Fact.HumidityRead(home.Jar, new RelativeHumidity(1)));
        home.Add(new Fact.PackageRemoved(home.Jar, RemovedAs.Lost), "2019");
        home.Add(home.Weighed(480), "2020");
        Assert.Equal(2, home.TheJar.Weighings.Count());
    }

    [Fact]
    public void What_left_cannot_be_opened_or_taken_from()
    {
        var removed = home.Add(new Fact.PackageRemoved(home.Jar, RemovedAs.Finished), "2019");
        Assert.Contains($"left the cellar (finished 2019). If it is still here, undo that first: line {removed.Version} (package removed).", home.Refused(new Fact.LeafTaken(home.Jar, StatedMass.Parse("5g")), "2020"), StringComparison.Ordinal);
        Assert.Contains("left the cellar", home.Refused(new Fact.PackageRemoved(home.Jar, RemovedAs.Sold)), StringComparison.Ordinal);
        home.Add(new Fact.LeafTaken(home.Jar, StatedMass.Parse("5g")), "2018");
    }

    [Fact]
    public void Unknown_ids_are_refused_with_the_nearest()
    {
        var stranger = new PackageId(home.Cellar.NextIds(1)[0]);
        Assert.Contains("Nearest: ", home.Refused(new Fact.PackageOpened(stranger)), StringComparison.Ordinal);
        Assert.Contains("is not a package", home.Refused(new Fact.PackageOpened(new PackageId(home.Ribbon.Id))), StringComparison.Ordinal);
        Assert.Contains("is not a place", home.Refused(new Fact.PackageMoved(home.Jar, new PlaceId(home.Ribbon.Id))), StringComparison.Ordinal);
        Assert.Contains("was used before", home.Refused(new Fact.PackagesAdded(home.Ribbon, [home.Jar], Container.Unknown)), StringComparison.Ordinal);

        var typo = home.Jar.ToString()[..4] + (home.Jar.ToString()[4] == 'Z' ? 'Y' : 'Z');
        var refused = Assert.Throws<Refusal>(() => home.Cellar.FindPackage(typo)).Message;
        Assert.Contains("mistyped", refused, StringComparison.Ordinal);
        Assert.Contains($"Nearest: {home.Jar}", refused, StringComparison.Ordinal);
        Assert.Equal(home.Jar, home.Cellar.FindPackage(home.Jar.ToString().ToLowerInvariant()).Id);
        Assert.Contains("is a lot, not a package", Assert.Throws<Refusal>(() => home.Cellar.FindPackage(home.Ribbon.ToString())).Message, StringComparison.Ordinal);
        Assert.Contains("There is none yet", Assert.Throws<Refusal>(() => Cellar.Empty.FindPackage(typo)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Places_are_found_by_name_path_or_id_and_names_are_unique_inside_one_place()
    {
        Assert.Contains("There is a place called 'Loft' already", home.Refused(new Fact.PlaceAdded(new PlaceId(home.Cellar.NextIds(1)[0]), "loft")), StringComparison.Ordinal);
        var shelf = new PlaceId(home.Cellar.NextIds(1)[0]);
        home.Add(new Fact.PlaceAdded(shelf, "Shelf", home.Loft));
        var second = new PlaceId(home.Cellar.NextIds(1)[0]);
        home.Add(new Fact.PlaceAdded(second, "Shelf", home.Cupboard));
        Assert.Equal(shelf, home.Cellar.FindPlace("loft / shelf").Id);
        Assert.Equal(second, home.Cellar.FindPlace(second.ToString()).Id);
        Assert.Contains("Several places are called", Assert.Throws<Refusal>(() => home.Cellar.FindPlace("Shelf")).Message, StringComparison.Ordinal);
        Assert.Contains("Nearest: Loft", Assert.Throws<Refusal>(() => home.Cellar.FindPlace("Lofd")).Message, StringComparison.Ordinal);
        Assert.Contains("cannot be inside of itself", home.Refused(new Fact.EventCorrected(home.Events[1].Id, new Fact.PlaceAdded(home.Loft, "Loft", shelf))), StringComparison.Ordinal);
    }

    [Fact]
    public void Undo_is_refused_naming_the_later_events_that_rest_on_it()
    {
        var weighed = home.Add(home.Weighed(499), "2018");
        Assert.Contains($"later ones rest on it: line {weighed.Version} (package weighed)", home.Refused(new Fact.EventUndone(home.AddJars.Id)), StringComparison.Ordinal);
        Assert.Contains($"line {home.AddJars.Version} (packages added)", home.Refused(new Fact.EventUndone(home.AddRibbon.Id)), StringComparison.Ordinal);
        Assert.Contains($"line {home.AddJars.Version} (packages added)", home.Refused(new Fact.EventUndone(home.AddCupboard.Id)), StringComparison.Ordinal);
        home.Add(new Fact.EventUndone(weighed.Id));
        Assert.Contains("was undone already", home.Refused(new Fact.EventUndone(weighed.Id)), StringComparison.Ordinal);
        home.Add(new Fact.EventUndone(home.AddJars.Id));
        Assert.Empty(home.Cellar.Packages);
        Assert.Contains("Bring that back first", home.Refused(new Fact.EventUndone(home.Events[^2].Id)), StringComparison.Ordinal);
        home.Add(new Fact.EventUndone(home.Events[^1].Id));
        Assert.Equal(2, home.Cellar.Packages.Count);
        home.Add(new Fact.EventUndone(home.Events[^3].Id));
        Assert.Single(home.TheJar.Weighings);
    }

    [Fact]
    public void Undoing_an_opening_waits_for_what_was_taken_and_its_closing()
    {
        var opened = home.Add(new Fact.PackageOpened(home.Jar), "2018-01");
        var taken = home.Add(new Fact.LeafTaken(home.Jar, StatedMass.Parse("5g")), "2018-02");
        var closed = home.Add(new Fact.PackageClosed(home.Jar), "2018-03");
        home.Add(new Fact.PackageOpened(home.Jar), "2018-04");
        home.Add(new Fact.PackageClosed(home.Jar), "2018-05");
        Assert.Equal([taken.Id, closed.Id], Rules.RestingOn(home.Cellar, opened.Id).Select(line => line.Event.Id));
    }

    [Fact]
    public void Undo_without_a_name_takes_back_the_last_event_that_holds()
    {
        var note = home.Add(new Fact.Noted("first"));
        var last = home.Add(new Fact.Noted("second"));
        var now = last.Recorded.AddMinutes(1);
        var undo = Rules.Undo(home.Cellar, null, now);
        Assert.Equal(last.Id, ((Fact.EventUndone)undo.Fact).Event);
        home.Add(undo.Fact);
        Assert.Equal(note.Id, ((Fact.EventUndone)Rules.Undo(home.Cellar, null, now).Fact).Event);
        Assert.Contains("nothing to undo", Assert.Throws<Refusal>(() => Rules.Undo(Cellar.Empty, null, now)).Message, StringComparison.Ordinal);
        Assert.Contains("no such line", Assert.Throws<Refusal>(() => Rules.Undo(home.Cellar, Guid.NewGuid(), now)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Corrections_keep_type_and_ids()
    {
        var weighed = home.Add(home.Weighed(499), "2018");
        Assert.Contains("cannot be corrected into", home.Refused(new Fact.EventCorrected(weighed.Id, new Fact.PackageOpened(home.Jar))), StringComparison.Ordinal);
        Assert.Contains("cannot change IDs", home.Refused(new Fact.EventCorrected(home.AddJars.Id, ((Fact.PackagesAdded)home.AddJars.Fact) with { Packages = [home.Jar] })), StringComparison.Ordinal);
        Assert.Contains("more than zero", home.Refused(new Fact.EventCorrected(weighed.Id, home.Weighed(-1))), StringComparison.Ordinal);
        var corrected = home.Add(new Fact.EventCorrected(weighed.Id, home.Weighed(498)));
        Assert.Contains("(event corrected) is itself no fact", home.Refused(new Fact.EventCorrected(corrected.Id, home.Weighed(497))), StringComparison.Ordinal);
    }

    [Fact]
    public void An_inspection_says_something_and_does_not_contradict_itself()
    {
        Assert.Contains("Nothing was said", home.Refused(new Fact.PackageLooked(home.Jar, [])), StringComparison.Ordinal);
        Assert.Contains("contradict each other", home.Refused(new Fact.PackageLooked(home.Jar, [Finding.AllWell, Finding.Rust])), StringComparison.Ordinal);
        Assert.Contains("cannot be negative", home.Refused(new Fact.PackageLooked(home.Jar, [Finding.Bulge], new Length(-0.001))), StringComparison.Ordinal);
        home.Add(new Fact.PackageLooked(home.Jar, [Finding.AllWell, Finding.Crystals]));
    }
}
