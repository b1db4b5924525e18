using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Barrier;

/// <summary>[Usp671], formula and limits from memory.</summary>
public class DesiccantTestTests
{
    // Derived on the remembered formula: 120 ml, +110 mg, control +5 mg, 14 days: (1000/(14·120))·105 = 62.5.
    [Fact]
    public void Worked_example_comes_out() =>
        Assert.Equal(62.5, DesiccantTest.MilligramsPerDayLitre(Mass.FromGrams(0.110), Mass.FromGrams(0.005), 14, Volume.FromMillilitres(120)), 1e-9);

    [Theory]
    [InlineData(-3, Tightness.Tight)]
    [InlineData(62.5, Tightness.Tight)]
    [InlineData(100, Tightness.Tight)]
    [InlineData(100.1, Tightness.WellClosed)]
    [InlineData(2000, Tightness.WellClosed)]
    [InlineData(2001, Tightness.Open)]
    public void Classes(double rate, Tightness expected) => Assert.Equal(expected, DesiccantTest.Of(rate));

    [Fact]
    public void Numbers_that_are_none_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => DesiccantTest.Of(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => DesiccantTest.MilligramsPerDayLitre(new(double.NaN), new(0), 14, new(1e-4)));
        Assert.Throws<ArgumentOutOfRangeException>(() => DesiccantTest.MilligramsPerDayLitre(new(1e-4), new(0), 0, new(1e-4)));
        Assert.Throws<ArgumentOutOfRangeException>(() => DesiccantTest.MilligramsPerDayLitre(new(1e-4), new(0), 14, new(double.NaN)));
    }
}
