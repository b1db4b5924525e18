using System.Text;
using Undercroft.Importing.Cells;
using Undercroft.Importing.Entering;
using Undercroft.Importing.Rows;
using Undercroft.Importing.Sheets;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Xunit;

namespace Undercroft.Tests.Importing;

/// <summary>
/// A million drawn inputs for each reader in the long run and a fixed sample in the plain one: sheets give rows or a refusal, amounts stay finite and above zero, dates exist and are read by the ledger,
/// and whatever a sheet says can be entered.
/// </summary>
public class FuzzTests
{
    private static readonly bool Long = Environment.GetEnvironmentVariable("UNDERCROFT_LONG") is not null;

    private static readonly string[] Pieces =
    [
        "0", "1", "2", "5", "08", "15", "16", "50", "100", "1.234", "1,234", "1.234,5", "1e9", "999999999999", "2013", "2015", "31/02/2015", "12/04/2013", "03.2014", "41365", "'15", "½", "¼", "1/2", "٥٠", "５０",
        "g", "gr", "oz", "fl oz", "lb", "kg", "ml", "pint", "quart", "x", "×", "*", "@", "ea", "each", "left", "total", "of", "and a half", "or", "to", "-", "–", "+", "/", "~", "<", ">", "?", "??", "(", ")", "\"", "'", ",", ".", ";", ":",
        "jar", "jars", "tin", "tins", "bag", "Dose", "Gläser", "банки", "缶", "open", "sealed", "smoked", "empty", "half full", "some", "couple of", "two", "three", "ca.", "before", "after", "early", "late", "spring", "summer", "Mai", "März",
        "yesterday", "last year", "2 years ago", "between", "circa", "ish", "s", "$9.50", "€", "closet / top shelf", "ditto", "do.", "=1+1", "\t", "\n", "\0", "\uFFFD", "\u200B", "\u202E", "e\u0301", "年", "月", "日", "春", "Total", "Blend", "Amount", "Year",
    ];

    [Fact]
    public void Amounts_stay_finite_whatever_is_written()
    {
        var random = new Random(1);
        CellSetting[] settings = [CellSetting.Open, new(GramsPerUnit: 1), new(GramsPerUnit: UnitWords.OunceGrams), new(MlPerUnit: 1, IsContainer: true), new(BareIsCount: true), new(CommaIsDecimal: true)];
        for (var i = 0; i < (Long ? 1_000_000 : 20_000); i++)
        {
            var text = Drawn(random, 7);
            var facts = QuantityScan.Of(text, settings[i % settings.Length], i % 11 == 0);
            foreach (var portion in facts.Portions)
            {
                Assert.True(portion.Amount is not { } amount || (double.IsFinite(amount.HighGrams) && amount.LowGrams >= 0 && amount.LowGrams <= amount.Grams && amount.Grams <= amount.HighGrams), Shown(text));
                Assert.True(portion.Count is null or (>= 0 and <= 2_000), Shown(text));
            }

            Assert.True(facts.Bare is null || double.IsFinite(facts.Bare.Value), Shown(text));
            Assert.True(facts.Vessel?.Ml is null || double.IsFinite(facts.Vessel.Ml.Value), Shown(text));
        }
    }

    [Fact]
    public void Dates_exist_and_are_read_by_the_ledger()
    {
        var random = new Random(2);
        for (var i = 0; i < (Long ? 1_000_000 : 20_000); i++)
        {
            var text = Drawn(random, 5);
            switch (DateText.Read(text, FixtureTests.Today, i % 2 == 0))
            {
                case DateCell.Known known: Exists(known.Date, text); break;
                case DateCell.Relative relative: Exists(relative.Date, text); break;
                case DateCell.Either either:
                    Exists(either.WhenDayFirst, text);
                    Exists(either.WhenMonthFirst, text);
                    break;
                case DateCell.Doubtful doubtful: Assert.NotEmpty(doubtful.Why); break;
                case DateCell.None or DateCell.Unknown: break;
                default: Assert.Fail(Shown(text)); break;
            }
        }
    }

    [Fact]
    public void Sheets_give_rows_or_a_refusal_and_what_they_give_can_be_entered()
    {
        var random = new Random(3);
        for (var i = 0; i < (Long ? 1_000_000 : 2_500); i++)
        {
            var text = Sheet(random);
            try
            {
                var reading = SheetUnderstanding.Of(SheetReader.Read(Encoding.UTF8.GetBytes(text)), FixtureTests.Today);
                Assert.True(reading.RowsUnderstood + reading.RowsDoubtful == reading.RowsRead && double.IsFinite(reading.GramsRead) && reading.GramsAdded <= reading.GramsRead + 1e-6, Shown(text));
                if (i % 5 != 0)
                    continue;
                var events = RowEvents.Of(Cellar.Empty, reading, reading.Rows, "drawn.csv", "00", DateTimeOffset.UnixEpoch);
                Rules.Check(Cellar.Empty, events);
                Cellar.Fold(events.Select((line, n) => line with { Version = n + 1 }));
            }
            catch (Refusal refusal)
            {
                Assert.True(refusal.Message.Contains("not a sheet", StringComparison.Ordinal) || refusal.Message.Contains("empty", StringComparison.Ordinal), refusal.Message + "\n" + Shown(text));
            }
            catch (Exception fault) when (fault is not Xunit.Sdk.XunitException)
            {
                Assert.Fail($"{fault}\n{Shown(text)}");
            }
        }
    }

    private static void Exists(SheetDate date, string text)
    {
        Assert.True(date.First is null || date.Last is null || date.First <= date.Last, Shown(text));
        Assert.True(UnevenDate.TryParse(date.Edtf, out _, out var why), $"{date.Edtf}: {why}\n{Shown(text)}");
    }

    private static string Drawn(Random random, int most)
    {
        var text = new StringBuilder();
        for (var n = random.Next(1, most + 1); n > 0; n--)
            text.Append(random.Next(12) == 0 ? ((char)random.Next(32, 0x3100)).ToString() : Pieces[random.Next(Pieces.Length)]).Append(random.Next(3) == 0 ? "" : " ");
        return text.ToString();
    }

    private static string Sheet(Random random)
    {
        var separator = ",;\t|"[random.Next(4)];
        var width = random.Next(1, 6);
        var text = new StringBuilder();
        string[] heads = ["Blend", "Amount", "Container", "Tinned", "Bought", "Opened", "Qty", "Weight (oz)", "Total", "Where", "Price", "Notes", "Left", "Gross", "Tare", "Jahr", "数量", ""];
        if (random.Next(5) > 0)
            text.AppendJoin(separator, Enumerable.Range(0, width).Select(_ => heads[random.Next(heads.Length)])).Append('\n');
        for (var rows = random.Next(1, 7); rows > 0; rows--)
            text.AppendJoin(separator, Enumerable.Range(0, random.Next(10) == 0 ? random.Next(1, 9) : width).Select(_ => random.Next(5) == 0 ? "" : Drawn(random, 3))).Append('\n');
        return text.ToString();
    }

    private static string Shown(string text) => text.Replace("\n", "\\n", StringComparison.Ordinal).Replace("\0", "\\0", StringComparison.Ordinal);
}
