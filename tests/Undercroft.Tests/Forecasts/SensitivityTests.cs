using Undercroft.Forecasts;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Forecasts;

/// <summary>Which unknown carries the doubt of a package: it follows what is known of it, and the command tells it.</summary>
public sealed class SensitivityTests
{
    private static readonly DateOnly Today = new(2026, 5, 16);

    private static AddRequest Bag => new("Test", "burley", "ribbon", "100g", Container: "bag-zip", Sealed: "2026-05-15", Place: "closet", Moisture: "14%");

    /// <summary>A jar keeps what it was closed with; a bag with a zip comes to what the room has, whatever it was closed with.</summary>
    [Theory]
    [InlineData("jar-473", 1, "moisture at closing")]
    [InlineData("bag-zip", 5, "humidity of the place")]
    public void What_decides_the_moisture_carries_the_doubt(string container, double years, string expected)
    {
        var cellar = new OneCellar();
        var id = cellar.Add(Bag with { Container = container, Moisture = null });
        var shares = Sensitivity.Of(cellar.Cellar, id, new(Today, years, 64));
        Assert.Equal(expected, shares[0].Input);
        Assert.InRange(shares.Sum(share => share.First), 0.7, 1.1); // nearly additive, but for the error of 2048 samples
        Assert.All(shares, share => Assert.InRange(share.Total, -0.05, 1.1));
    }

    [Fact]
    public void Too_few_samples_are_refused()
    {
        var cellar = new OneCellar();
        var id = cellar.Add(Bag);
        Assert.Throws<Refusal>(() => Sensitivity.Of(cellar.Cellar, id, new(Today, 1, 64), samples: 256));
    }

    [Fact]
    public async Task The_command_tells_it_of_one_package_and_in_both_forms()
    {
        using Cli cli = new();
        for (var n = 0; n < 2; n++)
            await cli.Run("add", "--blend", "Test", "--leaf", "burley", "--net", "100g", "--container", "bag-zip", "--sealed", "2026-04-20", "--moisture", "14%");
        var id = (await cli.Json("show")).GetProperty("packages")[0].GetProperty("id").GetString()!;
        var text = await cli.Run("forecast", id, "--years", "1", "--draws", "64", "--sensitivity");
        Assert.Equal(0, text.Exit);
        Assert.Contains("Where the doubt of the moisture at the horizon comes from", text.Out, StringComparison.Ordinal);
        Assert.Contains("What would narrow it most:", text.Out, StringComparison.Ordinal);
        var shares = (await cli.Json("forecast", id, "--years", "1", "--draws", "64", "--sensitivity")).GetProperty("packages")[0].GetProperty("sensitivity");
        Assert.Equal(7, shares.GetArrayLength());
        Assert.Contains("one package at a time", await cli.Refused(1, "forecast", "--sensitivity"), StringComparison.Ordinal);
    }
}
