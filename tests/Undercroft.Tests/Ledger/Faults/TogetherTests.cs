using System.Net;
using System.Text.RegularExpressions;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Sqlite;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Ledger.Faults;

/// <summary>Two programs and a served page write into one ledger at once.</summary>
public sealed partial class TogetherTests
{
    [Fact]
    public async Task Two_programs_and_a_served_page_write_at_once_and_nothing_is_lost()
    {
        const int Places = 12;
        var root = Directory.CreateTempSubdirectory("undercroft-").FullName;
        try
        {
            var data = DataFolder.OrNew(Path.Combine(root, "data"));
            SqliteCellars.OpenOrCreate(data).Dispose();
            await using (var page = await BuiltProgram.Serve(data.Path))
            {
                using var client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new CookieContainer() }) { BaseAddress = page.Address };
                var writers = new[] { Victim.Run("together", root, 1), Victim.Run("together", root, 2) };
                for (var i = 0; i < Places; i++)
                    await AddPlace(client, page.Address, FormattableString.Invariant($"Shelf {i}"));
                Assert.All(await Task.WhenAll(writers), said => Assert.Equal(["done"], said));
            }

            using var cellars = SqliteCellars.Open(data);
            var cellar = await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken);
            var notes = cellar.Notes.Select(note => ((Fact.Noted)note.Fact).Text).ToHashSet();
            Assert.Equal([.. Enumerable.Range(1, 2).SelectMany(writer => Enumerable.Range(0, 30).Select(i => FormattableString.Invariant($"{writer}/{i}")))], notes);
            Assert.Equal(Enumerable.Range(0, Places).Select(i => FormattableString.Invariant($"Shelf {i}")), cellar.Places.Values.Select(place => place.Name));
            Assert.Equal(60 + Places, cellar.Version);
            Assert.Empty(Verification.Of(data).Problems);
        }
        finally
        {
            Directory.Delete(root, recursive: true);
        }
    }

    private static async Task AddPlace(HttpClient client, Uri address, string name)
    {
        var stop = TestContext.Current.CancellationToken;
        var token = TokenField().Match(await client.GetStringAsync(new Uri("/places", UriKind.Relative), stop)).Groups["token"].Value;
        using var request = new HttpRequestMessage(HttpMethod.Post, "/places")
        {
            Content = new FormUrlEncodedContent([new("_handler", "place"), new("__RequestVerificationToken", token), new("Name", name)]),
        };
        request.Headers.TryAddWithoutValidation("Origin", address.GetLeftPart(UriPartial.Authority));
        using var answer = await client.SendAsync(request, stop);
        Assert.Equal(HttpStatusCode.Found, answer.StatusCode);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"(?<token>[^\"]+)\"")]
    private static partial Regex TokenField();
}
