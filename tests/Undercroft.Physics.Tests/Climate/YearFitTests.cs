using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Climate.Years;
using Xunit;

namespace Undercroft.Physics.Tests.Climate;

public sealed class YearFitTests
{
    private static bool Long => Environment.GetEnvironmentVariable("UNDERCROFT_LONG") == "1";

    /// <summary>
    /// Of synthetic loggers, a week to three quarters of a year long, the true mean, swing, warmest day and humidity lie in their 90 % intervals about nine times in ten.
    /// The limits are four standard deviations of the count itself, so that chance alone does not fail: 500 loggers at 10 minutes in the long run, 80 at one hour in the plain one.
    /// </summary>
    [Fact]
    public void Intervals_of_ninety_percent_cover_synthetic_loggers()
    {
        var count = Long ? 500 : 80;
        Dictionary<string, int> hits = new() { ["mean"] = 0, ["swing"] = 0, ["warmest day"] = 0, ["daily swing"] = 0, ["humidity"] = 0 };
        for (var n = 0; n < count; n++)
        {
            SyntheticLogger logger = new(1000 + n);
            var days = (int)(7 * Math.Exp(3.6 * n / (count - 1.0)));
            var first = (n * 37) % Math.Max(1, 365 - days);
            var fit = YearFit.Of(DailyAir.Of(logger.Log(first, days, Long ? 10 : 60)), YearPrior.Of(logger.Kind));
            Count("mean", logger.Mean, fit.MeanCelsius);
            Count("swing", logger.Swing, fit.AnnualSwing);
            Count("daily swing", logger.DaySwing, fit.DailySwing);
            Count("humidity", logger.Humidity, fit.MeanHumidity);
            var late = Math.IEEERemainder(logger.WarmestDay - fit.WarmestDay.Middle, 365);
            hits["warmest day"] += Math.Abs(late) <= 1.645 * fit.WarmestDay.Sd ? 1 : 0;
        }

        TestContext.Current.TestOutputHelper?.WriteLine(string.Join(", ", hits.Select(pair => $"{pair.Key} {pair.Value} of {count}")));
        var slack = 4 * Math.Sqrt(0.9 * 0.1 / count);
        Assert.All(hits, pair => Assert.InRange(pair.Value / (double)count, 0.9 - slack, Math.Min(1, 0.9 + slack)));

        void Count(string what, double truth, Figure figure) => hits[what] += Math.Abs(truth - figure.Middle) <= 1.645 * figure.Sd ? 1 : 0;
    }

    [Fact]
    public void A_week_is_not_a_thousand_points_and_three_years_are_known_well()
    {
        var kind = RoomKinds.Find("cupboard")!;
        SyntheticLogger logger = new(7, kind);
        var week = YearFit.Of(DailyAir.Of(logger.Log(20, 7, 10)), YearPrior.Of(kind));
        Assert.InRange(week.EffectiveDays, 1, 7);
        Assert.True(week.MeanCelsius.Sd > 0.3);
        Assert.True(week.MeanCelsius.Sd <= kind.MeanCelsius.Sd);
        Assert.True(week.AnnualSwing.Sd > 0.5 * kind.AnnualSwing.Sd, "A week says next to nothing of a year's swing.");
        var years = YearFit.Of(DailyAir.Of(logger.Log(0, 3 * 365, 60)), YearPrior.Of(kind));
        Assert.True(years.MeanCelsius.Sd < 0.45 && years.AnnualSwing.Sd < 0.4);
        Assert.Equal(logger.Swing, years.AnnualSwing.Middle, 3 * years.AnnualSwing.Sd);
        Assert.True(years.WeeksOfYear >= 52 && week.WeeksOfYear <= 2);
    }

    [Fact]
    public void Clean_waves_come_back_as_they_were_made()
    {
        var (mean, swing, day) = (17.3, 6.1, 1.4);
        var air = LoggedAir.Of(Enumerable.Range(0, 24 * 730).Select(hour => new LoggedMoment(
            hour * 3600.0,
            273.15 + mean + (swing * Math.Cos(Math.Tau * ((hour / 24.0) - 210) / 365.25)) + (day * Math.Cos(Math.Tau * (hour - 16) / 24.0)), 0.55)));
        var fit = YearFit.Of(DailyAir.Of(air), YearPrior.Of(RoomKinds.Find("unknown")!));
        Assert.Equal(mean, fit.MeanCelsius.Middle, 2 * fit.MeanCelsius.Sd);
        Assert.Equal(swing, fit.AnnualSwing.Middle, 2 * fit.AnnualSwing.Sd);
        Assert.Equal(210, fit.WarmestDay.Middle, 2 * fit.WarmestDay.Sd);
        Assert.Equal(day, fit.DailySwing.Middle, 0.05);
        Assert.Equal(16, fit.WarmestHour.Middle, 0.5);
        Assert.Equal(0.55, fit.MeanHumidity.Middle, 0.02);
        var year = fit.Year();
        Assert.Equal(mean + swing, year.At(209.5 - ((16 - 12) / 24.0)).Kelvin - 273.15, 1.0 + day);
    }

    [Fact]
    public void Nothing_logged_leaves_the_room_kind_as_it_is()
    {
        foreach (var kind in RoomKinds.All)
        {
            var fit = YearFit.Of(DailyAir.Nothing, YearPrior.Of(kind));
            Assert.Equal(kind.MeanCelsius.Middle, fit.MeanCelsius.Middle, 1e-9);
            Assert.Equal(kind.MeanCelsius.Sd, fit.MeanCelsius.Sd, 1e-3);
            Assert.Equal(kind.AnnualSwing.Middle, fit.AnnualSwing.Middle, 1e-6);
            Assert.Equal(kind.MeanHumidity.Middle / 100, fit.MeanHumidity.Middle, 0.02);
            Assert.Equal(kind.MeanHumidity.Sd / 100, fit.MeanHumidity.Sd, 0.25 * kind.MeanHumidity.Sd / 100);
            Assert.Equal(0, fit.EffectiveDays);
        }
    }

    [Fact]
    public void Temperature_alone_leaves_the_humidity_of_the_room_kind()
    {
        var kind = RoomKinds.Find("cupboard")!;
        var air = LoggedAir.Of(new SyntheticLogger(3, kind).Log(0, 365, 60).Moments.Select(moment => moment with { Humidity = double.NaN }));
        var fit = YearFit.Of(DailyAir.Of(air), YearPrior.Of(kind));
        Assert.Equal(0, fit.HumidityDays);
        Assert.Equal(kind.MeanHumidity.Middle / 100, fit.MeanHumidity.Middle, 0.03);
        Assert.InRange(fit.MeanHumidity.Sd, 0.6 * kind.MeanHumidity.Sd / 100, 1.3 * kind.MeanHumidity.Sd / 100);
    }

    [Fact]
    public void A_southern_year_turns_the_guess_round()
    {
        var air = LoggedAir.Of(Enumerable.Range(0, 24 * 365).Select(hour => new LoggedMoment(hour * 3600.0, 273.15 + 20 + (4 * Math.Cos(Math.Tau * ((hour / 24.0) - 20) / 365.25)), 0.5)));
        var fit = YearFit.Of(DailyAir.Of(air), YearPrior.Of(RoomKinds.Find("unknown")!));
        Assert.InRange(fit.WarmestDay.Middle, 10, 30);
        Assert.Equal(4, fit.AnnualSwing.Middle, 0.5);
    }

    [Fact]
    public void The_order_of_rows_is_irrelevant()
    {
        var log = new SyntheticLogger(11).Log(100, 30, 60);
        var (one, other) = (YearFit.Of(DailyAir.Of(log), YearPrior.Of(RoomKinds.All[0])), YearFit.Of(DailyAir.Of(LoggedAir.Of(log.Moments.Reverse())), YearPrior.Of(RoomKinds.All[0])));
        Assert.Equal(one.MeanCelsius, other.MeanCelsius);
        Assert.Equal(one.MeanHumidity, other.MeanHumidity);
    }

    [Fact]
    public void A_shelf_takes_over_what_its_room_knows()
    {
        var kind = RoomKinds.Find("bedroom")!;
        var room = new SyntheticLogger(5, kind).Log(0, 365, 60);
        var around = YearFit.Of(DailyAir.Of(room), YearPrior.Of(kind));
        var unlogged = YearFit.Inside(DailyAir.Nothing, around, DailyAir.Of(room));
        Assert.Equal(around.MeanCelsius.Middle, unlogged.MeanCelsius.Middle, 1e-9);
        Assert.True(unlogged.MeanCelsius.Sd > around.MeanCelsius.Sd && unlogged.MeanCelsius.Sd < kind.MeanCelsius.Sd);
        Assert.True(unlogged.DailySwing.Middle < around.DailySwing.Middle);

        // Two weeks on the shelf, 1.5 K cooler than the room at the same time: the year's mean follows.
        var shelf = LoggedAir.Of(room.Between(40 * 86400, 54 * 86400).Moments.Select(moment => moment with { Kelvin = moment.Kelvin - 1.5 }));
        var both = YearFit.Inside(DailyAir.Of(shelf), around, DailyAir.Of(room));
        Assert.Equal(around.MeanCelsius.Middle - 1.5, both.MeanCelsius.Middle, 0.5);
        Assert.True(both.MeanCelsius.Sd < unlogged.MeanCelsius.Sd);
    }

    [Fact]
    public void A_box_with_six_hours_of_lag_is_found_from_both_logs()
    {
        var room = new SyntheticLogger(5, RoomKinds.Find("bedroom")!).Log(40, 14, 10);
        var keep = Math.Exp(-1 / 6.0 / 6);
        var inside = room.Moments[0].Kelvin;
        List<LoggedMoment> box = [];
        foreach (var moment in room.Moments)
        {
            inside = (keep * inside) + ((1 - keep) * moment.Kelvin);
            box.Add(new(moment.Seconds, inside - 0.7, 0.5));
        }

        var found = Following.Of(LoggedAir.Of(box), room)!;
        Assert.InRange(found.TimeConstantHours, 5, 7.2);
        Assert.True(found.LowHours <= 6.2 && found.HighHours >= 5.8);
        Assert.Equal(-0.7, found.Warmer, 0.1);
        Assert.Null(Following.Of(LoggedAir.Of(box).Between(0, 1), room));
    }

    [Fact]
    public void Sixty_draws_of_weather_stay_in_the_band_of_the_day()
    {
        SyntheticLogger logger = new(21, RoomKinds.Find("cellar"));
        var fit = YearFit.Of(DailyAir.Of(logger.Log(0, 365, 60)), YearPrior.Of(logger.Kind));
        var days = DailyAir.Of(logger.Log(365, 365, 60)).Temperature;
        var inside = days.Count(day => fit.CelsiusOn(day.Day % 365) is var band && day.Mean >= band.P5 && day.Mean <= band.P95);
        Assert.InRange(inside / (double)days.Count, 0.75, 1);
    }
}
