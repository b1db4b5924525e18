using Undercroft.Ledger;
using Undercroft.Shell;
using Xunit;

namespace Undercroft.Tests.Shell;

/// <summary>Dates as people say them: read where they cannot be misread.</summary>
public sealed class SaidDateTests
{
    [Theory]
    [InlineData("2019-05-03", "2019-05-03")]
    [InlineData("summer 2019", "2019-22")]
    [InlineData("2019 summer", "2019-22")]
    [InlineData("Herbst 2019", "2019-23")]
    [InlineData("May 2019", "2019-05")]
    [InlineData("Mai 2019", "2019-05")]
    [InlineData("sept. 2019", "2019-09")]
    [InlineData("2019 May", "2019-05")]
    [InlineData("05/2019", "2019-05")]
    [InlineData("5/2019", "2019-05")]
    [InlineData("05.2019", "2019-05")]
    [InlineData("2019/05", "2019-05")]
    [InlineData("2019/05/03", "2019-05-03")]
    [InlineData("3 May 2019", "2019-05-03")]
    [InlineData("3. Mai 2019", "2019-05-03")]
    [InlineData("May 3, 2019", "2019-05-03")]
    [InlineData("25/12/2013", "2013-12-25")]
    [InlineData("12/25/2013", "2013-12-25")]
    [InlineData("4.4.2013", "2013-04-04")]
    [InlineData("about 2019", "2019~")]
    [InlineData("about May 2019", "2019-05~")]
    [InlineData("perhaps 2019", "2019?")]
    [InlineData("2010s", "201X")]
    [InlineData("2014/2016", "[2014..2016]")]
    [InlineData("unknown", "unknown")]
    public void Plain_dates_are_read(string said, string meant) => Assert.Equal(meant, SaidDate.Read(said).ToString());

    [Theory]
    [InlineData("12/04/2013", "2013-04-12", "2013-12-04")]
    [InlineData("4.12.2013", "2013-12-04", "2013-04-12")]
    public void Two_readings_are_both_named(string said, string one, string other)
    {
        var why = Assert.Throws<Refusal>(() => SaidDate.Read(said)).Message;
        Assert.Contains(one, why, StringComparison.Ordinal);
        Assert.Contains(other, why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("31 Feb 2019")]
    [InlineData("13/2019")]
    [InlineData("31/31/2019")]
    [InlineData("sometime 2019")]
    [InlineData("May")]
    [InlineData("May 19")]
    public void What_is_no_date_is_refused(string said) => Assert.Contains("'", Assert.Throws<Refusal>(() => SaidDate.Read(said)).Message, StringComparison.Ordinal);
}
