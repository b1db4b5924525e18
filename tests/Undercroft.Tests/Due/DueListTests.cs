using Undercroft.Demo;
using Undercroft.Forecasts.Due;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;
using Undercroft.Tests.Forecasts;
using Xunit;

namespace Undercroft.Tests.Due;

public sealed class DueListTests
{
    private static readonly DateOnly Today = new(2026, 5, 16);

    private static AddRequest Jar(string name) =>
        new(name, "burley", "ribbon", "100g", Container: "jar-473", Sealed: "2024-05-16", Place: "closet", Moisture: "16%", Gross: "412.0g");

    /// <summary>Ten sound jars, looked at last month, and one that loses a gram a month by a loose lid.</summary>
    private static (OneCellar Cellar, PackageId Failing) WithFailingLid()
    {
        var cellar = new OneCellar();
        for (var n = 0; n < 10; n++)
            cellar.Say("2026-04-16", new Fact.PackageLooked(cellar.Add(Jar($"Sound {n}")), [Finding.AllWell]));
        var failing = cellar.Add(Jar("Failing"));
        cellar.Say("2026-01-16", new Fact.PackageWeighed(failing, Mass.FromGrams(412.0), Resolution: Mass.FromGrams(0.1)));
        cellar.Say("2026-04-16", new Fact.PackageWeighed(failing, Mass.FromGrams(409.4), Resolution: Mass.FromGrams(0.1)));
        cellar.Say("2026-04-16", new Fact.PackageLooked(failing, [Finding.LidLoose]));
        return (cellar, failing);
    }

    [Fact]
    public void A_failing_lid_ranks_first_and_removing_its_cause_leaves_only_what_its_leaf_has_lost()
    {
        var (cellar, failing) = WithFailingLid();
        var before = DueList.Of(cellar.Cellar, Today, minutes: 60);
        Assert.Equal(1, Rank(before, failing));
        Assert.Contains("lid loose", Item(before, failing)!.Reason, StringComparison.Ordinal);

        cellar.Say("2026-05-15", new Fact.PackageRepacked(failing, new Container("jar-237")));
        cellar.Say("2026-05-16", new Fact.PackageLooked(failing, [Finding.AllWell]));
        var after = DueList.Of(cellar.Cellar, Today, minutes: 60);
        Assert.DoesNotContain("lid", Item(after, failing)?.Reason ?? "", StringComparison.Ordinal); // it may still rank first: its leaf is drier than that of the sound ones
        Assert.True((Item(after, failing)?.AtRiskG ?? 0) < Item(before, failing)!.AtRiskG / 2);
    }

    /// <summary>Found and mended in one go: what was seen before the repacking says nothing of the new jar, though it was the same day.</summary>
    [Fact]
    public void Packing_it_anew_on_the_day_of_the_finding_counts()
    {
        var (cellar, failing) = WithFailingLid();
        cellar.Say("2026-05-16", new Fact.PackageLooked(failing, [Finding.LidLoose]));
        var before = Item(DueList.Of(cellar.Cellar, Today, 60), failing)!;
        cellar.Say("2026-05-16", new Fact.PackageRepacked(failing, new Container("jar-237")));
        var after = Item(DueList.Of(cellar.Cellar, Today, 60), failing);
        Assert.True((after?.AtRiskG ?? 0) < before.AtRiskG / 2, $"{after}");
    }

    [Fact]
    public void Shares_add_up_to_one_and_ranks_follow_the_stakes()
    {
        var answer = DueList.Of(Cellar.Fold(DemoHousehold.Events()), DemoHousehold.Day);
        Assert.Equal(1, answer.Items.Sum(item => item.Share), 9);
        Assert.Equal(Enumerable.Range(1, answer.Items.Count), answer.Items.Select(item => item.Rank).Order());
        Assert.InRange(answer.CoveredShare, 0, 1);
    }

    [Fact]
    public void Places_are_walked_once()
    {
        var answer = DueList.Of(Cellar.Fold(DemoHousehold.Events()), DemoHousehold.Day, minutes: 45);
        var walk = answer.Items.Select(item => item.Place).ToArray();
        Assert.Equal(walk.Distinct().Count(), 1 + walk.Zip(walk.Skip(1)).Count(pair => pair.First != pair.Second));
    }

    [Fact]
    public void Fewer_minutes_make_a_shorter_list_and_say_what_waits()
    {
        var cellar = Cellar.Fold(DemoHousehold.Events());
        var (brief, full) = (DueList.Of(cellar, DemoHousehold.Day, 3), DueList.Of(cellar, DemoHousehold.Day, 1000));
        Assert.Equal(2, brief.Items.Count);
        Assert.Equal(full.Items.Count, brief.Items.Count + brief.Left);
        Assert.Equal(0, full.Left);
    }

    [Fact]
    public void Leaf_that_is_dry_already_puts_little_at_stake()
    {
        var cellar = new OneCellar();
        var lost = cellar.Add(Jar("Lost") with { Container = "bag-sandwich", Sealed = "2023", Moisture = "14%", Gross = null });
        var drying = cellar.Add(Jar("Drying") with { Container = "bag-zip", Sealed = "2026-05-10", Gross = null });
        var answer = DueList.Of(cellar.Cellar, Today, 60);
        Assert.True(Item(answer, drying)!.AtRiskG > 3 * Item(answer, lost)!.AtRiskG);
    }

    [Fact]
    public void Money_ranks_by_what_was_paid()
    {
        var cellar = new OneCellar();
        cellar.Add(Jar("Cheap") with { Container = "bag-zip", Sealed = "2026-05-10", Gross = null, Net = "120g", Paid = "5EUR" });
        var dear = cellar.Add(Jar("Dear") with { Container = "bag-zip", Sealed = "2026-05-10", Gross = null, Net = "80g", Paid = "90EUR" });
        Assert.Equal(1, Rank(DueList.Of(cellar.Cellar, Today, by: RankedBy.Money), dear));
        Assert.Equal(2, Rank(DueList.Of(cellar.Cellar, Today, by: RankedBy.Grams), dear));
    }

    [Fact]
    public void An_empty_cellar_says_so() => Assert.Equal("Nothing stands here yet.", DueList.Of(Cellar.Empty, Today).Verdict);

    [Fact]
    public void A_round_of_no_time_is_refused() => Assert.Throws<Refusal>(() => DueList.Of(Cellar.Empty, Today, 0));

    private static DueItem? Item(DueAnswer answer, PackageId id) => answer.Items.FirstOrDefault(item => item.Id == id.ToString());

    private static int? Rank(DueAnswer answer, PackageId id) => Item(answer, id)?.Rank;
}
