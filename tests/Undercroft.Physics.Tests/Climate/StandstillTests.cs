using Undercroft.Physics.Climate;
using Undercroft.Physics.Climate.Years;
using Xunit;

namespace Undercroft.Physics.Tests.Climate;

/// <summary>Stuck sensors, and air that comes to a place inside later and damped.</summary>
public sealed class StandstillTests
{
    private const int Hour = 3600;

    [Fact]
    public void Three_days_of_one_value_in_a_log_that_moves_are_found_whole()
    {
        var values = Moving(24 * 20);
        Array.Fill(values, 18.4, 100, 72);
        var found = Assert.Single(Standstill.In(Hours(values.Length), values));
        Assert.Equal((100.0 * Hour, 171.0 * Hour, 72), (found.FromSeconds, found.ToSeconds, found.Moments));
    }

    [Fact]
    public void What_was_not_noted_neither_ends_a_stretch_nor_belongs_to_it()
    {
        var values = Moving(24 * 20);
        Array.Fill(values, 18.4, 100, 72);
        values[130] = values[131] = double.NaN;
        Assert.Equal(70, Assert.Single(Standstill.In(Hours(values.Length), values)).Moments);
    }

    [Fact]
    public void A_month_without_readings_is_no_standstill()
    {
        double[] values = [.. Moving(48), .. Moving(48)];
        values[47] = values[48] = 18;
        double[] seconds = [.. Enumerable.Range(0, 96).Select(n => (double)Hour * (n < 48 ? n : n + 700))];
        Assert.Empty(Standstill.In(seconds, values));
    }

    [Fact]
    public void Whole_degrees_in_a_calm_cellar_and_a_log_of_one_value_are_left_alone()
    {
        double[] calm = [.. Enumerable.Range(0, 24 * 40).Select(n => (double)(13 + (n / 70 % 3)))];
        Assert.Empty(Standstill.In(Hours(calm.Length), calm));
        double[] one = [.. Enumerable.Repeat(55.0, 24 * 30)];
        Assert.Empty(Standstill.In(Hours(one.Length), one));
        Assert.Empty(Standstill.In([], []));
    }

    [Fact]
    public void Less_than_two_days_is_no_standstill()
    {
        var values = Moving(24 * 20);
        Array.Fill(values, 18.4, 100, 40);
        Assert.Empty(Standstill.In(Hours(values.Length), values));
    }

    /// <summary>The gain and delay of the first-order lag, as stated there.</summary>
    [Theory]
    [InlineData(2)]
    [InlineData(6)]
    [InlineData(18)]
    public void A_day_comes_through_with_the_gain_and_the_delay_of_the_lag(double hours)
    {
        var outer = LoggedAir.Of(Enumerable.Range(0, 6 * 24 * 12).Select(n => new LoggedMoment(n * 600.0, 290 + (3 * Math.Cos(Math.Tau * n / 144)), 0.5)));
        var inner = outer.Through(hours);
        var (gain, delay) = (RoomLag.Gain(hours, 24), RoomLag.DelayHours(hours, 24));
        foreach (var moment in inner.Moments.Where(moment => moment.Seconds > 8 * 86400))
            Assert.Equal(290 + (3 * gain * Math.Cos(Math.Tau * ((moment.Seconds / 86400) - (delay / 24)))), moment.Kelvin, 0.01);
        Assert.All(inner.Moments, moment => Assert.InRange(moment.Humidity, 0.3, 0.7));
    }

    [Fact]
    public void Steady_air_stays_and_a_gap_begins_anew()
    {
        var steady = LoggedAir.Of(Enumerable.Range(0, 100).Select(n => new LoggedMoment(n * 3600.0, 291, 0.6)));
        Assert.All(steady.Through(6).Moments, moment => Assert.Equal((291, 0.6), (Math.Round(moment.Kelvin, 9), Math.Round(moment.Humidity, 9))));
        var torn = LoggedAir.Of(Enumerable.Range(0, 100).Select(n => new LoggedMoment((n < 50 ? n : n + 500) * 3600.0, n < 50 ? 285 : 300, 0.6)));
        Assert.All(torn.Through(6).Moments.Skip(50), moment => Assert.Equal(300, moment.Kelvin, 1e-9));
        Assert.Throws<ArgumentOutOfRangeException>(() => steady.Through(0));
    }

    private static double[] Hours(int count) => [.. Enumerable.Range(0, count).Select(n => (double)n * Hour)];

    private static double[] Moving(int count) => [.. Enumerable.Range(0, count).Select(n => Math.Round(18 + (2 * Math.Sin(n / 4.0)), 1))];
}
