using Undercroft.Forecasts;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Forecasts;

public sealed class ForecasterTests
{
    private static readonly DateOnly Today = new(2026, 5, 16);

    private static ForecastAsk Ask(double years = 10, int draws = 96) => new(Today, years, draws);

    /// <summary>The cellar is read after the package was added: arguments come first.</summary>
    private static PackageForecast Of(OneCellar cellar, PackageId id, ForecastAsk ask) => Forecaster.Of(cellar.Cellar, id, ask);

    private static AddRequest Jar => new("Test", "burley", "ribbon", "100g", Container: "jar-473", Sealed: "2024-05-16", Place: "closet", Moisture: "14%");

    [Fact]
    public void The_same_question_gets_the_same_answer()
    {
        var cellar = new OneCellar();
        var id = cellar.Add(Jar);
        var (a, b) = (Of(cellar, id, Ask(3)), Of(cellar, id, Ask(3)));
        Assert.Equal(a.Verdict, b.Verdict);
        Assert.Equal(a.Moisture.P50, b.Moisture.P50);
        Assert.Equal(a.Oxygen.P95, b.Oxygen.P95);
        Assert.Equal(a.NarrowedBy, b.NarrowedBy);
    }

    [Fact]
    public void Bands_are_in_order_and_start_at_the_stated_moisture()
    {
        var cellar = new OneCellar();
        var forecast = Of(cellar, cellar.Add(Jar with { Sealed = "2026-05-15" }), Ask(3));
        for (var n = 0; n < forecast.Days.Length; n++)
        {
            Assert.True(forecast.Moisture.P5[n] <= forecast.Moisture.P50[n] && forecast.Moisture.P50[n] <= forecast.Moisture.P95[n]);
            Assert.True(forecast.Activity.P5[n] <= forecast.Activity.P50[n] && forecast.Activity.P50[n] <= forecast.Activity.P95[n]);
        }

        Assert.InRange(forecast.Moisture.P50[0], 13.5, 14.5); // stated 14 %, ± 1 point
        Assert.Equal(0, forecast.Days[0]);
    }

    /// <summary>Derived from the model: in a room drier than the leaf, each opening lets water out, and a lid put back by hand lets out more.</summary>
    [Fact]
    public void What_is_opened_more_dries_more()
    {
        var cellar = new OneCellar();
        var id = cellar.Add(Jar with { Moisture = "18%" });
        double End(Opening? opening) => Of(cellar, id, Ask(5) with { Opening = opening, WithNarrowing = false, WaterOnly = true }).Moisture.P50[^1];
        Assert.True(End(Opening.InUse) < End(Opening.Monthly), $"{End(Opening.InUse)} {End(Opening.Monthly)}");
        Assert.True(End(Opening.Monthly) < End(Opening.LeftAlone), $"{End(Opening.Monthly)} {End(Opening.LeftAlone)}");
        Assert.Equal(End(null), End(Opening.LeftAlone), 0.2);
    }

    /// <summary>Common practice, no source: a shop bag is for weeks, a jar for decades.</summary>
    [Fact]
    public void A_bag_dries_before_a_jar()
    {
        var cellar = new OneCellar();
        var jar = Of(cellar, cellar.Add(Jar), Ask());
        var bag = Of(cellar, cellar.Add(Jar with { Container = "bag-zip", Sealed = "2026-05-01" }), Ask());
        Assert.True(bag.Moisture.P50[^1] < jar.Moisture.P50[^1]);
        Assert.True(bag.DryDay.Probability > jar.DryDay.Probability);
        Assert.Equal(Condition.Keeps, jar.Condition);
    }

    [Fact]
    public void A_drier_room_dries_a_bag_further()
    {
        var dry = Forecaster.Of(new ShelfQuestion("bag-zip", "burley", Mass.FromGrams(100), 0.16, "living-room"), Ask(2));
        var moist = Forecaster.Of(new ShelfQuestion("bag-zip", "burley", Mass.FromGrams(100), 0.16, "cellar"), Ask(2));
        Assert.True(dry.Moisture.P50[^1] < moist.Moisture.P50[^1] - 1);
    }

    [Fact]
    public void Weighings_that_agree_tighten_the_band_and_exonerate_the_lid()
    {
        var blind = new OneCellar();
        var unweighed = Of(blind, blind.Add(Jar with { Sealed = "2012-05-16" }), Ask());
        var known = new OneCellar();
        var id = known.Add(Jar with { Sealed = "2012-05-16", Gross = "412.0g" });
        foreach (var year in new[] { "2016-05-16", "2020-05-16", "2026-05-10" })
            known.Say(year, new Fact.PackageWeighed(id, Mass.FromGrams(412.0), Resolution: Mass.FromGrams(0.1)));
        var weighed = Of(known, id, Ask());
        Assert.True(weighed.Stake.FailedNow < unweighed.Stake.FailedNow);
        Assert.True(weighed.Moisture.P50[^1] - weighed.Moisture.P5[^1] < unweighed.Moisture.P50[^1] - unweighed.Moisture.P5[^1]);
    }

    [Fact]
    public void A_weight_that_falls_shows_in_the_moisture_of_today()
    {
        var cellar = new OneCellar();
        var id = cellar.Add(Jar with { Gross = "412.0g" });
        cellar.Say("2026-05-10", new Fact.PackageWeighed(id, Mass.FromGrams(408.0), Resolution: Mass.FromGrams(0.1)));
        var forecast = Of(cellar, id, Ask());
        // 100 g at 14 % holds 14 g of water in 86 g of dry leaf; 4 g less is 10 of 96 g, 10.4 %. The starting moisture is known to ± 1 point.
        Assert.InRange(forecast.Moisture.P50[0], 9.4, 11.4);
    }

    [Fact]
    public void An_unknown_container_is_no_verdict_but_names_what_would_settle_it()
    {
        var cellar = new OneCellar();
        var forecast = Of(cellar, cellar.Add(new AddRequest("Riddle", Sealed: "2025")), Ask());
        Assert.Equal(Condition.Unknown, forecast.Condition);
        Assert.Equal("say what it is packed in", forecast.NarrowedBy?.Measurement);
    }

    [Fact]
    public void Nothing_known_at_all_still_gets_an_answer()
    {
        var cellar = new OneCellar();
        var forecast = Of(cellar, cellar.Add(new AddRequest()), Ask(2));
        Assert.NotEmpty(forecast.Verdict);
        Assert.NotEmpty(forecast.Reasons);
        Assert.All(forecast.Assumptions, used => Assert.NotEmpty(used.Evidence.Tag));
    }

    [Fact]
    public void What_if_packs_it_anew_from_today()
    {
        var cellar = new OneCellar();
        var id = cellar.Add(Jar with { Container = "bag-zip", Sealed = "2026-05-01" });
        var left = Of(cellar, id, Ask(3));
        var packed = Of(cellar, id, Ask(3) with { InKind = "jar-473" });
        Assert.True(packed.Moisture.P50[^1] > left.Moisture.P50[^1] + 1);
    }

    /// <summary>
    /// What would narrow it follows the dominant doubt. A jar whose starting moisture nobody said: read the humidity. The same leaf, moisture known, in a bag
    /// whose zip nobody has measured: weigh it twice.
    /// </summary>
    [Fact]
    public void The_advised_measurement_follows_the_dominant_doubt()
    {
        var jar = new OneCellar();
        var byMoisture = Of(jar, jar.Add(Jar with { Moisture = null, Sealed = "2026-05-15" }), Ask(1));
        var bag = new OneCellar();
        var byLeak = Of(bag, bag.Add(Jar with { Container = "bag-zip", Sealed = "2026-05-15" }), Ask(0.25));
        Assert.Contains("humidity", byMoisture.NarrowedBy!.Measurement, StringComparison.Ordinal);
        Assert.Contains("three weeks", byLeak.NarrowedBy!.Measurement, StringComparison.Ordinal);
        Assert.True(byLeak.NarrowedBy.SpreadAfter < byLeak.NarrowedBy.SpreadNow);
    }

    [Fact]
    public void Suspected_mould_comes_before_every_number()
    {
        var cellar = new OneCellar();
        var id = cellar.Add(Jar);
        cellar.Say("2026-05-02", new Fact.PackageLooked(id, [Finding.MouldSuspected]));
        var forecast = Of(cellar, id, Ask(1));
        Assert.StartsWith("Set it apart", forecast.Verdict, StringComparison.Ordinal);
        Assert.Equal(Today, forecast.Next.On);
    }

    [Theory]
    [InlineData(0, 64)]
    [InlineData(-1, 64)]
    [InlineData(double.NaN, 64)]
    [InlineData(61, 64)]
    [InlineData(10, 0)]
    [InlineData(10, 100_000)]
    public void Horizons_and_draws_that_cannot_be_are_refused(double years, int draws)
    {
        var cellar = new OneCellar();
        var id = cellar.Add(Jar);
        Assert.Throws<Refusal>(() => Forecaster.Of(cellar.Cellar, id, new ForecastAsk(Today, years, draws)));
    }
}
