using Undercroft.Demo;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger;
using Undercroft.Printing;
using Undercroft.Tests.Forecasts;
using Xunit;

namespace Undercroft.Tests.Printing;

/// <summary>Labels are judged on the rendered page: what a scanner reads and where ink stands, not what the program meant to draw.</summary>
public sealed class LabelTests
{
    private static readonly DateOnly Today = new(2026, 5, 16);

    // Half of the slack that a printer has anyway, and one pixel of the rendering.
    private const double ToleranceMm = 0.15;

    public static TheoryData<string> Sheets => [.. LabelSheet.All.Select(sheet => sheet.Code)];

    [Theory]
    [MemberData(nameof(Sheets))]
    public async Task Every_code_on_the_sheet_reads_as_its_package(string code)
    {
        var cellar = Cellar.Fold(DemoHousehold.Events());
        var sheet = LabelSheet.Of(code);
        Package[] packages = [.. cellar.Here.Take(sheet.Count - 2)];
        var page = await Rendered.Of(Labels.Of(cellar, packages, new LabelAsk(sheet), Today));
        for (var n = 0; n < 2 * packages.Length; n++)
        {
            var (x, y) = sheet.Corner(n % sheet.Count);
            Assert.Equal(packages[n / 2].Id.ToString(), page.CodeAt(n / sheet.Count, x, y, sheet.WidthMm, sheet.HeightMm));
        }
    }

    /// <summary>The square of the code begins one padding and four modules in from the label's corner, whatever label and however shifted.</summary>
    [Theory]
    [MemberData(nameof(Sheets))]
    public async Task Millimetres_are_exact_and_the_shift_moves_all_of_it(string code)
    {
        var cellar = Cellar.Fold(DemoHousehold.Events());
        var sheet = LabelSheet.Of(code);
        const double Right = 1.5;
        const double Down = -0.4;
        var page = await Rendered.Of(Labels.Of(cellar, [.. cellar.Here.Take(sheet.Count)], new LabelAsk(sheet, RightMm: Right, DownMm: Down, Parts: LabelParts.Body), Today));
        Assert.Equal(sheet.Paper.WidthMm, page.Pages[0].Width / Rendered.PixelsPerMm, ToleranceMm);
        Assert.Equal(sheet.Paper.HeightMm, page.Pages[0].Height / Rendered.PixelsPerMm, ToleranceMm);
        var side = Math.Min(sheet.HeightMm - (2 * sheet.PaddingMm), 25);
        var quiet = side * 4 / 29; // a code of five characters has 21 modules, and four quiet ones on each side: ISO/IEC 18004, version 1
        foreach (var label in new[] { 0, sheet.Columns - 1, sheet.Count - 1 })
        {
            var (x, y) = (sheet.LeftMm + (label % sheet.Columns * sheet.StepAcrossMm), sheet.TopMm + (label / sheet.Columns * sheet.StepDownMm));
            var ink = page.Ink(0, x + Right + sheet.PaddingMm, y + Down + sheet.PaddingMm, side, side)!.Value;
            Assert.Equal(x + Right + sheet.PaddingMm + quiet, ink.Left, ToleranceMm);
            Assert.Equal(y + Down + sheet.PaddingMm + quiet, ink.Top, ToleranceMm);
            Assert.Equal(x + Right + sheet.PaddingMm + side - quiet, ink.Right, ToleranceMm);
        }
    }

    [Theory]
    [MemberData(nameof(Sheets))]
    public void Labels_lie_on_their_sheet_and_not_on_each_other(string code)
    {
        var sheet = LabelSheet.Of(code);
        Assert.True(sheet.StepAcrossMm >= sheet.WidthMm && sheet.StepDownMm >= sheet.HeightMm);
        Assert.Equal(sheet.Paper.WidthMm - sheet.LeftMm, sheet.LeftMm + ((sheet.Columns - 1) * sheet.StepAcrossMm) + sheet.WidthMm, 0.02);
        Assert.Equal(sheet.Paper.HeightMm - sheet.TopMm, sheet.TopMm + ((sheet.Rows - 1) * sheet.StepDownMm) + sheet.HeightMm, 0.02);
    }

    [Fact]
    public async Task A_begun_sheet_goes_on_at_the_label_asked_for()
    {
        var cellar = Cellar.Fold(DemoHousehold.Events());
        var sheet = LabelSheet.Of("a4-3x7");
        Package[] two = [.. cellar.Here.Take(2)];
        var page = await Rendered.Of(Labels.Of(cellar, two, new LabelAsk(sheet, Start: 21, Parts: LabelParts.Body), Today));
        Assert.Equal(2, page.Pages.Count);
        var (x, y) = sheet.Corner(20);
        Assert.True(page.IsBlank(0, 0, 0, 210, y));
        Assert.Equal(two[0].Id.ToString(), page.CodeAt(0, x, y, sheet.WidthMm, sheet.HeightMm));
        (x, y) = sheet.Corner(0);
        Assert.Equal(two[1].Id.ToString(), page.CodeAt(1, x, y, sheet.WidthMm, sheet.HeightMm));
    }

    /// <summary>However hostile a name, nothing leaves its label, and the code still reads.</summary>
    [Theory]
    [InlineData("A name that goes on and on, longer than any label is wide and longer than it is high, and then goes on for the second time")]
    [InlineData("Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichenverzeichnisundweiternochvielweiter")]
    [InlineData("Ночной сорт № 7, крупная резка")]
    [InlineData("Ἑσπέρα καπνός")]
    [InlineData("日本のたばこ 🍂 القهوة")]
    [InlineData("\u202Edesrever\u202C <b>&amp;</b> (\\) %%EOF endstream\r\n\tBT ET")]
    [InlineData("e\u0301\u0323\u0324\u0325 \uD800 half a pair")]
    public async Task No_name_leaves_its_label(string name)
    {
        var made = new OneCellar();
        var id = made.Add(new AddRequest(name, Net: "50g", Sealed: "2015~"));
        var cellar = made.Cellar;
        foreach (var sheet in LabelSheet.All)
        {
            var printed = Labels.Of(cellar, [cellar.Packages[id]], new LabelAsk(sheet, Start: 5), Today);
            var page = await Rendered.Of(printed);
            var bounds = page.Ink(0, 0, 0, 300, 300)!.Value;
            var (first, last) = (sheet.Corner(4), sheet.Corner(5));
            Assert.True(bounds.Left >= first.X && bounds.Top >= first.Y, $"{sheet.Code}: {bounds}");
            Assert.True(bounds.Right <= last.X + sheet.WidthMm && bounds.Bottom <= last.Y + sheet.HeightMm, $"{sheet.Code}: {bounds}");
            Assert.Equal(id.ToString(), page.CodeAt(0, first.X, first.Y, sheet.WidthMm, sheet.HeightMm));
            Assert.Contains(id.ToString(), page.Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Latin_Greek_and_Cyrillic_are_printed_and_what_the_font_lacks_is_said()
    {
        var made = new OneCellar();
        foreach (var name in new[] { "Żółty Šumava", "Ночной", "Νύχτα", "夜のリボン", "ערב" })
            made.Add(new AddRequest(name));
        var printed = Labels.Of(made.Cellar, [.. made.Cellar.Here], new LabelAsk(LabelSheet.All[0], Parts: LabelParts.Body), Today);
        var page = await Rendered.Of(printed);
        foreach (var name in new[] { "Żółty Šumava", "Ночной", "Νύχτα" })
            Assert.Contains(name, page.Text, StringComparison.Ordinal);
        Assert.Equal("ブリボン夜のבערン".EnumerateRunes().Select(rune => rune.ToString()).Where(sign => "夜のリボンערב".Contains(sign, StringComparison.Ordinal)).Distinct().Order(StringComparer.Ordinal), printed.Replaced);
    }

    [Fact]
    public async Task What_nobody_knows_is_blank_and_not_zero()
    {
        var made = new OneCellar();
        var id = made.Add(new AddRequest());
        var printed = Labels.Of(made.Cellar, [made.Cellar.Packages[id]], new LabelAsk(LabelSheet.All[0], Parts: LabelParts.Body), Today);
        var page = await Rendered.Of(printed);
        string[] words = page.Text.Replace(id.ToString(), "", StringComparison.Ordinal).Split((char[])[' ', '\n', '\f', '\r'], StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal("Leaf, not known which Tobacco, not food. Keep from children and pets.".Split(' ').Order(StringComparer.Ordinal), words.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_same_labels_are_the_same_bytes()
    {
        var cellar = Cellar.Fold(DemoHousehold.Events());
        var ask = new LabelAsk(LabelSheet.All[0]);
        Assert.Equal(Labels.Of(cellar, [.. cellar.Here], ask, Today).Bytes, Labels.Of(cellar, [.. cellar.Here], ask, Today).Bytes);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(22, 0)]
    [InlineData(1, 21)]
    [InlineData(1, double.NaN)]
    public void A_start_or_shift_off_the_sheet_is_refused(int start, double shift)
    {
        var cellar = Cellar.Fold(DemoHousehold.Events());
        Assert.Throws<Refusal>(() => Labels.Of(cellar, [.. cellar.Here], new LabelAsk(LabelSheet.All[0], start, shift), Today));
    }
}
