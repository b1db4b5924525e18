using CsCheck;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Leaf;

/// <summary>Laws of every isotherm, over random constants.</summary>
public sealed class IsothermLawTests
{
    private static readonly Gen<Isotherm> Oswin = Gen.Select(Gen.Double[0.02, 0.5], Gen.Double[0.2, 1.5])
        .Select((a, b) => (Isotherm)new OswinIsotherm(a, b, 2500));

    private static readonly Gen<Isotherm> Gab = Gen.Select(Gen.Double[0.02, 0.2], Gen.Double[0.05, 60], Gen.Double[0.3, 1])
        .Select((m, c, k) => (Isotherm)new GabIsotherm(m, c, k, 2500));

    private static readonly Gen<Isotherm> Leaf = Gen.OneOf(Oswin, Gab);

    private static readonly Gen<Isotherm> Any = Gen.OneOf(
        Leaf,
        Gen.Select(Leaf, Gen.Double[0, 0.6]).Select((leaf, share) => (Isotherm)HumectantIsotherm.WithGlycerol(leaf, share)),
        Gen.Select(Leaf, Leaf, Gen.Double[0, 1]).Select((one, two, share) => (Isotherm)MixtureIsotherm.Of(one, two, share)));

    [Fact]
    public void Inverse_returns_the_activity() => Gen.Select(Any, Gen.Double[0.005, 0.98]).Holds(
        (isotherm, activity) =>
        {
            // a GAB part with k below 1 holds a finite amount; the mixture's inverse asks both parts for it
            var moisture = isotherm.MoistureAt(new(activity));
            if (isotherm is MixtureIsotherm { First: var one, Second: var two } && (Most(one) < moisture.DryBasis || Most(two) < moisture.DryBasis))
                return true;
            return Math.Abs(isotherm.ActivityAt(moisture).Fraction - activity) <= 1e-9;
        });

    [Fact]
    public void Slope_is_the_derivative() => Gen.Select(Any, Gen.Double[0.05, 0.95]).Holds(
        (isotherm, activity) =>
        {
            const double step = 1e-6;
            var difference = (isotherm.MoistureAt(new(activity + step)).DryBasis - isotherm.MoistureAt(new(activity - step)).DryBasis) / (2 * step);
            return Math.Abs(isotherm.Slope(new(activity)) - difference) <= 1e-6 * Math.Abs(difference);
        });

    [Fact]
    public void Moister_air_gives_moister_leaf() => Gen.Select(Any, Gen.Double[0, 0.99], Gen.Double[0, 0.99]).Holds(
        (isotherm, one, two) => Math.Sign(one.CompareTo(two)) == Math.Sign(isotherm.MoistureAt(new(one)).DryBasis.CompareTo(isotherm.MoistureAt(new(two)).DryBasis)));

    [Fact]
    public void Dry_air_gives_dry_leaf() => Any.Holds(
        isotherm => isotherm.MoistureAt(new(0)).DryBasis == 0 && isotherm.ActivityAt(new(0)).Fraction == 0);

    [Fact]
    public void A_shift_there_and_back_keeps_the_moisture() => Gen.Select(Any, Gen.Double[0.05, 0.8], Gen.Double[0, 40]).Holds(
        (isotherm, activity, celsius) =>
        {
            var temperature = Temperature.FromCelsius(celsius);
            var moisture = isotherm.MoistureAt(new(activity));
            if (isotherm is MixtureIsotherm { First: var one, Second: var two } && (Most(one) < moisture.DryBasis || Most(two) < moisture.DryBasis))
                return true;
            var shifted = SorptionShift.ActivityAt(isotherm, moisture, temperature);
            var back = SorptionShift.MoistureAt(isotherm, shifted.AsEquilibriumHumidity, temperature);
            return Math.Abs(back.DryBasis - moisture.DryBasis) <= 1e-7 * moisture.DryBasis;
        });

    [Theory]
    [InlineData(0.5)]
    [InlineData(0.999)]
    [InlineData(1)]
    public void Gab_refuses_more_than_it_can_hold(double k)
    {
        var isotherm = new GabIsotherm(0.07, 10, k, 2500);
        if (k < 1)
        {
            var most = isotherm.MoistureAt(new(1));
            Assert.Equal(1, isotherm.ActivityAt(most).Fraction, 1e-9);
            Assert.Throws<ArgumentOutOfRangeException>(() => isotherm.ActivityAt(new(most.DryBasis * 1.001)));
        }
        else
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => isotherm.MoistureAt(new(1)));
            Assert.InRange(isotherm.ActivityAt(new(1000)).Fraction, 0.9999, 0.99999999);
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => isotherm.MoistureAt(new(1.0001)));
    }

    [Theory]
    [InlineData(0, 10, 0.9)]
    [InlineData(0.07, 0, 0.9)]
    [InlineData(0.07, 10, 0)]
    [InlineData(0.07, 10, 1.01)]
    [InlineData(double.NaN, 10, 0.9)]
    [InlineData(0.07, double.PositiveInfinity, 0.9)]
    [InlineData(0.07, 10, double.NaN)]
    public void Gab_refuses_impossible_constants(double monolayer, double c, double k) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new GabIsotherm(monolayer, c, k, 2500));

    [Theory]
    [InlineData(0, 0.6)]
    [InlineData(0.1, 0)]
    [InlineData(-0.1, 0.6)]
    [InlineData(double.NaN, 0.6)]
    [InlineData(0.1, double.PositiveInfinity)]
    public void Oswin_refuses_impossible_constants(double a, double b) => Assert.Throws<ArgumentOutOfRangeException>(() => new OswinIsotherm(a, b, 2500));

    [Theory]
    [InlineData(-0.01)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void Oswin_refuses_activities_outside(double activity) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new OswinIsotherm(0.12, 0.66, 2500).MoistureAt(new(activity)));

    [Theory]
    [InlineData(-0.01)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Every_isotherm_refuses_impossible_moisture(double dryBasis)
    {
        var oswin = new OswinIsotherm(0.12, 0.66, 2500);
        Isotherm[] all = [oswin, new GabIsotherm(0.07, 10, 0.9, 2500), HumectantIsotherm.WithGlycerol(oswin, 0.05), MixtureIsotherm.Of(oswin, oswin with { B = 0.7 }, 0.5)];
        Assert.All(all, isotherm => Assert.Throws<ArgumentOutOfRangeException>(() => isotherm.ActivityAt(new(dryBasis))));
    }

    [Fact]
    public void Oswin_refuses_moisture_whose_activity_rounds_to_one() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new OswinIsotherm(0.12, 0.66, 2500).ActivityAt(new(1e20)));

    [Fact]
    public void Humectant_share_of_zero_is_the_leaf_itself()
    {
        var leaf = new OswinIsotherm(0.12, 0.66, 2500);
        var same = HumectantIsotherm.WithGlycerol(leaf, 0);
        Assert.Equal(leaf.MoistureAt(new(0.62)), same.MoistureAt(new(0.62)));
        Assert.Equal(leaf.ActivityAt(new(0.17)), same.ActivityAt(new(0.17)));
    }

    private static double Most(Isotherm isotherm) =>
        isotherm is GabIsotherm { K: < 1 } gab ? gab.MoistureAt(new(1)).DryBasis : double.PositiveInfinity;
}
