using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using SkiaSharp;
using Undercroft.Keeping.Adding;
using Undercroft.Keeping.Rounds;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Printing;
using Undercroft.Shell;
using Undercroft.Tests.Forecasts;
using Undercroft.Tests.Ledger;
using Undercroft.Tests.Printing;
using Undercroft.Tests.Serving;
using Xunit;

namespace Undercroft.Tests.Keeping;

public sealed class RoundTests
{
    private static readonly DateOnly Today = new(2026, 5, 16);
    private static readonly Present Present = new(Today, new DateTimeOffset(Today, new TimeOnly(12, 0), TimeSpan.Zero));

    private static Package Jar()
    {
        var made = new OneCellar();
        return made.Cellar.Packages[made.Add(new AddRequest("Evening ribbon", Net: "50g", Container: "jar-237"))] is var jar ? jar : throw new InvalidOperationException();
    }

    [Fact]
    public void An_entry_becomes_what_was_measured_and_seen_in_the_units_of_its_fields()
    {
        var lines = new RoundEntry(Guid.CreateVersion7(), "x", Findings: ["lid-loose", "rust"], Gross: "412,3", Humidity: "62", Bulge: "4", Note: "by the window").Lines(Jar(), Present);
        Assert.Equal(412.3, ((Fact.PackageWeighed)lines[0].Fact).Mass.Grams, 6);
        Assert.Equal(62, ((Fact.HumidityRead)lines[1].Fact).Humidity.Percent, 6);
        var look = (Fact.PackageLooked)lines[2].Fact;
        Assert.Equal([Finding.LidLoose, Finding.Rust, Finding.Bulge], look.Findings);
        Assert.Equal(4, look.Bulge!.Value.Millimetres, 6);
        Assert.Equal(14.5, ((Fact.PackageWeighed)new RoundEntry(Guid.CreateVersion7(), "x", Gross: "14.5oz").Lines(Jar(), Present)[0].Fact).Mass.Ounces, 6);
    }

    [Fact]
    public void What_says_nothing_or_contradicts_itself_is_refused()
    {
        Assert.Throws<Refusal>(() => new RoundEntry(Guid.CreateVersion7(), "x").Lines(Jar(), Present));
        Assert.Throws<Refusal>(() => new RoundEntry(Guid.CreateVersion7(), "x", AllWell: true, Findings: ["rust"]).Lines(Jar(), Present));
        Assert.Throws<Refusal>(() => new RoundEntry(Guid.CreateVersion7(), "x", Gross: "heavy").Lines(Jar(), Present));
        Assert.Throws<Refusal>(() => new RoundEntry(Guid.CreateVersion7(), "x", AllWell: true, On: "2026-06-01").Lines(Jar(), Present));
        Assert.Single(new RoundEntry(Guid.CreateVersion7(), "x", AllWell: true, On: "2026-05-17").Lines(Jar(), Present));
        Assert.Throws<Refusal>(() => RoundWords.OfLetters("LX"));
        Assert.Equal(["lid-loose", "mould-suspected"], RoundWords.OfLetters("l m"));
    }

    [Fact]
    public async Task The_same_entry_sent_twice_is_written_once()
    {
        var cellars = new MemoryCellars();
        var change = await cellars.ChangeAsync(cellar => AddPackages.Decide(cellar, new AddRequest("Evening ribbon", Net: "50g"), Present));
        var id = change.After.Here.Single().Id.ToString();
        var writing = new RoundWriting(cellars, _ => Present);
        var entry = new RoundEntry(Guid.CreateVersion7(), id, Findings: ["rust"], Gross: "300");
        var first = await writing.Of(entry);
        var version = (await cellars.ReadAsync(View.Now, TestContext.Current.CancellationToken)).Version;
        var again = await new RoundWriting(cellars, _ => Present with { Now = Present.Now.AddHours(5) }).Of(entry);
        Assert.Equal(first, again);
        Assert.Equal(version, (await cellars.ReadAsync(View.Now, TestContext.Current.CancellationToken)).Version);

        var kept = await writing.Each([entry, new RoundEntry(Guid.CreateVersion7(), "AAAAA", AllWell: true), new RoundEntry(Guid.CreateVersion7(), id, AllWell: true)]);
        Assert.Equal([true, false, true], kept.Select(one => one.Done));
        Assert.Contains("AAAAA", kept[1].Refused, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_round_is_walked_written_and_taken_back_without_script()
    {
        await using var page = await OpenPage.Start();
        using (await page.Fill("/add", "rows", ("Blend-0", "One"), ("Container-0", "jar-237"), ("Sealed-0", "2024"), ("Place-0", "closet"), ("Blend-1", "Two"), ("Container-1", "jar-237"), ("Sealed-1", "2024"), ("Place-1", "closet")))
        {
        }

        string[] ids = [.. (await page.Cellar()).Here.Select(package => package.Id.ToString())];
        var round = await page.Read("/round");
        Assert.All(ids, id => Assert.Contains(id, round, StringComparison.Ordinal));
        var walk = $"/round/go?Ids={string.Join('.', ids)}&At=";
        using (var well = await page.Fill(walk + "0", "stop", ("Well", "yes"), ("Gross", "301.5")))
            Assert.Contains("At=1", well.Headers.Location!.ToString(), StringComparison.Ordinal);
        var first = (await page.Cellar()).FindPackage(ids[0]);
        Assert.Equal([Finding.AllWell], first.Looks.Single().Fact.Findings);
        Assert.Equal(301.5, first.Weighings.Single().Fact.Mass.Grams, 6);
        var line = first.Weighings.Single().Entry.Version.ToString(CultureInfo.InvariantCulture);
        Assert.Contains("Take it back", await page.Read(walk + "1&Line=" + line), StringComparison.Ordinal);
        using (await page.Fill("/undo", "undo", ("Line", line)))
        {
        }

        Assert.Empty((await page.Cellar()).FindPackage(ids[0]).Looks);
        using (var refused = await page.Fill(walk + "1", "stop", ("Gross", "heavy")))
            Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("Round done", await page.Read(walk + "2"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task All_fine_on_a_shelf_leaves_the_exceptions_out_and_is_one_act()
    {
        await using var page = await OpenPage.Start();
        using (await page.Fill("/add", "rows", ("Blend-0", "One"), ("Container-0", "jar-237"), ("Sealed-0", "2024"), ("Place-0", "closet"), ("Count-0", "3")))
        {
        }

        string[] ids = [.. (await page.Cellar()).Here.Select(package => package.Id.ToString())];
        var shown = (await page.Read("/round")).Split("name=\"_handler\" value=\"shelf-")[1][..5];
        using (await page.Fill("/round", "shelf-" + shown, ("Shelf", ids[0]), ("Shelf", ids[1]), ("Shelf", ids[2]), ("But", ids[1])))
        {
        }

        var cellar = await page.Cellar();
        Assert.Equal([1, 0, 1], ids.Select(id => cellar.FindPackage(id).Looks.Count()));
        var line = cellar.FindPackage(ids[0]).Looks.Single().Entry.Version;
        using (await page.Fill("/undo", "undo", ("Line", Math.Min(line, cellar.FindPackage(ids[2]).Looks.Single().Entry.Version).ToString(CultureInfo.InvariantCulture))))
        {
        }

        Assert.All(ids, id => Assert.Empty(page.Cellar().AsTask().GetAwaiter().GetResult().FindPackage(id).Looks));
    }

    [Fact]
    public async Task A_sheet_of_paper_is_typed_back_in_from_one_form()
    {
        await using var page = await OpenPage.Start();
        using (await page.Fill("/add", "rows", ("Blend-0", "One"), ("Container-0", "jar-237"), ("Sealed-0", "2024"), ("Count-0", "3")))
        {
        }

        string[] ids = [.. (await page.Cellar()).Here.Select(package => package.Id.ToString())];
        using (var kept = await page.Fill("/round/paper", "paper", ("On", "2026-11-20"), ("Id-0", ids[0]), ("Well-0", "yes"), ("Gross-0", "300"), ("Id-1", ids[1]), ("Seen-1", "L R"), ("Bulge-1", "2"), ("Id-2", ids[2])))
            Assert.Equal(HttpStatusCode.Redirect, kept.StatusCode);
        var cellar = await page.Cellar();
        Assert.Equal([Finding.LidLoose, Finding.Rust, Finding.Bulge], cellar.FindPackage(ids[1]).Looks.Single().Fact.Findings);
        Assert.Equal("2026-11-20", cellar.FindPackage(ids[0]).Weighings.Single().Entry.Happened.ToString());
        Assert.Empty(cellar.FindPackage(ids[2]).Looks);
        using var refused = await page.Fill("/round/paper", "paper", ("Id-0", ids[0]), ("Gross-0", "300"), ("Id-1", ids[1]), ("Seen-1", "Q"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Single((await page.Cellar()).FindPackage(ids[0]).Weighings);
    }

    [Fact]
    public async Task Entries_come_in_as_json_once_however_often_and_nonsense_is_refused()
    {
        await using var page = await OpenPage.Start();
        using (await page.Fill("/add", "rows", ("Blend-0", "One"), ("Container-0", "jar-237"), ("Sealed-0", "2024")))
        {
        }

        var id = (await page.Cellar()).Here.Single().Id.ToString();
        var entries = new[] { new { key = Guid.CreateVersion7(), id, allWell = true, findings = Array.Empty<string>(), gross = "300", on = "2026-11-24" } };
        for (var n = 0; n < 3; n++)
        {
            using var answer = await page.Send(HttpMethod.Post, "/round/entries", JsonContent.Create(entries), ("Sec-Fetch-Site", "same-origin"));
            Assert.True((await answer.Content.ReadFromJsonAsync<JsonElement>(TestContext.Current.CancellationToken))[0].GetProperty("done").GetBoolean());
        }

        Assert.Single((await page.Cellar()).FindPackage(id).Weighings);
        foreach (var nonsense in new[] { "{", "[null]", "7", "[{\"key\":1}]" })
        {
            using var refused = await page.Send(HttpMethod.Post, "/round/entries", new StringContent(nonsense, System.Text.Encoding.UTF8, "application/json"), ("Sec-Fetch-Site", "same-origin"));
            Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        }

        using var foreign = await page.Send(HttpMethod.Post, "/round/entries", JsonContent.Create(entries), ("Sec-Fetch-Site", "cross-site"));
        Assert.Equal(HttpStatusCode.Forbidden, foreign.StatusCode);
        var stops = JsonDocument.Parse(await page.Read("/round/stops.json?Minutes=60")).RootElement;
        Assert.Equal("2026-11-24", stops.GetProperty("today").GetString());
    }

    /// <summary>A printed label as a phone would see it: small in a large picture, askew, blurred a little, on a grey ground.</summary>
    [Theory]
    [InlineData(0f, 900)]
    [InlineData(17f, 700)]
    [InlineData(90f, 1100)]
    [InlineData(-160f, 800)]
    public async Task A_label_is_read_off_a_picture_of_it(float degrees, int size)
    {
        var made = new OneCellar();
        var id = made.Add(new AddRequest("Evening ribbon", Net: "50g"));
        var sheet = LabelSheet.All[0];
        var printed = await Rendered.Of(Labels.Of(made.Cellar, [made.Cellar.Packages[id]], new LabelAsk(sheet, Parts: LabelParts.Body), Today));
        var (x, y) = sheet.Corner(0);
        Assert.Equal([id.ToString()], ScannedCode.On(Photograph(printed.Pages[0].Part((int)(x * 10), (int)(y * 10), 635, 381), degrees, size)));
    }

    [Fact]
    public void A_picture_without_a_code_or_no_picture_at_all_is_refused()
    {
        using var bitmap = new SKBitmap(640, 480);
        bitmap.Erase(SKColors.SaddleBrown);
        using var data = bitmap.Encode(SKEncodedImageFormat.Png, 90);
        Assert.Contains("No code", Assert.Throws<Refusal>(() => ScannedCode.On(data.ToArray())).Message, StringComparison.Ordinal);
        Assert.Contains("no picture", Assert.Throws<Refusal>(() => ScannedCode.On([1, 2, 3])).Message, StringComparison.Ordinal);
    }

    internal static byte[] Photograph((byte[] Shades, int Width, int Height) label, float degrees, int size)
    {
        using var paper = new SKBitmap(new SKImageInfo(label.Width, label.Height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        for (var row = 0; row < label.Height; row++)
        {
            for (var column = 0; column < label.Width; column++)
            {
                var shade = (byte)(40 + (label.Shades[(row * label.Width) + column] * 190 / 255)); // paper is not white and ink not black
                paper.SetPixel(column, row, new SKColor(shade, shade, (byte)(shade * 9 / 10)));
            }
        }

        using var photo = new SKBitmap(new SKImageInfo(3000, 2250, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (var canvas = new SKCanvas(photo))
        {
            canvas.Clear(new SKColor(120, 90, 60));
            canvas.Translate(1500, 1125);
            canvas.RotateDegrees(degrees);
            canvas.Scale(size / (float)label.Width);
            using var blur = new SKPaint { ImageFilter = SKImageFilter.CreateBlur(1.2f, 1.2f) };
            canvas.DrawBitmap(paper, -label.Width / 2f, -label.Height / 2f, new SKSamplingOptions(SKFilterMode.Linear), blur);
        }

        using var data = photo.Encode(SKEncodedImageFormat.Jpeg, 80);
        return data.ToArray();
    }
}
