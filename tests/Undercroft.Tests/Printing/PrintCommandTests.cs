using System.Net;
using Undercroft.Printing;
using Undercroft.Tests.Serving;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Printing;

/// <summary>Papers at their two doors: the command line and the page.</summary>
public sealed class PrintCommandTests : IDisposable
{
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task Every_paper_is_written_where_it_was_asked_for()
    {
        var id = await cli.Add("--blend", "Evening ribbon", "--net", "50g", "--container", "bag-bulk");
        foreach (string[] words in new string[][] { ["labels"], ["round"], ["packing"], ["handover"], ["claim", "--again", "10..20 EUR"], ["provenance", id] })
        {
            var answer = await cli.Json(["print", .. words, "--out", $"{words[0]}.pdf"]);
            var file = Path.Combine(cli.Work, $"{words[0]}.pdf");
            Assert.Equal(file, answer.GetProperty("files")[0].GetString());
            Assert.True(answer.GetProperty("pages").GetInt32() >= 1);
            Assert.Equal("%PDF-"u8.ToArray(), (await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken))[..5]);
        }
    }

    [Theory]
    [InlineData("labels", "--sheet", "a5-2x2")]
    [InlineData("labels", "--start", "22")]
    [InlineData("labels", "--offset", "3")]
    [InlineData("labels", "--offset", "3,4")]
    [InlineData("labels", "--parts", "neck")]
    [InlineData("labels", "--place", "nowhere")]
    [InlineData("labels", "AAAAA")]
    [InlineData("claim", "--again", "12")]
    [InlineData("handover", "--paper", "a3")]
    public async Task What_cannot_be_printed_is_refused_and_leaves_no_file(params string[] words)
    {
        await cli.Add("--blend", "Evening ribbon");
        await cli.Refused(1, ["print", .. words, "--out", "paper.pdf"]);
        Assert.False(File.Exists(Path.Combine(cli.Work, "paper.pdf")));
    }

    [Fact]
    public async Task A_file_of_another_kind_is_left_as_it_is_and_an_older_paper_is_replaced()
    {
        await cli.Add("--blend", "Evening ribbon");
        var letter = Path.Combine(cli.Work, "letter.txt");
        await File.WriteAllTextAsync(letter, "mine", TestContext.Current.CancellationToken);
        Assert.Contains("left as it was", await cli.Refused(1, "print", "labels", "--out", "letter.txt"), StringComparison.Ordinal);
        Assert.Equal("mine", await File.ReadAllTextAsync(letter, TestContext.Current.CancellationToken));
        await cli.Refused(1, "print", "labels", "--out", "no/such/folder/labels.pdf");
        await cli.Json("print", "labels", "--out", "labels.pdf");
        await cli.Json("print", "labels", "--out", "labels.pdf");
        Assert.Empty(Directory.GetFiles(cli.Work, "*.new"));
    }

    [Fact]
    public async Task The_page_sends_every_paper_and_refuses_with_a_sentence()
    {
        await using var page = await OpenPage.Start();
        using (await page.Fill("/add", "rows", ("Blend-0", "Evening ribbon"), ("Net-0", "50g")))
        {
        }

        var id = Assert.Single((await page.Cellar()).Here).Id;
        Assert.Contains("Print labels", await page.Read("/print"), StringComparison.Ordinal);
        foreach (var address in PrintFiles.All)
        {
            using var answer = await page.Send(HttpMethod.Get, $"{address.Path}?Ids={id}");
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            Assert.Equal("application/pdf", answer.Content.Headers.ContentType?.MediaType);
            Assert.Equal("%PDF-"u8.ToArray(), (await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken))[..5]);
        }

        using var refused = await page.Send(HttpMethod.Get, "/print/labels.pdf?Start=99");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("1 to 21", await refused.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }
}
