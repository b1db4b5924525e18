using Undercroft.Importing.Rows;
using Undercroft.Importing.Sheets;
using Undercroft.Tests.House;
using Xunit;

namespace Undercroft.Tests.Importing;

/// <summary>Badly behaved sheets of own invention, each with its account counted by hand: 1 oz = 28.349523125 g, 1 lb = 453.59237 g.</summary>
public sealed class FixtureTests
{
    internal static readonly DateOnly Today = new(2026, 11, 24);

    private const double Ounce = 28.349523125;
    private const double Pound = 453.59237;

    /// <summary>File, data rows, understood, packages, grams read, grams added, rows to ask about.</summary>
    public static TheoryData<string, int, int, int, double, double, int[]> Sheets => new()
    {
        // 50 g + 8 oz + 1 lb; the last has no weight and nobody says that it should.
        { "plain.csv", 4, 4, 4, 50 + (8 * Ounce) + Pound, 50 + (8 * Ounce) + Pound, [] },

        // "8oz jar" and "4 pint jars" are volumes, "??" is asked, "50" has no unit, 12/04/2013 reads both ways.
        { "quantities.csv", 10, 8, 14, 100 + Pound + (8 * Ounce) + 16 + 1234.5 + (Pound / 2), 100 + Pound + (8 * Ounce) + 16 + 1234.5 + (Pound / 2), [6, 11] },

        // Windows-1252, decimal commas, title lines, a sum that counts every package.
        { "german.csv", 4, 4, 7, 1600.5, 1600.5, [] },

        // Ditto marks as lone quotation marks; 25/12/2013 decides the order of the whole column.
        { "ditto.csv", 5, 5, 6, (8 + 4 + 8 + 2) * Ounce + Pound, (8 + 4 + 8 + 2) * Ounce + Pound, [] },

        // A head that comes twice, makers beside blends, a day that does not exist.
        { "american.csv", 5, 4, 12, 150 + (2 * Ounce) + 200 + (8 * Ounce) + 250, 150 + (2 * Ounce) + 200 + (8 * Ounce) + 250, [8] },

        // Two rows of heads; 490 − 405 = 85 g; opened before bought; 700 − 410 is not 227.
        { "twoheads.csv", 3, 1, 3, 113 + 85 + 227, 113 + 85 + 227, [4, 5] },

        // Headings give places; less than nothing and a wish are held back; the wish's 2 oz are read and not added.
        { "sections.csv", 5, 3, 3, 150 + (4 * Ounce) + (2 * Ounce), 150 + (4 * Ounce), [10, 13] },

        // A column of happenings: what went is no package, and is held back.
        { "inandout.csv", 3, 2, 2, 350, 300, [3] },

        // A known head for the number, and one for the weight that is known or not.
        { "omosa.tsv", 2, 2, 3, 200, 200, [] },
        { "heft.csv", 3, 3, 6, 200 + (6 * Ounce), 200 + (6 * Ounce), [] },

        // 1 × 50 + 3 × 100 + 3 × 25 + 2 × 50: numbers with their open ones beside them.
        { "bystate.csv", 4, 4, 9, 525, 525, [] },

        // What is left is said in words: of the first two how much is asked, 100 + 8 oz + 3 × 1.5 oz are there.
        { "leftinwords.csv", 3, 1, 6, 100 + (12.5 * Ounce), 100 + (12.5 * Ounce), [2, 3] },

        // A running number counts rows, not packages.
        { "running.csv", 4, 4, 4, 225, 225, [] },

        // "x2" is a count, in a column that has no head.
        { "timestwo.csv", 3, 3, 4, 250 + (8 * Ounce), 250 + (8 * Ounce), [] },

        // What they are called stands under "contents"; 468.5 − 355.5 = 113 g; an empty jar is no package.
        { "jarbyjar.csv", 4, 3, 3, 326, 326, [5] },

        // Index cards: three lines each.
        { "cards.csv", 2, 2, 2, 100 + (8 * Ounce), 100 + (8 * Ounce), [] },
        { "contents.csv", 3, 3, 3, 23 * Ounce, 23 * Ounce, [] },

        // "three" and "a dozen" are read; of "2-3" two are imported and of "2+1" one, and both are asked.
        { "dozen.csv", 4, 2, 18, 400 + (18 * Ounce), 400 + (18 * Ounce), [4, 5] },

        // "EA" counts, so the weight stands in the name: 4 × 50 and 2 × 100 g.
        { "onhand.csv", 3, 3, 7, 400 + (24 * Ounce), 400 + (24 * Ounce), [] },

        // A bag of 8 by 10 is one bag.
        { "bestbefore.csv", 3, 3, 3, 150 + (2 * Ounce), 150 + (2 * Ounce), [] },

        // No head at all, three facts in one cell.
        { "noheader.csv", 3, 3, 4, 50 + (8 * Ounce) + 200, 50 + (8 * Ounce) + 200, [] },
        { "onecolumn.txt", 4, 3, 5, 100 + (8 * Ounce) + 100, 100 + (8 * Ounce) + 100, [4] },
        { "lines.txt", 5, 5, 7, 150 + (Pound / 2) + (2 * Ounce) + 20, 150 + (Pound / 2) + (2 * Ounce) + 20, [] },

        // UTF-16 without a mark, tabs, Cyrillic; "??" is asked.
        { "russian.tsv", 3, 2, 4, 200, 200, [4] },

        // UTF-16 with the big end first, full-width digits.
        { "japanese.csv", 2, 2, 3, 200, 200, [] },
        { "french.csv", 4, 4, 7, 100 + 1500 + 300 + 125, 100 + 1500 + 300 + 125, [] },
        { "spanish.csv", 4, 4, 6, 1250 + 250 + 150 + (Pound / 2), 1250 + 250 + 150 + (Pound / 2), [] },

        // The total of 500 g is the sum of the cells as they stand, so each weight is of all packages of its row.
        { "totals.csv", 3, 3, 6, 500, 500, [] },

        // The total is asked about, and is no data row.
        { "wrongtotals.csv", 2, 2, 2, 150, 150, [4] },

        // Formulas are text; a total that is a name; absurd amounts are held back.
        { "hostile.csv", 6, 2, 5, 150, 150, [3, 5, 6, 7] },

        // 20 oz in a pint jar, a label twice and opened before sealed, a date to come.
        { "twins.csv", 5, 2, 5, (4 + 3 + 20 + 2 + 2) * Ounce, (4 + 3 + 20 + 2 + 2) * Ounce, [4, 5, 6] },

        // Equal rows side by side are several packages; one far from them may be written twice.
        { "alike.csv", 5, 4, 5, 300, 300, [6] },

        // Five times 8 oz is not 44 oz.
        { "ounces.csv", 3, 2, 10, (5.25 + 4 + 40) * Ounce, (5.25 + 4 + 40) * Ounce, [4] },

        // Units in a column of their own; 40 g are left; "half" is no amount; 250 g in "2 pint jars" of each or of all.
        { "unitbeside.csv", 5, 3, 8, (2 * Ounce) + 40 + Pound + 250, (2 * Ounce) + 40 + Pound + 250, [5, 6] },

        // Finished ones are recorded and not on the shelf.
        { "status.csv", 6, 5, 4, 50 + 50 + 100 + 25, 50 + 50 + 100 + 25, [5] },

        // "(2) 8oz jars" cannot hold 8 oz each, so that is the weight of both; "pint jars" are several, and nobody says how many.
        { "groups.csv", 4, 3, 6, (8 * Ounce) + Pound + (1.5 * Ounce) + 100, (8 * Ounce) + Pound + (1.5 * Ounce) + 100, [7] },
        { "jarsizes.csv", 4, 4, 5, (16 + 3.5 + 8) * Ounce, (16 + 3.5 + 8) * Ounce, [] },

        // A column for every sort: 2 + 3, nothing of what is on order, 1 + 1 and an "x" that counts nothing.
        { "sorts.csv", 3, 1, 7, 150, 150, [3, 4] },

        // The title gives the unit of bare numbers; sums in one cell count once; a dash is blank; 1-2 oz has 1.5 oz in the middle.
        { "inwords.csv", 6, 6, 10, (8 + 1.5) * Ounce + 150 + 100 + 100, (8 + 1.5) * Ounce + 150 + 100 + 100, [] },

        // One row for every question of the queue; only the first of the twins is understood, and less than nothing is held back.
        { "queue.csv", 11, 1, 12, 500 + Pound, 500 + Pound, [2, 3, 4, 5, 6, 7, 9, 10, 11, 12, 13] },
        { "ragged.csv", 4, 4, 4, 250, 250, [] },

        // "1 250" alone in its cell is one number; "inconnue" is no date and no doubt.
        { "cave.csv", 4, 4, 9, 200 + 100 + 1250 + 125, 200 + 100 + 1250 + 125, [] },

        // Windows-1250; "3 słoiki" counts; "otwarta" as the whole remark is open.
        { "piwnica.csv", 4, 4, 7, 100 + 100 + 750 + 50, 100 + 100 + 750 + 50, [] },

        // Shift-JIS; a column of counts in two words for containers; a year of an era; "?" is asked.
        { "tansu.csv", 4, 3, 7, 100 + 100 + 120, 100 + 100 + 120, [5] },

        // GB18030 and EUC-KR.
        { "guizi.csv", 3, 3, 6, 350, 350, [] },
        { "seorap.csv", 2, 2, 3, 150, 150, [] },

        // One pound in two quart jars; "half full" is no amount; "last summer" counts from the day of writing.
        { "threefacts.csv", 6, 4, 10, 100 + Pound + 100 + 200 + (3.5 * Ounce), 100 + Pound + 100 + 200 + (3.5 * Ounce), [3, 5] },

        // "Sealed tins" and "open tins" count; what stands under jars is in jars, and how many is not said.
        { "states.csv", 3, 1, 9, 20 * Ounce, 20 * Ounce, [3, 4] },

        // 50 g or 100 g; "2" of what; "a few tins"; "last year"; of two tins in one cell the second is open.
        { "vague.csv", 10, 6, 11, 50 + (5.5 * Ounce) + 75 + (1.5 * Pound) + 50 + 120, 50 + (5.5 * Ounce) + 75 + (1.5 * Pound) + 50 + 120, [4, 5, 6, 9] },

        // "Peso per confezione" is of each; two of 100 g are not 100 g.
        { "cantina.csv", 3, 2, 6, 150 + 200 + 1500, 150 + 200 + 1500, [3] },

        // No head and no unit: few are counted, of the others the unit is asked.
        { "bare.csv", 4, 0, 8, 0, 0, [1, 2, 3, 4] },

        // Full, empty and net weights: 700 − 450 is not 200; 389.4 − 250.1 = 139.3 g; a label twice; 500 g in 473 ml.
        { "tares.csv", 5, 2, 5, 162.5 + 200 + 139.3 + 140 + 500, 162.5 + 200 + 139.3 + 140 + 500, [3, 5, 6] },

        // What is wished for is read and not added; what is gone is neither; half of it is asked.
        { "moods.csv", 9, 6, 7, 50 + 100 + 100 + 50 + 50, 50 + 100 + 100, [5, 8, 9] },

        // A row of units under the head, and the form of the dates.
        { "unitrow.csv", 4, 4, 4, 26 * Ounce, 26 * Ounce, [] },

        // Every column is a row.
        { "onitsside.csv", 3, 3, 3, 150 + (8 * Ounce), 150 + (8 * Ounce), [] },

        // 1 lb and 4 oz are one weight; whether it is in each of the jars or in all is asked.
        { "poundsounces.csv", 3, 1, 7, (1.25 * Pound) + (8 * Ounce) + (2 * Pound), (1.25 * Pound) + (8 * Ounce) + (2 * Pound), [2, 4] },

        // "3x 12 €" is a price, ½ Pfund is 250 g.
        { "prices.tsv", 6, 6, 8, 3480, 3480, [] },

        // "50+50+100" under grams are three; "halbe Dose" is no amount; "Jan 20" reads two ways.
        { "packungen.csv", 7, 5, 14, 100 + 100 + 1500 + 100 + 200 + 200, 100 + 100 + 1500 + 100 + 200 + 200, [6, 8] },

        // A bare number beside "tin 50g" counts tins; "9/15" may be a month of a year; ratings are no fractions of what is left.
        { "instock.csv", 7, 6, 13, 100 + (62 * Ounce), 100 + (62 * Ounce), [3] },

        // A column for every year: counted, and of what the year is, is asked.
        { "years.csv", 3, 0, 10, 0, 0, [2, 3, 4] },

        // "halvfull" in the remark is asked.
        { "antall.csv", 3, 2, 6, 200 + (4.5 * Ounce), 200 + (4.5 * Ounce), [3] },

        // "Unopened" and "opened" count, though never more than one is open.
        { "unopened.csv", 3, 3, 10, 300 + (8.75 * Ounce), 300 + (8.75 * Ounce), [] },

        // "2 tins + 1 open" are three; of "1/2 tin" and "2 1/2 tins" one is not full.
        { "incellar.csv", 7, 5, 18, 40.75 * Ounce, 40.75 * Ounce, [7, 8] },

        // KOI8-R; "grams in a tin"; 1,5 tins are asked.
        { "koi8.csv", 3, 2, 7, 450, 450, [4] },

        // A log: what was opened, finished or sold adds no package.
        { "log.csv", 5, 2, 3, 400, 200, [5, 6, 7] },

        // "How full": three quarters and a half are asked, what is empty is gone.
        { "fullness.csv", 4, 2, 3, 0, 0, [3, 4] },

        // Units beside the amounts: "tins (50g)" and "pcs" are counted.
        { "unitcolumn.csv", 5, 5, 8, 50 + (2 * Ounce) + Pound + 150, 50 + (2 * Ounce) + Pound + 150, [] },

        // The total less what is jarred is in the tins.
        { "jarred.csv", 3, 3, 10, 28 * Ounce, 28 * Ounce, [] },

        // Dates with commas, ordinals and without any mark; "1.000,5 g".
        { "weights.csv", 8, 6, 8, 50 + (3.53 * Ounce) + 1234 + 1000.5 + Ounce + 100, 50 + (3.53 * Ounce) + 1234 + 1000.5 + Ounce + 100, [6, 8] },

        // "15-ene-2018", "c/u", shelves by number.
        { "estante.csv", 3, 2, 6, 350, 350, [4] },

        // Containers in the column of counts: one where none is counted, three of which one is open; an empty tin of 0 g is asked.
        { "lagerung.csv", 5, 4, 7, 150 + 220 + 300 + 1000, 150 + 220 + 300 + 1000, [8] },

        // "Number 4, remaining 2" leaves two; "5 oz" of one is left; "all gone" is gone.
        { "remaining.csv", 4, 4, 5, 300 + (5 * Ounce), 300 + (5 * Ounce), [] },

        // "50g缶" and "8オンス瓶": amount and container without a gap.
        { "kikaku.csv", 3, 3, 5, 250, 250, [] },

        // "Qtà" and "Qté" count; "kg 0,5"; "oui (06/2019)" opens in June.
        { "formato.csv", 4, 4, 5, 940, 940, [] },
        { "ouverte.csv", 4, 4, 7, 240, 240, [] },

        // Containers in the remarks: 16 oz do not go into one pint; "15-Jan" reads two ways.
        { "innotes.csv", 6, 5, 7, 44.25 * Ounce, 44.25 * Ounce, [3] },

        // 2×50, 16 g left in each of 3, a dozen of 50, two or three tins, 1250, half a metric pound; of the last the unit is asked, and one is empty.
        { "kellerschrank.csv", 8, 6, 22, 100 + 48 + 600 + 1250 + 250, 100 + 48 + 600 + 1250 + 250, [8, 12] },

        // Sizes only in the remarks: 12×2 oz, 2×50 g, 6×1.75 oz of which 2 are open, 3×3.5 oz, 24×50 g; several amounts in one remark are asked.
        { "laborday.csv", 9, 3, 52, (24 + 10.5 + 10.5) * Ounce + 100 + 1200, (24 + 10.5 + 10.5) * Ounce + 100 + 1200, [2, 3, 4, 5, 8, 9] },

        // Une douzaine, une demi-livre of which 80 g are left; "une dizaine" and "il en reste la moitié" are asked.
        { "etagere.csv", 6, 3, 21, 600 + 200 + 80 + 500 + 50 + 1500, 600 + 200 + 80 + 500 + 50 + 1500, [4, 7, 8] },

        // Mezza dozzina, un paio, an etto of which 60 g are left, mezzo chilo; of "3x50" the unit is asked.
        { "dozzina.csv", 6, 4, 15, 300 + 400 + 200 + 60 + 500, 300 + 400 + 200 + 60 + 500, [2, 7] },

        // "1 ons" is a hundred grams or an ounce, and asked; of two tins one is empty.
        { "dozijn.csv", 5, 3, 19, 600 + 250 + 48 + 50, 600 + 250 + 48 + 50, [3, 6] },
        { "dusin.csv", 5, 4, 19, 600 + 200 + 250 + 48 + 50, 600 + 200 + 250 + 48 + 50, [3] },
        { "dyuzhina.csv", 7, 4, 21, 600 + 200 + 500 + 48 + 40 + (1.5 * Pound) + 50, 600 + 200 + 500 + 48 + 40 + (1.5 * Pound) + 50, [3, 6, 8] },

        // Every amount of these four stands in another column or script: dozens, two or three, of each, half a kilo.
        { "apothiki.csv", 4, 3, 18, 600 + 200 + 500 + 48, 600 + 200 + 500 + 48, [3] },
        { "oshiire.csv", 6, 4, 24, 600 + 200 + 100 + 150 + 32 + 200, 600 + 200 + 100 + 150 + 32 + 200, [3, 4] },
        { "shufang.csv", 6, 4, 21, 600 + 100 + 250 + 300 + 16 + 500, 600 + 100 + 250 + 300 + 16 + 500, [3, 6] },
        { "khizana.csv", 4, 2, 18, 600 + 200 + 500 + 48, 600 + 200 + 500 + 48, [3, 5] },

        // A column for every jar: three of 4 oz of which one is open, two of 113 g, 8 oz and the 16 g left of another; three of which the unit is asked.
        { "perjar.csv", 4, 2, 10, (20 * Ounce) + 226 + 16, (20 * Ounce) + 226 + 16, [3, 5] },

        // A title is no package; what was given away or smoked of some is asked.
        { "stash.txt", 6, 3, 6, 200 + (Pound / 2) + (8 * Ounce), 200 + (Pound / 2) + (8 * Ounce), [1, 4, 5] },

        // Numbers under "Open?" and "Gone?" are of the row's packages; what is struck out is held back; 8 oz are open.
        { "xmarks.csv", 8, 7, 9, 400 + (8 * Ounce) + 50, 400 + (8 * Ounce), [8] },

        // Of 3×50 one is open with 20 g left; "nearly empty" is not empty.
        { "loft.csv", 9, 7, 15, 100 + 120 + (Pound / 4) + (2.5 * Ounce) + 50 + 40 + 50 + 200 + (3 * Ounce) + 55, 100 + 120 + (Pound / 4) + (2.5 * Ounce) + 50 + 40 + 50 + 200 + (3 * Ounce) + 55, [7, 8] },
        { "armario.csv", 5, 3, 13, 300 + 500 + 48 + 30, 300 + 500 + 48 + 30, [2, 3] },

        // What happened stands under "What", what it is called under "Blend"; a running total is no amount.
        { "ledgerlike.csv", 5, 3, 4, 250 + (10 * Ounce), 200 + (8 * Ounce), [4, 5] },
    };

    [Theory]
    [MemberData(nameof(Sheets))]
    public void A_messy_sheet_gives_the_account_counted_by_hand(string file, int rows, int understood, int packages, double gramsRead, double gramsAdded, int[] asked)
    {
        var reading = Read(file);
        Assert.Equal(asked, reading.Doubts.Select(doubt => doubt.Row).Order());
        Assert.Equal(rows, reading.RowsRead);
        Assert.Equal(understood, reading.RowsUnderstood);
        Assert.Equal(rows - understood, reading.RowsDoubtful);
        Assert.Equal(packages, reading.Packages);
        Assert.Equal(gramsRead, reading.GramsRead, 6);
        Assert.Equal(gramsAdded, reading.GramsAdded, 6);
    }

    [Fact]
    public void Every_fixture_has_an_account()
    {
        var named = Sheets.Select(row => row.Data.Item1).Order();
        Assert.Equal(Directory.GetFiles(Folder).Select(Path.GetFileName).Order(), named);
    }

    [Fact]
    public void A_ditto_mark_takes_what_stands_above()
    {
        var rows = Read("ditto.csv").Rows;
        Assert.Equal("Harbour Flake", rows[2].Blend!.Value);
        Assert.Equal(Sureness.Decided, rows[2].Blend!.Sure);
        Assert.Equal(["closet", "bottom shelf"], rows[3].Place!.Value);
        Assert.Equal("2013-12-04", rows[0].DateOf(Undercroft.Importing.Cells.DateRole.Sealed)!.Edtf);
        Assert.Equal("Old \"Mill\" Ribbon", rows[4].Blend!.Value);
    }

    [Fact]
    public void Formulas_stay_text()
    {
        var rows = Read("hostile.csv").Rows;
        Assert.Equal("=HYPERLINK(\"http://example.invalid\")", rows[0].Blend!.Value);
        Assert.Contains("=1+1", rows[0].Notes);
    }

    [Fact]
    public void Every_doubt_names_its_row_and_its_words()
    {
        var doubts = Read("twins.csv").Doubts;
        Assert.Contains("more than a container of 473 ml holds", doubts[0].Reason, StringComparison.Ordinal);
        Assert.Contains("label '2' stands in row 3", doubts[1].Reason, StringComparison.Ordinal);
        Assert.Contains("opened before it was sealed", doubts[1].Reason, StringComparison.Ordinal);
        Assert.Contains("future", doubts[2].Reason, StringComparison.Ordinal);
        Assert.Equal("Old Mill", doubts[2].Cells[1]);
    }

    internal static string Folder => Path.Combine(Repository.Root, "tests", "Undercroft.Tests", "Importing", "Fixtures");

    internal static byte[] Bytes(string file) => File.ReadAllBytes(Path.Combine(Folder, file));

    internal static SheetReading Read(string file) => SheetUnderstanding.Of(SheetReader.Read(Bytes(file)), Today);
}
