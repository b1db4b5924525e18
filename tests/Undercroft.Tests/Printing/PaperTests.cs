using System.Globalization;
using SkiaSharp;
using Undercroft.Demo;
using Undercroft.Forecasts.Due;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Printing;
using Undercroft.Printing.Drawing;
using Undercroft.Tests.Forecasts;
using Xunit;

namespace Undercroft.Tests.Printing;

/// <summary>The papers in words, as another program reads them out of the file.</summary>
public sealed class PaperTests
{
    private static readonly DateOnly Today = DemoHousehold.Day;
    private static readonly Cellar Demo = Cellar.Fold(DemoHousehold.Events());

    private static OneCellar Small()
    {
        var made = new OneCellar();
        made.Add(new AddRequest("Evening ribbon", Net: "100g", Container: "jar-473", Sealed: "2020-03", Place: "closet", Paid: "20EUR"));
        made.Add(new AddRequest("Old tin", Net: "40g..60g", Container: "tin-pull-50", Place: "closet", Paid: "9GBP"));
        made.Add(new AddRequest(Place: "loft"));
        return made;
    }

    [Fact]
    public async Task The_round_sheet_names_every_package_of_the_list_once_and_only_those()
    {
        var due = DueList.Of(Demo, Today, minutes: 15);
        var text = await Rendered.TextOf(RoundSheet.Of(due, PaperSize.A4, Today));
        foreach (var item in due.Items)
            Assert.Equal(2, text.Split(item.Id).Length);
        foreach (var other in Demo.Here.Where(package => due.Items.All(item => item.Id != package.Id.ToString())))
            Assert.DoesNotContain(other.Id.ToString(), text, StringComparison.Ordinal);
        Assert.Contains("do not smoke, taste", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_empty_round_says_so() =>
        Assert.Contains("Nothing stands here yet.", await Rendered.TextOf(RoundSheet.Of(DueList.Of(Cellar.Empty, Today), PaperSize.Letter, Today)), StringComparison.Ordinal);

    /// <summary>20 EUR and 9 GBP were paid; 40–60 g and 100 g at 10–20 EUR for 50 g are 20–40 and 8–24 EUR. The third package is in no sum.</summary>
    [Fact]
    public async Task Paid_and_bought_again_are_never_mixed_and_what_is_unknown_is_in_neither()
    {
        var cellar = Small().Cellar;
        var text = Plain(await Rendered.TextOf(HandOver.Of(cellar, PaperSize.A4, new HandOverAsk(Per50Grams: Money.Parse("10..20 EUR")), Today)));
        Assert.Contains("Paid for it: 20 EUR and 9 GBP, known for 2 of 3 packages", text, StringComparison.Ordinal);
        Assert.Contains("as I reckoned when this was printed: 28 to 64 EUR, known for 2 of 3 packages", text, StringComparison.Ordinal);
        Assert.Contains("140 to 160 g. Of 1 more nobody wrote down", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("poison centre")]
    [InlineData("may be mould: do not smoke, taste")]
    [InlineData("eye protection")]
    [InlineData("A licence may be needed")]
    [InlineData("Nobody under age")]
    [InlineData("Who decides")]
    [InlineData("Do not heat it")]
    public async Task The_hand_over_sheet_says_what_whoever_is_left_must_know(string words) =>
        Assert.Contains(words, Plain(await Rendered.TextOf(HandOver.Of(Demo, PaperSize.A4, new HandOverAsk(), Today))), StringComparison.Ordinal);

    [Fact]
    public async Task The_hand_over_sheet_never_calls_anything_safe_or_lawful()
    {
        var text = Plain(await Rendered.TextOf(HandOver.Of(Demo, PaperSize.A4, new HandOverAsk("my sister", "the neighbour"), Today)));
        Assert.DoesNotMatch(@"\b(is|are) (safe|legal|harmless)\b", text);
        Assert.Contains("my sister", text, StringComparison.Ordinal);
        Assert.Contains("the neighbour", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_claim_list_names_every_package_and_leaves_blank_what_nobody_knows()
    {
        var cellar = Small().Cellar;
        var text = await Rendered.TextOf(ClaimList.Of(cellar, [.. cellar.Here], PaperSize.A4, null, Today, _ => null));
        Assert.All(cellar.Here, package => Assert.Contains(package.Id.ToString(), text, StringComparison.Ordinal));
        var unknown = text.Split('\n').Single(line => line.Contains(cellar.Here.Last().Id.ToString(), StringComparison.Ordinal));
        Assert.DoesNotMatch(@"\b0\b", unknown.Replace(cellar.Here.Last().Id.ToString(), "", StringComparison.Ordinal));
        Assert.DoesNotContain("GBP EUR", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_claim_list_names_the_photos()
    {
        var made = Small();
        var jar = made.Cellar.Here.First().Id;
        made.Say("2024-08-17", new Fact.PhotoKept(jar, new string('a', 64), "front of the shelf"));
        var text = Plain(await Rendered.TextOf(ClaimList.Of(made.Cellar, [.. made.Cellar.Here], PaperSize.A4, null, Today, _ => null)));
        Assert.Contains($"{jar} 2024-08-17 aaaaaaaaaaaaaaaa … front of the shelf", text, StringComparison.Ordinal);
    }

    /// <summary>A black picture shows as a black rectangle of its shape; one whose file is gone as a frame that says so.</summary>
    [Fact]
    public async Task The_claim_list_shows_the_newest_photo_of_each_package()
    {
        var made = Small();
        var (jar, tin) = (made.Cellar.Here.First().Id, made.Cellar.Here.ElementAt(1).Id);
        made.Say("2023-08-17", new Fact.PhotoKept(jar, new string('0', 64)));
        made.Say("2024-08-17", new Fact.PhotoKept(jar, new string('a', 64)));
        made.Say("2024-08-18", new Fact.PhotoKept(tin, new string('b', 64)));
        var page = await Drawn(digest => digest[0] switch { 'a' => Black(600, 400), '0' => throw new InvalidOperationException("an older one"), _ => null });
        const double Wide = (297 - (2 * 15) - (3 * 4)) / 4.0;
        const double Frame = (Wide + (Wide * 3 / 4)) * 2 * 0.25; // and a few letters instead
        Assert.Equal((Wide * Wide * 2 / 3) - Frame, Ink(page) - Ink(await Drawn(_ => null)), 60.0);
        Assert.Contains($"{jar} · 2024-08-17", page.Text, StringComparison.Ordinal);
        Assert.Contains("file not found", page.Text, StringComparison.Ordinal);

        Task<Rendered> Drawn(Func<string, byte[]?> picture) => Rendered.Of(ClaimList.Of(made.Cellar, [.. made.Cellar.Here], PaperSize.A4, null, Today, picture));
        static double Ink(Rendered page) =>
            Enumerable.Range(0, page.Pages[0].Height).Sum(row => page.Pages[0].Row(row).ToArray().Count(shade => shade < 20)) / (Rendered.PixelsPerMm * Rendered.PixelsPerMm);
    }

    [Fact]
    public void What_was_taken_out_of_a_package_is_not_claimed()
    {
        var made = new OneCellar();
        var id = made.Add(new AddRequest("Evening ribbon", Net: "100g", Paid: "40EUR"));
        made.Say("2024-08-17", new Fact.LeafTaken(id, StatedMass.Parse("25g")));
        Assert.Equal(30m, Prices.Paid(made.Cellar, made.Cellar.Packages[id])!.High, 6);
    }

    [Fact]
    public void A_lot_with_one_price_is_shared_out_by_leaf_and_adds_up()
    {
        var made = new OneCellar();
        made.Add(new AddRequest("Shared", Net: "50g", Count: 3, Paid: "30EUR"));
        var cellar = made.Cellar;
        Assert.All(cellar.Here, package => Assert.Equal(10m, Prices.Paid(cellar, package)!.Low, 6));
        Assert.Equal(30m, MoneyTotal.Of(cellar.Here.Select(package => Prices.Paid(cellar, package))).Sums.Single().Range.High, 6);
    }

    [Fact]
    public async Task The_story_of_a_package_holds_every_line_about_it()
    {
        var package = Demo.Here.First(known => known.Timeline.Count > 2);
        var text = Plain(await Rendered.TextOf(Provenance.Of(Demo, [package], PaperSize.A4, Today)));
        foreach (var entry in package.Timeline)
            Assert.Contains(Undercroft.Shell.FactText.Of(Demo, entry.Fact).Split('.')[0].Split(',')[0], text, StringComparison.Ordinal);
        Assert.Contains("It is no certificate", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_packing_sheet_finds_what_waits()
    {
        var waiting = PackingSheet.Waiting(Demo);
        Assert.Contains(waiting, package => package.IsOpen);
        Assert.Contains(waiting, package => package.Container.Kind == "bag-bulk");
        Assert.DoesNotContain(waiting, package => package is { IsOpen: false, Container.Kind: "jar-473" });
        var text = await Rendered.TextOf(PackingSheet.Of(Demo, waiting, PaperSize.Letter, Today));
        Assert.All(waiting, package => Assert.Contains(package.Id.ToString(), text, StringComparison.Ordinal));
        Assert.Contains("Never heat a closed jar", text, StringComparison.Ordinal);
    }

    /// <summary>Nothing is drawn off the page or into its margin, whatever the names.</summary>
    [Fact]
    public async Task Nothing_leaves_the_margins()
    {
        var made = new OneCellar();
        for (var n = 0; n < 12; n++)
            made.Add(new AddRequest(new string((char)('A' + n), 90) + " \u202Eback and 漢字", Net: "50g", Place: $"House / {new string('p', 80)}{n}", Note: new string('n', 200)));
        made.Say("2026-05-01", new Fact.PackageLooked(made.Cellar.Here.First().Id, [Finding.Bulge], Text: new string('x', 300)));
        var cellar = made.Cellar;
        Package[] all = [.. cellar.Here];
        foreach (var printed in new[]
        {
            RoundSheet.Of(DueList.Of(cellar, Today, 60), PaperSize.A4, Today), HandOver.Of(cellar, PaperSize.A4, new HandOverAsk(new string('w', 200)), Today),
            ClaimList.Of(cellar, all, PaperSize.Letter, null, Today, _ => null), Provenance.Of(cellar, [all[0]], PaperSize.A4, Today), PackingSheet.Of(cellar, all, PaperSize.A4, Today),
        })
        {
            var page = await Rendered.Of(printed);
            for (var n = 0; n < page.Pages.Count; n++)
            {
                var ink = page.Ink(n, 0, 0, 400, 400)!.Value;
                var (wide, high) = (page.Pages[n].Width / Rendered.PixelsPerMm, page.Pages[n].Height / Rendered.PixelsPerMm);
                Assert.True(ink.Left >= 14.5 && ink.Top >= 14.5 && ink.Right <= wide - 14.5 && ink.Bottom <= high - 14, string.Create(CultureInfo.InvariantCulture, $"page {n + 1}: {ink} on {wide} × {high}"));
            }
        }
    }

    [Fact]
    public void The_same_paper_is_the_same_bytes() =>
        Assert.Equal(HandOver.Of(Demo, PaperSize.A4, new HandOverAsk(), Today).Bytes, HandOver.Of(Demo, PaperSize.A4, new HandOverAsk(), Today).Bytes);

    private static byte[] Black(int width, int height)
    {
        using var bitmap = new SKBitmap(width, height);
        bitmap.Erase(SKColors.Black);
        using var data = bitmap.Encode(SKEncodedImageFormat.Jpeg, 90);
        return data.ToArray();
    }

    private static string Plain(string text) => string.Join(' ', text.Split((char[])[' ', '\n', '\r', '\f'], StringSplitOptions.RemoveEmptyEntries));
}
