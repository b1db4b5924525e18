using System.IO.Compression;
using System.Text;
using Undercroft.Importing.Cells;
using Undercroft.Importing.Rows;
using Undercroft.Importing.Sheets;
using Undercroft.Ledger;
using Xunit;

namespace Undercroft.Tests.Importing;

/// <summary>Files that are no sheets, that are damaged, or that want to do harm: refused in words, and nothing but the refusal is ever thrown.</summary>
public sealed class HostileTests
{
    private const string Typed = " \t\n,;\"'0123456789.xgozjar/-?~$";

    [Fact]
    public void A_bomb_posing_as_a_workbook_is_refused()
    {
        var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            WorkbookMaker.Put(zip, "xl/workbook.xml", "<workbook xmlns:r=\"r\"><sheets><sheet name=\"a\" r:id=\"rId1\"/></sheets></workbook>");
            using var part = zip.CreateEntry("xl/worksheets/sheet1.xml").Open();
            var space = Encoding.UTF8.GetBytes(new string(' ', 10_000));
            part.Write("<worksheet><sheetData>"u8);
            for (var i = 0; i < 8000; i++)
                part.Write(space);
        }

        Assert.Contains("unpacks", Refused(stream.ToArray()), StringComparison.Ordinal);
    }

    [Fact]
    public void Too_many_parts_are_refused()
    {
        var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            for (var i = 0; i < 2100; i++)
                zip.CreateEntry($"xl/part{i}.xml");
        }

        Assert.Contains("parts", Refused(stream.ToArray()), StringComparison.Ordinal);
    }

    [Fact]
    public void An_entity_bomb_is_refused()
    {
        var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
            WorkbookMaker.Put(zip, "xl/workbook.xml", "<!DOCTYPE w [<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;\">]><workbook>&b;</workbook>");
        Refused(stream.ToArray());
    }

    [Fact]
    public void A_locked_workbook_says_so()
    {
        byte[] bytes = [0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1, .. new byte[600], .. Encoding.Unicode.GetBytes("EncryptedPackage"), .. new byte[100]];
        Assert.Contains("password", Refused(bytes), StringComparison.Ordinal);
    }

    [Fact]
    public void An_open_document_sheet_says_what_to_do()
    {
        var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            WorkbookMaker.Put(zip, "mimetype", "application/vnd.oasis.opendocument.spreadsheet");
            WorkbookMaker.Put(zip, "content.xml", "<office:document-content/>");
        }

        var refused = Refused(stream.ToArray());
        Assert.Contains(".ods", refused, StringComparison.Ordinal);
        Assert.Contains("save it as .xlsx or .csv", refused, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("%PDF-1.7 something", "PDF")]
    [InlineData("\u0089PNG\r\n\u001a\n", "picture")]
    [InlineData("<html><table></table></html>", "web page")]
    [InlineData("", "empty")]
    [InlineData("\0\0\0\0", "empty")]
    public void What_is_no_sheet_is_named(string text, string word) => Assert.Contains(word, Refused(Encoding.Latin1.GetBytes(text)), StringComparison.Ordinal);

    [Fact]
    public void Limits_of_size_rows_and_columns_hold()
    {
        Assert.Contains("MB", Assert.Throws<Refusal>(() => SheetReader.Read(new byte[200], new SheetLimits(Bytes: 100))).Message, StringComparison.Ordinal);
        var rows = Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat("a,b\n", 50)));
        Assert.Contains("40 rows", Assert.Throws<Refusal>(() => SheetReader.Read(rows, new SheetLimits(Rows: 40))).Message, StringComparison.Ordinal);
        Assert.Contains("columns", Assert.Throws<Refusal>(() => SheetReader.Read("a,b,c,d,e\n"u8.ToArray(), new SheetLimits(Columns: 4))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_workbook_cut_short_anywhere_is_refused_or_read()
    {
        var whole = Workbook();
        for (var length = 1; length < whole.Length; length += 7)
            OnlyRefusals(whole[..length]);
        Assert.Contains("damaged", Refused(whole[..(whole.Length / 2)]), StringComparison.Ordinal);
    }

    [Fact]
    public void Random_bytes_throw_nothing_but_the_refusal()
    {
        var random = new Random(20261124);
        for (var i = 0; i < 3000; i++)
        {
            var bytes = new byte[random.Next(0, 400)];
            random.NextBytes(bytes);
            if (i % 3 == 1 && bytes.Length >= 4)
                "PK\u0003\u0004"u8.CopyTo(bytes);
            for (var k = 0; k < bytes.Length && i % 3 == 2; k++)
                bytes[k] = (byte)Typed[bytes[k] % Typed.Length];

            OnlyRefusals(bytes);
        }
    }

    [Fact]
    public void Mutated_sheets_throw_nothing_but_the_refusal()
    {
        var random = new Random(7420);
        var seeds = Directory.GetFiles(FixtureTests.Folder).Order().Select(File.ReadAllBytes).Append(Workbook()).ToArray();
        for (var i = 0; i < 2000; i++)
        {
            var bytes = seeds[i % seeds.Length].ToList();
            for (var n = random.Next(1, 6); n > 0; n--)
            {
                var at = random.Next(bytes.Count);
                switch (random.Next(3))
                {
                    case 0: bytes[at] = (byte)random.Next(256); break;
                    case 1: bytes.RemoveRange(at, Math.Min(bytes.Count - at - 1, random.Next(1, 30))); break;
                    default: bytes.InsertRange(at, bytes.GetRange(random.Next(bytes.Count / 2), Math.Min(bytes.Count / 2, random.Next(1, 30)))); break;
                }
            }

            OnlyRefusals([.. bytes]);
        }
    }

    [Fact]
    public void Cells_of_any_characters_throw_nothing()
    {
        const string Alphabet = "0123456789.,/-–x×*'\"½¼()[]~?<>+=:;&@#$€ \t\ngozlbtinjarpintMarSpring年月１２АбХ\u0301\uD83D";
        var random = new Random(15);
        for (var i = 0; i < 60_000; i++)
        {
            var text = string.Concat(Enumerable.Range(0, random.Next(0, 24)).Select(_ => Alphabet[random.Next(Alphabet.Length)]));
            QuantityScan.Of(text, i % 2 == 0 ? CellSetting.Open : new CellSetting(1, 1, true, true, "EUR", i % 3 == 0));
            DateText.Read(text, FixtureTests.Today, serial: true);
            PlaceWords.Path(text);
        }
    }

    [Fact]
    public void A_hundred_thousand_rows_are_all_accounted_for()
    {
        var text = new StringBuilder("Blend,Weight,Container,Made\n");
        for (var i = 0; i < 100_000; i++)
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"Blend {i % 700},{20 + (i % 200)} g,tin,{2000 + (i % 20)}\n");
        var reading = SheetUnderstanding.Of(SheetReader.Read(Encoding.UTF8.GetBytes(text.ToString())), FixtureTests.Today);
        Assert.Equal((100_000, 100_000, 100_000), (reading.RowsRead, reading.RowsUnderstood, reading.Packages));
        Assert.Equal(500 * Enumerable.Range(20, 200).Sum(), reading.GramsAdded, 3);
    }

    // Each of these broke a reader once.
    [Theory]
    [InlineData("Tare|Container|Notes|Opened\nquart|0 fl oz|2015 ' gr|\n")]
    [InlineData("Tinned|Blend|Price|Amount\n2015|Fen|$9.50|1.234,51.234,5 fl oz\n16|Moss||jar 5\n")]
    [InlineData("Blend,Amount\nFen,> 999999999999999999999999999999999999 1.234,5 lb\n")]
    [InlineData("Blend,Tinned\nFen,early spring 31/02/2015 +\nMoss,after spring 1931 - 2015\n")]
    [InlineData("Left,Total\n$9.50 gr 12/04/2013 ,summer two 12/04/2013 \nGläser 5smoked ,- 2013 \n")]
    public void What_broke_a_reader_once_is_read_and_can_be_entered(string text)
    {
        var reading = SheetUnderstanding.Of(SheetReader.Read(Encoding.UTF8.GetBytes(text)), FixtureTests.Today);
        Assert.InRange(reading.GramsAdded, 0, reading.GramsRead + 1e-6);
        var events = Undercroft.Importing.Entering.RowEvents.Of(Cellar.Empty, reading, reading.Rows, "drawn.csv", "00", DateTimeOffset.UnixEpoch);
        Rules.Check(Cellar.Empty, events);
    }

    private static byte[] Workbook() => new WorkbookMaker().Sheet("Cellar",
    [
        ["Blend", "Weight", "Bought", "Place"],
        ["Harbour Flake", "2x50g", new DateOnly(2015, 3, 1), "closet / top shelf"],
        ["Evening Ribbon", 50, "ca. 2012", null],
    ],
    ["D2:D3"]).Bytes();

    private static string Refused(byte[] bytes) => Assert.Throws<Refusal>(() => SheetReader.Read(bytes)).Message;

    private static void OnlyRefusals(byte[] bytes)
    {
        try
        {
            SheetUnderstanding.Of(SheetReader.Read(bytes), FixtureTests.Today);
        }
        catch (Refusal refusal)
        {
            Assert.NotEmpty(refusal.Message);
        }
    }

    [Fact]
    public void A_mark_below_a_gap_says_the_same_as_the_row_above_the_gap()
    {
        var reading = SheetUnderstanding.Of(SheetReader.Read("Blend,Count,Weight\nBirch Twist,3,50 g\nFen,2,25 g\nWillow No. 4,5,100 g\n\ndo.,5,250 g\n"u8.ToArray()), FixtureTests.Today);
        Assert.Equal("Willow No. 4", reading.Rows[^1].Blend?.Value);
    }

    [Fact]
    public void A_list_with_a_nought_has_no_row_of_no_packages()
    {
        var reading = SheetUnderstanding.Of(SheetReader.Read("jars three |\n, |a ||b |before ||0 |summer 1,234 \n|12/04/2013 2 \nbag 缶|c each \n"u8.ToArray()), FixtureTests.Today);
        Assert.All(reading.Rows, row => Assert.All(row.Groups, group => Assert.True(group.Count >= 1)));
    }
}
