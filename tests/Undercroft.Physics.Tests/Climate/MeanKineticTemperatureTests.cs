using CsCheck;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Climate;

public sealed class MeanKineticTemperatureTests
{

    /// <summary>Source: worked example of a maker of monitoring systems, 20 °C for 2 h, 2 °C for 4 h and 25 °C for 1 h give 15.7 °C (last printed digit).</summary>
    [Fact]
    public void Matches_the_published_worked_example() => Assert.Equal(15.7, Of((20, 2), (2, 4), (25, 1)), 0.05);

    /// <summary>Own computation of the same formula (regression).</summary>
    [Fact]
    public void Keeps_its_computed_values()
    {
        Assert.Equal(26.2599, Of((20, 1), (30, 1)), 1e-4);
        Assert.Equal(21.3004, Of((15, 1), (25, 1)), 1e-4);
        Assert.Equal(22.0061, Of((21, 29), (35, 1)), 1e-4);
        Assert.Equal(15.8324, Of([.. new double[] { 2, 4, 8, 12, 17, 21, 24, 23, 19, 13, 7, 3 }.Select(celsius => (celsius, 1.0))]), 1e-4);
    }

    [Fact]
    public void Energy_matters_as_computed()
    {
        var year = Enumerable.Range(0, 365).Select(day => (Temperature.FromCelsius(15 + (10 * Math.Sin(2 * Math.PI * day / 365))), 1.0)).ToList();
        Assert.Equal(17.6049, MeanKineticTemperature.Of(year).Celsius, 1e-4);
        Assert.Equal(16.9066, MeanKineticTemperature.Of(year, 60e3 / 8.3144).Celsius, 1e-4);
        Assert.Equal(18.0650, MeanKineticTemperature.Of(year, 100e3 / 8.3144).Celsius, 1e-4);
    }

    [Fact]
    public void Lies_between_mean_and_warmest_whatever_the_order() => Gen.Double[-20, 45].Array[1, 40].Holds(
        celsius =>
        {
            var mkt = Of([.. celsius.Select(value => (value, 1.0))]);
            var reversed = Of([.. celsius.Reverse().Select(value => (value, 1.0))]);
            return mkt >= celsius.Average() - 1e-9 && mkt <= celsius.Max() + 1e-9 && Math.Abs(mkt - reversed) < 1e-9;
        });

    [Fact]
    public void Rises_with_the_activation_energy() => Gen.Select(Gen.Double[-10, 40], Gen.Double[-10, 40], Gen.Double[5000, 10000], Gen.Double[100, 4000]).Holds(
        (one, two, theta, more) =>
        {
            var spells = new[] { (Temperature.FromCelsius(one), 1.0), (Temperature.FromCelsius(two), 1.0) };
            return MeanKineticTemperature.Of(spells, theta + more) >= new Temperature(MeanKineticTemperature.Of(spells, theta).Kelvin - 1e-9);
        });

    [Fact]
    public void Even_spans_weigh_the_ends_half()
    {
        var (a, b, c) = (Temperature.FromCelsius(10), Temperature.FromCelsius(20), Temperature.FromCelsius(30));
        Assert.Equal(
            MeanKineticTemperature.Of([(a, 1), (b, 2), (c, 1)]).Kelvin, MeanKineticTemperature.OfSpans([(1, a, b), (1, b, c)]).Kelvin, 1e-9);
    }

    [Fact]
    public void Refuses_nothing_and_nonsense()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => MeanKineticTemperature.Of([]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Of((20, 0)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Of((20, 1), (21, -1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Of((double.NaN, 1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Of((-300, 1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => MeanKineticTemperature.Of([(Temperature.FromCelsius(20), 1)], 0));
    }

    private static double Of(params (double Celsius, double Weight)[] spells) =>
        MeanKineticTemperature.Of(spells.Select(spell => (Temperature.FromCelsius(spell.Celsius), spell.Weight))).Celsius;
}
