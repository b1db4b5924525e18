using Undercroft.Forecasts;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Catalogue;
using Xunit;

namespace Undercroft.Tests.Forecasts;

/// <summary>Who only knows that it is a jar, a tin, a pouch or a bag gets an answer for that, not for anything that leaf may be kept in.</summary>
public sealed class ContainerFamilyTests
{
    private static readonly ForecastAsk Ask = new(new(2026, 5, 16), Years: 10, Draws: 128) { WaterOnly = true };

    [Fact]
    public void Every_family_has_several_members_and_no_kind_has_its_word()
    {
        Assert.All(ContainerFamily.All, family => Assert.True(family.Members.Count > 1 && family.Members.All(member => member is not null), family.Code));
        Assert.All(ContainerFamily.All, family => Assert.Null(ContainerKinds.Find(family.Code)));
    }

    [Fact]
    public void Some_jar_keeps_for_years_and_some_bag_does_not()
    {
        Assert.Equal(Condition.Keeps, Forecast("jar").Condition);
        var bag = Forecast("bag");
        Assert.True(bag.Condition is Condition.Dry or Condition.Drying, bag.Verdict);
        Assert.Equal(Condition.Unknown, Forecast(null).Condition);
    }

    [Fact]
    public void What_would_narrow_a_tin_most_is_to_say_which()
    {
        var tin = Forecast("tin");
        Assert.Equal("say which tin it is", tin.NarrowedBy!.Measurement);
        Assert.Contains(tin.Reasons, reason => reason.Contains("only known to be a tin", StringComparison.Ordinal));
        Assert.Contains(tin.Assumptions, used => used.Value.Contains("each as likely", StringComparison.Ordinal));
    }

    [Fact]
    public void A_word_alone_on_an_old_line_counts_too_and_words_that_say_more_do_not()
    {
        Assert.Equal("jar", ContainerBelief.Of(Cellar.Empty, new Container(Text: "Jar")).Family!.Code);
        Assert.True(ContainerBelief.Of(Cellar.Empty, new Container(Text: "silver bag")).IsUnknown);
        Assert.True(ContainerBelief.Of(Cellar.Empty, new Container("jar-473", "jar")).IsKnown);
    }

    [Fact]
    public void Words_that_name_no_kind_are_quoted_in_the_answer()
    {
        var cellar = new OneCellar();
        var package = cellar.Add(new AddRequest("Test", "burley", "ribbon", "50g", Sealed: "2024-01-16"));
        Assert.Contains("nobody has told", Forecaster.Of(cellar.Cellar, package, Ask).Verdict, StringComparison.Ordinal);
        cellar.Say("2024-01-16", new Fact.ContainerStated(package, new Container(Text: "crock with a cork")));
        var quoted = Forecaster.Of(cellar.Cellar, package, Ask);
        Assert.Contains("'crock with a cork'", quoted.Verdict, StringComparison.Ordinal);
        Assert.StartsWith("Say what it is most like", quoted.Next.What, StringComparison.Ordinal);
    }

    private static PackageForecast Forecast(string? container)
    {
        var cellar = new OneCellar();
        var package = cellar.Add(new AddRequest("Test", "burley", "ribbon", "50g", Container: container, Sealed: "2024-01-16", Place: "closet", Moisture: "15%"));
        return Forecaster.Of(cellar.Cellar, package, Ask);
    }
}
