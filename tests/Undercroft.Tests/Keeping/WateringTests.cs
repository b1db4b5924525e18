using System.Text.Json;
using Undercroft.Forecasts;
using Undercroft.Keeping.Adding;
using Undercroft.Keeping.Watering;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;
using Undercroft.Tests.Forecasts;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Keeping;

public sealed class WateringTests
{
    private static readonly DateOnly Today = new(2026, 5, 16);
    private static readonly Present Present = new(Today, new DateTimeOffset(Today, new TimeOnly(12, 0), TimeSpan.Zero));

    private static (OneCellar Cellar, Package Package) With(string? net = "50g", string? gross = null)
    {
        var made = new OneCellar();
        var id = made.Add(new AddRequest("Evening ribbon", "burley", "ribbon", net, gross, Container: "jar-237", Sealed: "2026-05-01", Moisture: "14%"));
        return (made, made.Cellar.Packages[id]);
    }

    private static WaterPlan Plan(WaterAsk ask, string? net = "50g")
    {
        var (made, package) = With(net);
        return WaterPlan.Of(made.Cellar, package, ask, Today);
    }

    /// <summary>Δ = M (target − now) / (1 − target): 50 g from 10 to 14 % takes 2.3 g, 100 g from 8 to 14 % 7.0 g, 50 g from 22 to 15 % loses 4.1 g, 454 g from 20 to 16 % 21.6 g (arithmetic).</summary>
    [Theory]
    [InlineData("50g", "10%", "14%", 2.326, "add")]
    [InlineData("100g", "8%", "14%", 6.977, "add")]
    [InlineData("50g", "22%", "15%", -4.118, "dry")]
    [InlineData("454g", "20%", "16%", -21.619, "dry")]
    public void The_middle_is_the_balance_of_dry_leaf(string net, string from, string to, double grams, string act)
    {
        var plan = Plan(new WaterAsk(to, From: from, Net: net));
        Assert.Equal(grams, plan.WaterG.Mid, 0.001);
        Assert.Equal(act, plan.Act);
        Assert.True(plan.WaterG.Low < plan.WaterG.Mid && plan.WaterG.Mid < plan.WaterG.High);
    }

    /// <summary>A range says itself how well it is known; a bare figure is widened.</summary>
    [Fact]
    public void Moisture_now_may_be_a_range()
    {
        var (exact, range) = (Plan(new WaterAsk("14%", From: "10%")), Plan(new WaterAsk("14%", From: "8%..12%")));
        Assert.Equal(exact.WaterG.Mid, range.WaterG.Mid, 1e-9);
        Assert.Equal(WaterToAdd.Of(Mass.FromGrams(50), Moisture.FromWetBasis(0.12), Moisture.FromWetBasis(0.14)).Grams, range.WaterG.Low, 1e-9);
        Assert.Throws<Refusal>(() => Plan(new WaterAsk("14%", From: "50%..70%")));
    }

    /// <summary>A step of half a gram is told to the tenth that a scale shows, also on a heavy jar: 351.2 g and half of 51.2·0.02/0.86 is 351.8, never 352.</summary>
    [Fact]
    public void The_weight_to_stop_at_is_told_to_the_tenth_of_a_gram()
    {
        var (made, package) = With();
        made.Say("2026-05-16", new Fact.PackageWeighed(package.Id, Mass.FromGrams(351.2), Resolution: Mass.FromGrams(0.1)));
        var plan = WaterPlan.Of(made.Cellar, made.Cellar.Packages[package.Id], new WaterAsk("14%", From: "12%", Net: "51.2g"), Today);
        Assert.Contains("If it shows 351.2 g as last time, this step ends at 351.8 g", plan.How[0], StringComparison.Ordinal);
    }

    /// <summary>The first step never goes beyond what the leaf needs at least, so that it cannot overshoot.</summary>
    [Theory]
    [InlineData("6%")]
    [InlineData("9%")]
    [InlineData("12%")]
    [InlineData("18%")]
    [InlineData("24%")]
    public void The_first_step_cannot_overshoot(string from)
    {
        var plan = Plan(new WaterAsk("14%", From: from));
        Assert.True(plan.FirstG * plan.WaterG.Mid > 0);
        Assert.True(Math.Abs(plan.FirstG) <= Math.Abs(plan.WaterG.Mid) / 2 + 1e-9);
        Assert.True(Math.Abs(plan.FirstG) <= Math.Min(Math.Abs(plan.WaterG.Low), Math.Abs(plan.WaterG.High)) + 1e-9);
    }

    [Fact]
    public void Where_not_even_the_direction_is_known_it_asks_for_a_measurement()
    {
        var plan = Plan(new WaterAsk("14%", From: "14.2%"));
        Assert.Equal("measure", plan.Act);
        Assert.Equal(0, plan.FirstG);
        Assert.Contains("measure first", plan.Verdict, StringComparison.Ordinal);
        Assert.Empty(plan.StopWhen);
    }

    [Fact]
    public void Without_a_moisture_the_forecast_is_asked_and_the_range_is_its_own()
    {
        var (made, package) = With();
        var forecast = Forecaster.Of(made.Cellar, package.Id, new ForecastAsk(Today, 1) { WithNarrowing = false, WaterOnly = true });
        var plan = WaterPlan.Of(made.Cellar, package, new WaterAsk("18%"), Today);
        Assert.Equal((forecast.Moisture.P5[0], forecast.Moisture.P50[0], forecast.Moisture.P95[0]), (plan.FromMoisturePct.Low, plan.FromMoisturePct.Mid, plan.FromMoisturePct.High));
    }

    [Fact]
    public void A_target_too_moist_to_keep_is_told_and_mould_is_warned_of()
    {
        var plan = Plan(new WaterAsk(ToHumidity: "69%", From: "9%"));
        Assert.Contains(plan.Cautions, caution => caution.Contains("not for long storage", StringComparison.Ordinal));
        Assert.Contains(plan.Cautions, caution => caution.Contains("do not smoke, taste, bake", StringComparison.Ordinal));
        Assert.Equal(69, plan.ToHumidityPct, 0.5);
        Assert.DoesNotContain(Plan(new WaterAsk(ToHumidity: "58%", From: "9%")).Cautions, caution => caution.Contains("not for long storage", StringComparison.Ordinal));
    }

    [Fact]
    public void It_says_when_to_weigh_again() =>
        Assert.Equal(["2026-05-17", "2026-05-19", "2026-05-23", "2026-05-30"], Plan(new WaterAsk("14%", From: "9%")).WeighAgain.Select(step => step.On));

    [Theory]
    [InlineData("14", null, null, "50g")]
    [InlineData("90%", null, null, "50g")]
    [InlineData(null, "95%", null, "50g")]
    [InlineData("14%", "60%", null, "50g")]
    [InlineData("14%", null, "80%", "50g")]
    [InlineData("14%", null, "10%", "0g")]
    public void What_cannot_be_is_refused(string? to, string? humidity, string? from, string? net) =>
        Assert.Throws<Refusal>(() => Plan(new WaterAsk(to, humidity, from, net)));

    [Fact]
    public void Unknown_leaf_is_refused_and_not_taken_for_none() =>
        Assert.Contains("not known", Assert.Throws<Refusal>(() => Plan(new WaterAsk("14%", From: "10%"), net: null)).Message, StringComparison.Ordinal);

    /// <summary>A step ends in a measured state: two weighings, the water between them, a reading, and a day to look again.</summary>
    [Fact]
    public void A_step_is_written_down_as_what_was_measured()
    {
        var (made, package) = With(gross: "250g");
        foreach (var said in Conditioning.Lines(package, Present, new ConditionDone("250.0g", "252.3g", Humidity: "61%")))
            made.Say("2026-05-16", said.Fact);
        var after = made.Cellar.Packages[package.Id];
        Assert.Equal([250.0, 252.3], after.Weighings.TakeLast(2).Select(weighing => weighing.Fact.Mass.Grams).Select(grams => Math.Round(grams, 6)));
        Assert.Equal(2.3, Assert.Single(after.Of<Fact.WaterAdded>()).Fact.Mass.Mid!.Value.Grams, 6);
        Assert.Equal(61, after.Humidities.Last().Fact.Humidity.Percent, 6);
        Assert.Equal(52.3, after.BookNet.Mid!.Value.Grams, 3);
        Assert.Equal(Today.AddDays(1), Habit.SetFor(after)!.Value.Fact.LookAgain);
    }

    [Fact]
    public async Task The_command_plans_and_writes_and_its_water_can_be_taken_back()
    {
        using var cli = new Cli();
        var id = await cli.Add("--blend", "Evening ribbon", "--net", "50g", "--container", "jar-237", "--sealed", "2026-04-20");
        var plan = await cli.Json("condition", id, "--to", "14%", "--from", "10%");
        Assert.Equal(2.3255814, plan.GetProperty("waterG").GetProperty("mid").GetDouble(), 1e-6);
        var kept = await cli.Json("condition", id, "--before", "250.0g", "--after", "251.2g", "--humidity", "58%");
        Assert.Equal("package-weighed/1", kept.GetProperty("event").GetProperty("type").GetString());
        var again = await cli.Json("condition", id, "--to", "14%", "--from", "11%");
        Assert.Equal(251.2 + again.GetProperty("firstG").GetDouble(), again.GetProperty("stopFirstAtG").GetDouble(), 1e-6);
        await cli.Refused(1, "condition", id, "--before", "250g", "--after", "250g");
        await cli.Refused(2, "condition", id, "--before", "250g");
        await cli.Json("undo", kept.GetProperty("event").GetProperty("id").GetString()!);
        Assert.Equal(JsonValueKind.Null, (await cli.Json("condition", id, "--to", "14%", "--from", "11%")).GetProperty("stopFirstAtG").ValueKind);
    }
}
