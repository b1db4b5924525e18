using System.Net;
using Undercroft.Access;
using Undercroft.Shell.Web;
using Undercroft.Tests.Access;
using Xunit;

namespace Undercroft.Tests.Calendars;

/// <summary>A feed's private address.</summary>
public sealed class FeedTests
{
    [Fact]
    public async Task A_feed_has_an_address_of_its_own_that_is_gone_once_it_is_revoked()
    {
        await using var page = await Strangers.Guarded();
        using var program = Strangers.Browser(page);
        using var store = AccessStore.Open(page.Folder, TimeProvider.System);
        var (token, secret) = store.NewToken("calendar", Scope.Calendar);
        using (var fed = await program.Ask("/calendar.ics?token=" + secret))
        {
            Assert.Equal(HttpStatusCode.OK, fed.StatusCode);
            Assert.Equal("text/calendar", fed.Content.Headers.ContentType?.MediaType);
        }

        using (var elsewhere = await program.Ask("/api/packages", secret))
            Assert.Equal(HttpStatusCode.Forbidden, elsewhere.StatusCode); // good for the calendar alone
        store.Revoke(token.Id);
        using (var gone = await program.Ask("/calendar.ics?token=" + secret))
            Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
        using (var never = await program.Ask("/calendar.ics?token=uc_nothing"))
            Assert.Equal(HttpStatusCode.NotFound, never.StatusCode); // a stranger cannot tell the two apart
        using var bare = await program.Ask("/calendar.ics");
        Assert.Equal(HttpStatusCode.Unauthorized, bare.StatusCode);
    }
}
