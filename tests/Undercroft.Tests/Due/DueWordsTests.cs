using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Due;

/// <summary>Reasons and days agree with each other and with what anybody can see.</summary>
public sealed class DueWordsTests : IDisposable
{
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    /// <summary>A first look after sealing was missed, years ago; whoever opened it saw it.</summary>
    [Fact]
    public async Task What_stands_open_is_not_overdue_since_before_it_was_opened()
    {
        var id = await cli.Add("--net", "50g", "--container", "jar-237", "--sealed", "2015-03-01");
        await cli.Json("open", id, "--on", "2026-03-01");
        var item = (await cli.Json("due")).GetProperty("items")[0];
        Assert.StartsWith("open for", item.GetProperty("reason").GetString(), StringComparison.Ordinal);
        Assert.InRange(item.GetProperty("dueDay").GetString()!, "2026-03-01", Cli.Today);
    }

    [Fact]
    public async Task Leaf_that_has_come_to_the_air_around_it_is_not_said_to_be_well_sealed()
    {
        var id = await cli.Add("--net", "50g", "--container", "bag-zip", "--sealed", "2015-03-01");
        var shown = string.Join(' ', (await cli.Run("forecast", id)).Out.Split('\n', StringSplitOptions.TrimEntries));
        Assert.Contains("come into balance with the air around it", shown, StringComparison.Ordinal);
        Assert.DoesNotContain("hardly any water", shown, StringComparison.Ordinal);
        var tight = await cli.Add("--net", "50g", "--container", "jar-237", "--sealed", "2025-03-01");
        Assert.DoesNotContain("balance with the air", string.Join(' ', (await cli.Run("forecast", tight)).Out.Split('\n', StringSplitOptions.TrimEntries)), StringComparison.Ordinal);
    }
}
