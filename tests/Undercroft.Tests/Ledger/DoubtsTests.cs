using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Ledger;

public class DoubtsTests
{
    private readonly Household home = new();

    private string[] Kinds => [.. Doubts.In(home.Cellar, Sizes).Select(doubt => doubt.Kind)];

    private static UsualSize Sizes(string code) => code == "jar-473" ? new(Volume.FromMillilitres(473), Mass.FromGrams(280)) : default;

    [Fact]
    public void An_ordinary_history_raises_none()
    {
        home.Add(home.Weighed(499.9), "2017");
        home.Add(new Fact.PackageOpened(home.Jar), "2018");
        home.Add(new Fact.LeafTaken(home.Jar, StatedMass.Parse("~20g")), "2018-08");
        home.Add(new Fact.PackageClosed(home.Jar), "2018-09");
        home.Add(home.Weighed(479), "2019");
        home.Add(new Fact.WaterAdded(home.Jar, StatedMass.Parse("3g")), "2019-08");
        home.Add(home.Weighed(481.8), "2019-09");
        home.Add(new Fact.PackageRepacked(home.Jar, new Container("jar-473", Tare: StatedMass.Parse("450g"))), "2019-10");
        home.Add(home.Weighed(531), "2019-11");
        Assert.Empty(Kinds);
    }

    [Fact]
    public void A_weight_that_rose_without_water_is_doubted_and_names_the_event()
    {
        home.Add(home.Weighed(495), "2017");
        Assert.Empty(Kinds);
        var rose = home.Add(home.Weighed(496.5), "2018");
        var doubt = Assert.Single(Doubts.Of(home.Cellar, home.TheJar));
        Assert.Equal((rose.Id, "weight-rose", home.Jar.Id), (doubt.Event, doubt.Kind, doubt.About));
        Assert.StartsWith($"Line {rose.Version}: it weighs 496.5 g", doubt.Reason, StringComparison.Ordinal);
    }

    /// <summary>The first weighing of a whole package says nothing of its leaf; what was stated at sealing still holds.</summary>
    [Fact]
    public void Taking_more_than_was_stated_is_doubted_after_a_first_weighing_too()
    {
        var tin = new PackageId(home.Cellar.NextIds(1)[0]);
        home.Add(new Fact.PackagesAdded(home.Ribbon, [tin], Container.Unknown, Net: StatedMass.Parse("100g")), "2016");
        home.Add(new Fact.PackageWeighed(tin, Mass.FromGrams(140)), "2017");
        var taken = home.Add(new Fact.LeafTaken(tin, StatedMass.Parse("500g")), "2018");
        Assert.Equal(("more-than-held", taken.Id), Doubts.Of(home.Cellar, home.Cellar.Packages[tin]).Select(doubt => (doubt.Kind, doubt.Event)).Single());
    }

    /// <summary>A third of its leaf within years is drying; tens of grams from one day to the next, closed, are not.</summary>
    [Fact]
    public void Closed_leaf_that_dried_too_fast_is_doubted()
    {
        home.Add(home.Weighed(500), "2017-05-01");
        home.Add(home.Weighed(480), "2017-05-02");
        Assert.Equal(["weight-fell"], Kinds);
        home.Add(new Fact.PackageOpened(home.Jar), "2017-06-01");
        home.Add(home.Weighed(470), "2017-06-02");
        Assert.Equal(["weight-fell"], Kinds); // opened in between: somebody may have smoked of it
    }

    [Fact]
    public void A_whole_package_lighter_than_its_leaf_is_doubted()
    {
        var jar = new PackageId(home.Cellar.NextIds(1)[0]);
        home.Add(new Fact.PackagesAdded(home.Ribbon, [jar], new Container("jar-946"), Net: StatedMass.Parse("200g")), "2016");
        home.Add(new Fact.PackageWeighed(jar, Mass.FromGrams(5)), "2017");
        Assert.Contains("under-leaf", Doubts.Of(home.Cellar, home.Cellar.Packages[jar], Sizes).Select(doubt => doubt.Kind));
    }

    [Fact]
    public void Leaf_that_was_packed_into_something_too_small_is_doubted_though_nobody_weighed_it()
    {
        var bag = new PackageId(home.Cellar.NextIds(1)[0]);
        home.Add(new Fact.PackagesAdded(home.Ribbon, [bag], Container.Unknown, Net: StatedMass.Parse("700g")), "2016");
        home.Add(new Fact.PackageRepacked(bag, new Container("jar-473")), "2017");
        Assert.Contains("overfull", Doubts.Of(home.Cellar, home.Cellar.Packages[bag], Sizes).Select(doubt => doubt.Kind));
    }

    [Fact]
    public void A_weight_between_the_last_one_and_the_sealing_is_doubted_too()
    {
        home.Add(home.Weighed(505), "2017");
        Assert.Equal(["weight-rose"], Kinds);
    }

    [Fact]
    public void A_fall_beyond_drying_is_doubted()
    {
        home.Add(home.Weighed(470), "2017");
        Assert.Empty(Kinds);
        home.Add(home.Weighed(430), "2018");
        Assert.Equal(["weight-fell"], Kinds);
    }

    [Fact]
    public void Lighter_than_its_own_jar_is_doubted()
    {
        home.Add(home.Weighed(390), "2017");
        Assert.Contains("under-tare", Kinds);
    }

    [Fact]
    public void More_than_the_container_holds_is_doubted()
    {
        home.Add(home.Weighed(600, net: true), "2017");
        Assert.Contains("overfull", Kinds);
        Assert.DoesNotContain("overfull", Doubts.In(home.Cellar).Select(doubt => doubt.Kind));
    }

    /// <summary>Nobody weighed the empty jar; its kind says that 100 g in it weigh 380 g or so, at most 660 g if the jar is twice as heavy (5 % of the leaf for the label).</summary>
    [Theory]
    [InlineData("100g", 380, null)]
    [InlineData("100g", 664, null)]
    [InlineData("100g", 666, "heavy-for-its-kind")]
    [InlineData(null, 1080, null)] // 520 g of leaf in a jar of 473 ml, if the jar is twice as heavy
    [InlineData(null, 1081, "overfull")]
    public void More_than_such_a_container_can_weigh_is_doubted_where_its_tare_is_not_known(string? net, double grams, string? doubted)
    {
        var jar = new PackageId(home.Cellar.NextIds(1)[0]);
        home.Add(new Fact.PackagesAdded(home.Ribbon, [jar], new Container("jar-473"), Net: StatedMass.Parse(net)), "2016");
        var weighed = home.Add(new Fact.PackageWeighed(jar, Mass.FromGrams(grams)), "2017");
        var found = Doubts.Of(home.Cellar, home.Cellar.Packages[jar], Sizes);
        Assert.Equal(doubted, found.SingleOrDefault()?.Kind);
        Assert.All(found, doubt => Assert.Equal(weighed.Id, doubt.Event));
    }

    [Theory]
    [InlineData("486ml", null, null)]
    [InlineData("320ml", null, null)]
    [InlineData("700ml", null, null)]
    [InlineData("310ml", null, "capacity-off")] // 473 ml is more than one and a half times as much
    [InlineData("720ml", null, "capacity-off")]
    [InlineData("4.73l..4.9l", null, "capacity-off")]
    [InlineData(null, "290g", null)]
    [InlineData(null, "139g", "tare-off")] // half of 280 g is 140 g
    [InlineData(null, "561g", "tare-off")]
    public void A_container_far_from_its_kind_is_doubted(string? holds, string? tare, string? doubted)
    {
        var jar = new PackageId(home.Cellar.NextIds(1)[0]);
        home.Add(new Fact.PackagesAdded(home.Ribbon, [jar], new Container("jar-473"), Net: StatedMass.Parse("100g")), "2016");
        var said = home.Add(new Fact.ContainerStated(jar, new Container(Capacity: StatedVolume.Parse(holds), Tare: StatedMass.Parse(tare))), "2017");
        var found = Doubts.Of(home.Cellar, home.Cellar.Packages[jar], Sizes);
        Assert.Equal(doubted, found.SingleOrDefault()?.Kind);
        Assert.All(found, doubt => Assert.Equal(said.Id, doubt.Event));
    }

    [Fact]
    public void A_container_too_small_for_its_leaf_or_heavier_than_the_whole_is_doubted()
    {
        home.Add(new Fact.ContainerStated(home.Jar, new Container(Capacity: StatedVolume.Parse("60ml"))), "2017");
        Assert.Contains("overfull", Doubts.In(home.Cellar).Select(doubt => doubt.Kind));
        home.Add(new Fact.ContainerStated(home.Jar, new Container(Tare: StatedMass.Parse("600g"))), "2018");
        Assert.Contains("tare-over-gross", Doubts.In(home.Cellar).Select(doubt => doubt.Kind));
    }

    [Fact]
    public void Net_over_gross_and_sums_that_do_not_add_up_are_doubted()
    {
        var ids = home.Cellar.NextIds(2);
        home.Add(new Fact.PackagesAdded(home.Ribbon, [new PackageId(ids[0])], Container.Unknown, StatedMass.Parse("60g"), StatedMass.Parse("50g")));
        Assert.Contains("net-over-gross", Kinds);
        home.Add(new Fact.PackagesAdded(home.Ribbon, [new PackageId(ids[1])], new Container(Tare: StatedMass.Parse("300g")), StatedMass.Parse("60g"), StatedMass.Parse("500g")));
        Assert.Contains("sum-off", Kinds);
    }

    [Fact]
    public void Taking_more_than_there_was_is_doubted()
    {
        home.Add(new Fact.LeafTaken(home.Jar, StatedMass.Parse("150g")), "2018");
        Assert.Contains("more-than-held", Kinds);
        Assert.Equal(0, home.TheJar.BookNet.Low!.Value.Kilograms);
    }

    [Fact]
    public void Packages_that_hold_more_than_their_lot_are_doubted()
    {
        var ids = home.Cellar.NextIds(1);
        home.Add(new Fact.PackagesAdded(home.Ribbon, [new PackageId(ids[0])], Container.Unknown, StatedMass.Parse("100g")));
        Assert.Equal(["lot-overfull"], Kinds);
    }

    [Fact]
    public void Dates_out_of_order_are_doubted()
    {
        home.Add(home.Weighed(499), "2015");
        home.Add(new Fact.PackageRemoved(home.Jar, RemovedAs.Lost), "2019");
        home.Add(home.Weighed(499), "2031");
        Assert.Equal(["after-removal", "before-sealing", "in-the-future"], Kinds.Order());
    }
}
