using Undercroft.Physics.Climate.Exposures;
using Xunit;

namespace Undercroft.Physics.Tests.Climate;

/// <summary>
/// All figures here are computed from the published equations, not measured: they guard the code against change and are no evidence that mould grows so.
/// Computed elsewhere by hourly explicit steps; tolerance 1e-3 of the index.
/// </summary>
public sealed class MouldIndexTests
{
    [Theory]
    [InlineData(0, 100)]
    [InlineData(5, 88.016)]
    [InlineData(10, 82.030)]
    [InlineData(15, 80.039)]
    [InlineData(20, 80.040)]
    public void Regression_of_the_critical_humidity(double celsius, double percent) => Assert.Equal(percent, MouldIndex.CriticalHumidity(celsius), 1e-3);

    [Theory]
    [InlineData(20, 97, 1.4835)]
    [InlineData(20, 90, 4.2019)]
    [InlineData(20, 85, 9.3003)]
    [InlineData(10, 97, 2.3768)]
    [InlineData(5, 97, 3.8080)]
    public void Regression_of_the_time_to_germination(double celsius, double percent, double weeks) =>
        Assert.Equal(weeks, MouldIndex.WeeksToGermination(celsius, percent), 1e-4 * weeks);

    [Fact]
    public void Regression_of_the_time_to_visible_growth() => Assert.Equal(2.9827, MouldIndex.WeeksToVisible(20, 97), 1e-4);

    [Theory]
    [InlineData(97, 5.5039)]
    [InlineData(90, 3.9950)]
    [InlineData(85, 2.6160)]
    public void Regression_of_the_ceiling(double percent, double index) => Assert.Equal(index, new MouldIndex(MouldClass.VerySensitive).Ceiling(20, percent), 1e-4);

    [Theory]
    [InlineData("very", 97, 1, 0.6741)]
    [InlineData("very", 97, 2, 1.6931)]
    [InlineData("very", 97, 4, 4.3575)]
    [InlineData("very", 97, 8, 5.5039)]
    [InlineData("very", 90, 4, 0.9516)]
    [InlineData("very", 90, 8, 2.7790)]
    [InlineData("very", 90, 24, 3.9950)]
    [InlineData("sensitive", 97, 1, 0.3896)]
    [InlineData("sensitive", 97, 4, 1.3734)]
    [InlineData("sensitive", 97, 12, 3.4297)]
    [InlineData("medium", 97, 12, 0.5816)]
    [InlineData("resistant", 97, 12, 0.2615)]
    public void Regression_of_steady_growth(string material, double percent, int weeks, double index) => Assert.Equal(index, After(Of(material), percent, weeks * 7 * 24).Value, 1e-3);

    [Fact]
    public void Regression_of_decline()
    {
        var index = After(MouldClass.VerySensitive, 97, 28 * 24);
        Assert.Equal(4.35749, index.Value, 1e-3);
        var expected = new Dictionary<int, double> { [6] = 4.34949, [24] = 4.34949, [7 * 24] = 4.25349, [14 * 24] = 4.14149 };
        for (var hour = 1; hour <= 14 * 24; hour++)
        {
            index.Hour(20, 50);
            if (expected.TryGetValue(hour, out var value))
                Assert.Equal(value, index.Value, 1e-3);
        }

        Assert.Equal(4.35749, index.Highest, 1e-3);
    }

    [Fact]
    public void Regression_of_dry_air() => Assert.Equal(0, After(MouldClass.VerySensitive, 60, 8760).Value);

    /// <summary>The same hours from a log, read every half hour, as from the bare steps.</summary>
    [Fact]
    public void A_log_gives_what_its_hours_give()
    {
        var log = Undercroft.Physics.Climate.LoggedAir.Of(Enumerable.Range(0, (14 * 48) + 1).Select(n => new Undercroft.Physics.Climate.LoggedMoment(n * 1800.0, 293.15, 0.97)));
        var (highest, hours) = MouldIndex.Of(log, MouldClass.VerySensitive);
        Assert.Equal(14 * 24, hours, 1e-9);
        Assert.Equal(After(MouldClass.VerySensitive, 97, 14 * 24).Value, highest, 1e-9);
    }

    [Fact]
    public void Nonsense_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new MouldIndex(MouldClass.Sensitive).Hour(20, 101));
        Assert.Throws<ArgumentOutOfRangeException>(() => new MouldIndex(MouldClass.Sensitive).Hour(double.NaN, 50));
    }

    private static MouldClass Of(string name) => name switch
    {
        "very" => MouldClass.VerySensitive,
        "sensitive" => MouldClass.Sensitive,
        "medium" => MouldClass.Medium,
        "resistant" => MouldClass.Resistant,
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "Not a class."),
    };

    private static MouldIndex After(MouldClass material, double percent, int hours)
    {
        MouldIndex index = new(material);
        for (var hour = 0; hour < hours; hour++)
            index.Hour(20, percent);
        return index;
    }
}
