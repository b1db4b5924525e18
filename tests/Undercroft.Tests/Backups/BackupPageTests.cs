using System.IO.Compression;
using System.Net;
using Undercroft.Backups;
using Undercroft.Ledger;
using Undercroft.Ledger.Backups;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Backups;

/// <summary>How old the last backup is, and making one with one press.</summary>
public sealed class BackupPageTests
{
    [Fact]
    public async Task One_press_makes_a_backup_that_can_be_saved_and_restored()
    {
        await using var page = await OpenPage.Start();
        (await page.Fill("/places", "place", ("Name", "closet"))).Dispose();
        Assert.Contains("No backup of this cellar is known.", await page.Read("/backup"), StringComparison.Ordinal);
        using var made = await page.Fill("/backup", "backup");
        Assert.Equal(HttpStatusCode.Found, made.StatusCode);
        var name = made.Headers.Location!.OriginalString.Split('=')[1];
        Assert.StartsWith("undercroft-2026-11-24-", name, StringComparison.Ordinal);
        var after = await page.Read("/backup?made=" + name);
        Assert.Contains("Last backup today; nothing was written since.", after, StringComparison.Ordinal);
        Assert.Contains($"href=\"/backup/{name}\"", after, StringComparison.Ordinal);
        Assert.Contains("Last backup today", await page.Read("/places"), StringComparison.Ordinal); // at the foot of every page

        using var sent = await page.Send(HttpMethod.Get, "/backup/" + name);
        Assert.Equal("application/zip", sent.Content.Headers.ContentType!.MediaType);
        var zip = Path.Combine(page.Folder, "sent.zip");
        await File.WriteAllBytesAsync(zip, await sent.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken), TestContext.Current.CancellationToken);
        var back = Path.Combine(page.Folder, "back");
        Assert.Equal(Verification.Of(DataFolder.Existing(page.Folder)).Digest, Restoring.Into(back, zip).Digest);
        using var archive = ZipFile.OpenRead(zip);
        Assert.DoesNotContain(archive.Entries, entry => entry.FullName.Contains("keys", StringComparison.Ordinal) || entry.FullName.Contains("backups", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("/backup/..%2Fledger.sqlite")]
    [InlineData("/backup/ledger.sqlite")]
    [InlineData("/backup/none.zip")]
    public async Task Nothing_but_a_backup_is_handed_out(string path)
    {
        await using var page = await OpenPage.Start();
        (await page.Fill("/places", "place", ("Name", "closet"))).Dispose();
        (await page.Fill("/backup", "backup")).Dispose();
        using var answer = await page.Send(HttpMethod.Get, path);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    [Fact]
    public async Task A_press_without_its_token_or_from_another_site_makes_nothing()
    {
        await using var page = await OpenPage.Start();
        (await page.Fill("/places", "place", ("Name", "closet"))).Dispose();
        using var bare = await page.Send(HttpMethod.Post, "/backup", new FormUrlEncodedContent([new("_handler", "backup")]), ("Sec-Fetch-Site", "same-origin"));
        using var foreign = await page.Send(HttpMethod.Post, "/backup", new FormUrlEncodedContent([new("_handler", "backup")]), ("Sec-Fetch-Site", "cross-site"));
        Assert.Equal((HttpStatusCode.BadRequest, HttpStatusCode.Forbidden), (bare.StatusCode, foreign.StatusCode));
        Assert.False(Directory.Exists(Path.Combine(page.Folder, "backups")));
    }

    [Fact]
    public async Task An_old_backup_with_lines_missing_is_late()
    {
        await using var page = await OpenPage.Start();
        (await page.Fill("/places", "place", ("Name", "closet"))).Dispose();
        var folder = DataFolder.Existing(page.Folder);
        Assert.True(KeptBackups.Of(folder, await page.Cellar(), OpenPage.Today).Late);
        KeptBackups.Make(folder, new DateTimeOffset(2026, 10, 1, 12, 0, 0, TimeSpan.Zero));
        var quiet = KeptBackups.Of(folder, await page.Cellar(), OpenPage.Today);
        Assert.Equal((54, 0L, false), (quiet.Days, quiet.Behind, quiet.Late));
        (await page.Fill("/places", "place", ("Name", "loft"))).Dispose();
        var late = KeptBackups.Of(folder, await page.Cellar(), OpenPage.Today);
        Assert.Equal("Last backup 54 days ago; one line was written since.", late.Verdict);
        Assert.True(late.Late);
        var twin = KeptBackups.Make(folder, new DateTimeOffset(2026, 10, 1, 12, 0, 0, TimeSpan.Zero));
        Assert.EndsWith("-2.zip", twin.Name, StringComparison.Ordinal);
    }
}
