using Undercroft.Keeping.Handling;
using Undercroft.Ledger.Amounts;
using Undercroft.Shell;
using Undercroft.Shell.Web;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Shell;

/// <summary>No amount is told finer than it is known.</summary>
public sealed class AmountTextTests
{
    [Theory]
    [InlineData("2oz", "2oz")]
    [InlineData("about 2 oz", "about 2 oz")]
    [InlineData("40g..60g", "40g..60g")]
    [InlineData("unknown", "unknown")]
    public void What_was_typed_is_said(string typed, string said) => Assert.Equal(said, AmountText.Of(StatedMass.Parse(typed)));

    [Fact]
    public void What_was_shared_out_is_rounded_and_keeps_no_words_of_the_whole()
    {
        Assert.Equal("18.9 g", AmountText.Of(Split.Shared(StatedMass.Parse("2oz"), 3)));
        Assert.Equal("17–20.8 g", AmountText.Of(Split.Shared(StatedMass.Parse("~2oz"), 3)));
        Assert.Equal("56.7 g", AmountText.Of(StatedMass.Exactly(Mass.FromOunces(2))));
    }

    [Theory]
    [InlineData(155.7, 177.7, 1, "156–178")]
    [InlineData(51.03, 62.37, 1, "51–62")]
    [InlineData(6513.2, 6514.1, 0, "6514")]
    [InlineData(228.1, 228.4, 0, "228")]
    [InlineData(50, 50, 1, "50")]
    [InlineData(330.9, 330.9, 1, "330.9")]
    [InlineData(695.4, 696.6, 1, "696")]
    [InlineData(24.53, 24.57, 2, "24.6")]
    [InlineData(73.38, 73.38, 2, "73.38")]
    [InlineData(4.5, 5.5, 1, "4.5–5.5")]
    [InlineData(1.8, 2.2, 2, "1.8–2.2")]
    [InlineData(0, 25, 1, "0–25")]
    public void A_range_is_as_fine_as_its_width(double low, double high, int decimals, string said) => Assert.Equal(said, AmountText.Range(low, high, decimals));

    [Fact]
    public void A_range_that_turns_into_one_number_is_one()
    {
        Assert.Equal("227.8 oz on record", OwnUnits.Imperial("6457–6458 g on record"));
        Assert.Equal("1.8–2.2 oz", OwnUnits.Imperial("51–62 g"));
    }
}
