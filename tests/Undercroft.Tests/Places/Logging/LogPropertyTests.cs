using CsCheck;
using Undercroft.Ledger;
using Undercroft.Shell.Logs;
using Xunit;

namespace Undercroft.Tests.Places.Logging;

/// <summary>A known series, written in any shape, is read back as it was, or asked about; never wrongly.</summary>
public sealed class LogPropertyTests
{
    private const uint Stream = 1;
    private const ulong Seed = 20260503;

    [Fact]
    public void A_known_series_is_read_back_in_any_shape_or_asked_about()
    {
        var source = new PCG(Stream, Seed);
        var draws = Environment.GetEnvironmentVariable("UNDERCROFT_LONG") is null ? 2_000 : 40_000;
        var asked = 0;
        for (var draw = 0; draw < draws; draw++)
        {
            var shape = LogShape.Any.Generate(source, null, out _);
            try
            {
                ReadsBack(shape, draw);
            }
            catch (Refusal refusal)
            {
                if (!MayAsk(shape))
                    Assert.Fail($"Draw {draw}, {shape}: {refusal.Message}\n{Head(shape)}");
                asked++;
            }
        }

        Assert.InRange(asked, 1, draws / 4);
    }

    /// <summary>Shapes that leave something open: dates whose order nothing tells, and day numbers out of their order without a heading, which may be any number.</summary>
    private static bool MayAsk(LogShape shape) =>
        (shape.Dates is "serial" && shape.Order == "shuffled" && shape.Header == "none")
        || OpenDates(shape);

    private static bool OpenDates(LogShape shape) =>
        (shape.Dates is "dd/MM/yyyy HH:mm:ss" or "MM/dd/yyyy HH:mm" or "M/d/yyyy h:mm:ss tt" or "yy-MM-dd HH:mm" or "MM/dd/yy|hh:mm tt" or "dd.MM.yy HH:mm:ss")
        && (shape.Order == "shuffled" || shape.Rows * shape.Step < 86_400 * 2);

    private static void ReadsBack(LogShape shape, int draw)
    {
        var log = LogReader.Read(LogSource.Of("log.csv", shape.Written()));
        var truth = shape.Truth();
        if (log.Count != truth.Count)
            Assert.Fail($"Draw {draw}, {shape}: {log.Count} of {truth.Count} rows\n{Head(shape)}\n{string.Join('\n', log.Notes)}");
        for (var row = 0; row < truth.Count; row++)
        {
            var read = log[row];
            if (read.UtcSeconds != (long)(truth[row].Utc - DateTime.UnixEpoch).TotalSeconds || !(Math.Abs(read.Celsius - truth[row].C) < 0.006) || !(Math.Abs((100 * read.Humidity) - truth[row].Pct) < 0.051))
                Assert.Fail($"Draw {draw}, {shape}, row {row}: {read} instead of {truth[row]}\n{Head(shape)}\n{string.Join('\n', log.Notes)}");
        }
    }

    private static string Head(LogShape shape)
    {
        var text = LogText.Of(LogSource.Of("log.csv", shape.Written()));
        using var lines = text.Lines();
        var head = new List<string>();
        while (head.Count < 9 && lines.Next(out var line))
            head.Add(System.Text.Encoding.UTF8.GetString(line));
        return string.Join('\n', head);
    }
}
