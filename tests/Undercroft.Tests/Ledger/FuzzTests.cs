using System.IO.Compression;
using System.Text;
using CsCheck;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Backups;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Readings;
using Undercroft.Ledger.Sqlite;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Ledger;

/// <summary>Whatever comes in is read or refused, and what is read is written back the same; a sample in the plain run, a million inputs in the long one.</summary>
public sealed class FuzzTests
{
    private static readonly string[] Lines = File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Ledger", "events.jsonl"));

    /// <summary>Pieces that such texts are made of, so that random ones come close to being right.</summary>
    private static readonly string[] Pieces =
    [
        "50", "0", "1e9", "1e400", "-3", "+2", ".5", "1,5", "1.000,5", "½", "1/2", "g", "oz", "lb", "kg", "ml", "floz", "mm", "in", "°C", "C", "F", "K", "%", "m", "~", "about", "?", "??", "..", "-", "–", "to",
        "between", "and", " ", "\t", "2015", "2015-06", "2015-06-31", "2015-21", "201X", "[", "]", "[..", "..]", "/", "9999", "0000", "13", "unknown", "EUR", "$", "€", "NaN", "Infinity", "\0", "é", "\uD83D", "x",
    ];

    private static readonly Gen<string> Text = Gen.OneOf(
        Gen.Int[0, Pieces.Length - 1].Select(i => Pieces[i]).Array[0, 7].Select(string.Concat),
        Gen.String[0, 24],
        Gen.Char[' ', '~'].Array[0, 16].Select(letters => new string(letters)));

    private static int Times(int sample) => Environment.GetEnvironmentVariable("UNDERCROFT_LONG") == "1" ? 1_000_000 : sample;

    [Fact]
    public void Lines_cut_grown_and_crossed_are_read_or_refused()
    {
        Gen.Select(Gen.Int[0, Lines.Length - 1], Gen.Int[0, Lines.Length - 1], Gen.Int[0, 5], Gen.Int[0, 10_000], Gen.Int[0, 40], Text).Sample(
            (which, other, how, where, length, text) =>
            {
                var line = Lines[which];
                var at = where % line.Length;
                var end = Math.Min(at + length, line.Length);
                var changed = how switch
                {
                    0 => line[..at] + line[end..],
                    1 => line[..at] + text + line[end..],
                    2 => line[..at] + line[at..end] + line[at..],
                    3 => line[..at] + Lines[other][Math.Min(at, Lines[other].Length)..],
                    4 => line[..at],
                    _ => line.Replace(line[at..end] is { Length: > 0 } part ? part : " ", text, StringComparison.Ordinal),
                };
                if (QuickLine.Read(Encoding.UTF8.GetBytes(changed)) is { Version: >= 0 } quick && quick.Id != Guid.Empty)
                    Assert.Equal(EventLine.Write(EventLine.ReadAny(Encoding.UTF8.GetBytes(changed))), EventLine.Write(quick)); // the short way never reads more
                try
                {
                    var written = EventLine.Write(EventLine.Read(changed));
                    Assert.Equal(written, EventLine.Write(EventLine.Read(written)));
                }
                catch (InvalidDataException)
                {
                }
            },
            seed: Gens.Seed,
            iter: Times(10_000),
            threads: 1);
    }

    [Fact]
    public void Dates_are_read_or_refused_and_read_back() =>
        Text.Sample(
            text =>
            {
                if (UnevenDate.TryParse(text, out var date, out var why))
                {
                    Assert.Equal(date, UnevenDate.Parse(date.ToString()));
                    Assert.True(date.Earliest is not { } first || date.Latest is not { } last || first <= last);
                }
                else
                {
                    Assert.NotEqual("", why);
                }
            },
            seed: Gens.Seed,
            iter: Times(20_000),
            threads: 1);

    [Fact]
    public void Quantities_are_read_or_refused_and_stated_ones_read_back() =>
        Text.Sample(
            text =>
            {
                if (StatedMass.TryParse(text, SaidBy.Guess, out var mass, out var why))
                    Assert.True(!mass.IsKnown || (double.IsFinite(mass.Si.First) && mass.Si.First <= mass.Si.Second && StatedMass.TryParse(mass.ToString(), SaidBy.Guess, out _, out _)));
                else
                    Assert.NotEqual("", why);
                Assert.True(StatedFraction.TryParse(text, SaidBy.Guess, out _, out why) || why.Length > 0);
                Assert.True(StatedTemperature.TryParse(text, SaidBy.Guess, out _, out why) || why.Length > 0);
                Assert.True(StatedLength.TryParse(text, SaidBy.Guess, out _, out why) || why.Length > 0);
                Assert.True(StatedVolume.TryParse(text, SaidBy.Guess, out _, out why) || why.Length > 0);
                Assert.Equal(QuantityText.OfPercent.TryRead(text, out why) is null, why.Length > 0);
                Assert.True(ShortId.TryParse(text, out var id, out why) ? ShortId.TryParse(id.ToString(), out _, out _) : why.Length > 0);
                _ = Money.TryParse(text, SaidBy.Guess, out _, out _);
            },
            seed: Gens.Seed,
            iter: Times(10_000),
            threads: 1);

    [Fact]
    public void Lines_of_readings_are_read_or_refused() =>
        Gen.Select(Text, Gen.Int[0, 40], Gen.Int[0, 10]).Sample(
            (text, at, length) =>
            {
                const string Line = "2021-01-01T00:00:00Z,290.15,0.55,101325,12";
                var start = Math.Min(at, Line.Length);
                var changed = Line[..start] + text + Line[Math.Min(start + length, Line.Length)..];
                try
                {
                    foreach (var reading in ReadingLines.Read(new MemoryStream(Encoding.UTF8.GetBytes(ReadingLines.Header + "\n" + changed + "\n"))))
                        Assert.NotEqual(default, reading);
                }
                catch (InvalidDataException)
                {
                }
            },
            seed: Gens.Seed,
            iter: Times(5_000),
            threads: 1);

    /// <summary>A whole zip costs a hundred times a line; a memory disk for temporary files (TMPDIR) makes the million bearable.</summary>
    [Fact]
    public async Task Zips_cut_grown_and_with_entries_of_others_are_restored_the_same_or_refused()
    {
        var root = Directory.CreateTempSubdirectory("undercroft-").FullName;
        try
        {
            var folder = DataFolder.OrNew(Path.Combine(root, "data"));
            var home = new Household();
            using (var cellars = SqliteCellars.OpenOrCreate(folder))
            {
                await cellars.AppendAsync(0, home.Events, TestContext.Current.CancellationToken);
                await cellars.AppendAsync(4, Faults.Victim.Batch(home.Cupboard, 1, 20), TestContext.Current.CancellationToken);
            }

            var zip = Path.Combine(root, "b.zip");
            var made = Backup.Write(folder, zip, home.AddJars.Recorded);
            var sound = await File.ReadAllBytesAsync(zip, TestContext.Current.CancellationToken);
            var random = new Random(20260306);
            var restored = 0;
            var times = Times(150);
            for (var i = 0; i < times; i++)
            {
                var into = Path.Combine(root, "into");
                await File.WriteAllBytesAsync(zip, Changed(sound, random), TestContext.Current.CancellationToken);
                try
                {
                    Assert.Equal(made.Digest, Restoring.Into(into, zip).Digest);
                    var verified = Verification.Of(DataFolder.Existing(into));
                    Assert.Equal((made.Digest, 20, 0), (verified.Digest, verified.Readings, verified.Problems.Count));
                    Directory.Delete(into, recursive: true);
                    restored++;
                }
                catch (Refusal)
                {
                    Assert.False(Directory.Exists(into));
                }
            }

            TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"{restored} of {times} restored whole, the others refused"));
            Assert.InRange(restored, 1, times - 1);
            Assert.Equal(["b.zip", "data"], Directory.GetFileSystemEntries(root).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        }
        finally
        {
            Directory.Delete(root, recursive: true);
        }
    }

    private static byte[] Changed(byte[] sound, Random random)
    {
        switch (random.Next(4))
        {
            case 0: return sound[..random.Next(sound.Length)];
            case 1:
                var flipped = (byte[])sound.Clone();
                for (var n = random.Next(1, 4); n > 0; n--)
                    flipped[random.Next(flipped.Length)] = (byte)random.Next(256);
                return flipped;
            case 2: return [.. sound, .. sound[random.Next(sound.Length)..]];
            default:
                using (var stream = new MemoryStream())
                {
                    stream.Write(sound);
                    using (var zip = new ZipArchive(stream, ZipArchiveMode.Update, leaveOpen: true))
                    {
                        string[] names = ["../out.txt", "/etc/out", "photos/../../out", "photos/a", "imports/" + new string('a', 300), "ledger/events.jsonl", "readings/x.csv", "C:\\out", "photos/a\\b", "tables/more.csv", "."];
                        using var entry = zip.CreateEntry(names[random.Next(names.Length)]).Open();
                        entry.Write(new byte[random.Next(100)]);
                    }

                    return stream.ToArray();
                }
        }
    }
}
