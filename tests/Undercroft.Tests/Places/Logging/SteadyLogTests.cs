using System.Globalization;
using System.Text;
using Undercroft.Ledger;
using Undercroft.Shell.Logs;
using Xunit;

namespace Undercroft.Tests.Places.Logging;

/// <summary>Logs that say a start and an interval and no time beside the readings: thirty made-up readings from 14 February 2025, 08:00, ten minutes apart, unless said otherwise.</summary>
public sealed class SteadyLogTests
{
    private static readonly DateTimeOffset Start = new(2025, 2, 14, 8, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData("Start time: 2025-02-14 08:00:00\nLogging interval: 10 min\n\nNo.,Temp (°C),RH (%)\n", "{0},{1},{2}")]
    [InlineData("Start,2025-02-14T08:00\nInterval (s),600\nTemp (°C),RH (%)\n", "{1},{2}")]
    [InlineData("Startzeit;14.02.2025 08:00:00\nMessintervall;00:10:00\nAnzahl;30\nNr;Temperatur [°C];Feuchte [%]\n", "{0};{1};{2}", true)]
    [InlineData("Startdatum:\t14.02.2025\nStartuhrzeit:\t08:00\nTakt:\t10 Minuten\nTemperatur °C\tFeuchte %\n", "{1}\t{2}", true)]
    [InlineData("Début de la mesure : 14/02/2025 08:00\nFin : 14/02/2025 12:50\nIntervalle de mesure : 10 minutes\nN°;Température (°C);Humidité (%)\n", "{0};{1};{2}", true)]
    [InlineData("Inicio: 14 febrero 2025 08:00\nIntervalo: 0 h 10 min 0 s\nÍndice;Temperatura °C;Humedad %\n", "{0};{1};{2}", true)]
    [InlineData("Inizio registrazione;14-feb-2025;8:00\nPasso;10 minuti\nTemperatura (°C);Umidità (%)\n", "{1};{2}", true)]
    [InlineData("Begin;14-2-2025 8:00\nEinde;14-2-2025 12:50\nMeetinterval [min];10\nTemperatuur °C;Vochtigheid %\n", "{1};{2}", true)]
    [InlineData("Początek: 2025.02.14 08:00\nKrok: 10 min\nLp;Temperatura °C;Wilgotność %\n", "{0};{1};{2}", true)]
    [InlineData("開始日時,2025/02/14 08:00\n記録間隔,10分\n番号,温度(℃),湿度(%)\n", "{0},{1},{2}")]
    [InlineData("Начало: 14.02.2025 08:00\nИнтервал: 10 мин\n№;Температура °C;Влажность %\n", "{0};{1};{2}", true)]
    [InlineData("Logging Started On 02/14/2025 08:00:00 AM\nStopped On 02/14/2025 12:50:00 PM\nSample every 600 seconds\n#,Temperature(°C),Humidity(%)\n", "{0},{1},{2}")]
    [InlineData("START=2025-02-14 08:00:00\nINTERVAL=PT10M\n[DATA]\nT(°C) RH(%)\n", "{1} {2}")]
    [InlineData("First reading;2025-02-14;08:00:00\nTemperature °C;RH %;Elapsed (min)\n", "{3};{1};{2}", false, "Elapsed (min);Temperature °C;RH %")]
    [InlineData("Start: 03/02/2025 08:00\nEnd: 03/02/2025 12:50\nSampling rate: 0:10:00\nTemp °C;RH %\n", "{1};{2}", false, null, "2025-02-03", "d/m/y")]
    [InlineData("Start: 01/12/2025 22:00\nEnd: 01/13/2025 02:50\nInterval: 10 min\nTemp °C;RH %\n", "{1};{2}", false, null, "2025-01-12T22")]
    [InlineData("Start: 2025-02-14 08:00\nStop: 2025-02-14 12:50\nInterval: 00:10\nTemp °C;RH %\n", "{1};{2}")]
    [InlineData("Start: 2025-02-14 08:00\nAlarm check interval: 1 min\nRecord interval: 10 min\nTemp °C;RH %\n", "{1};{2}")]
    public void Times_are_computed_from_start_and_interval_and_said_to_be(string preamble, string row, bool comma = false, string? heading = null, string day = "2025-02-14", string? order = null)
    {
        var start = day.Length > 10 ? DateTimeOffset.ParseExact(day + "+00", "yyyy-MM-dd'T'HHzz", CultureInfo.InvariantCulture) : Start + (DateOnly.ParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture).ToDateTime(default) - new DateTime(2025, 2, 14, 0, 0, 0, DateTimeKind.Unspecified));
        if (heading is not null)
            preamble = string.Join('\n', preamble.Split('\n')[..^2]) + "\n" + heading + "\n";
        var log = Read(preamble + Rows(row, comma), new LogAnswers(Zone: "UTC", Order: LogAnswers.OrderOf(order)));
        Assert.Equal(30, log.Count);
        for (var i = 0; i < 30; i++)
        {
            Assert.Equal(start.AddMinutes(10 * i).ToUnixTimeSeconds(), log[i].UtcSeconds);
            Assert.Equal(18 + (i % 13 / 10.0), log[i].Celsius, 1e-9);
            Assert.Equal(50 + (i % 7), 100 * log[i].Humidity, 1e-9);
        }

        Assert.Contains(log.Notes, note => note.Contains("times are computed", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Interval: 10 min\n#;Temp °C;RH %\n", "{0};{1};{2}", "when the first was taken")]
    [InlineData("Start: 2025-02-14 08:00\n#;Temp °C;RH %\n", "{0};{1};{2}", "at what interval")]
    [InlineData("#;Temp °C;RH %\n", "{0};{1};{2}", "when the first was taken and at what interval")]
    [InlineData("Start: 2025-02-14\nInterval: 10 min\nTemp °C;RH %\n", "{1};{2}", "without a time of day")]
    [InlineData("Start: 2025-02-14 08:00\nInterval: 00:10\nTemp °C;RH %\n", "{1};{2}", "hours or of minutes")]
    [InlineData("Start: 03/02/2025 08:00\nInterval: 10 min\nTemp °C;RH %\n", "{1};{2}", "--date-order")]
    [InlineData("Start: 2025-02-14 08:00\nInterval: 10 min\nRecord interval: 5 min\nLog interval: 20 min\nTemp °C;RH %\n", "{1};{2}", "several intervals")]
    [InlineData("Programmed start: 2025-02-14 08:00\nActual start: 2025-02-14 08:07\nInterval: 10 min\nTemp °C;RH %\n", "{1};{2}", "more than one start")]
    [InlineData("Downloaded: 2025-03-14 08:00\nInterval: 10 min\nTemp °C;RH %\n", "{1};{2}", "when the first was taken")]
    public void What_is_missing_is_named(string preamble, string row, string told) =>
        Assert.Contains(told, Assert.Throws<Refusal>(() => Read(preamble + Rows(row, false))).Message, StringComparison.Ordinal);

    [Fact]
    public void Numbers_that_skip_leave_a_gap_and_numbers_that_begin_anew_are_refused()
    {
        const string head = "Start: 2025-02-14 08:00\nInterval: 10 min\nNo;Temp °C;RH %\n";
        var skipping = string.Join('\n', Rows("{0};{1};{2}", false).Split('\n').Where((_, i) => i is < 10 or >= 16));
        var log = Read(head + skipping);
        Assert.Equal((24, Start.AddMinutes(290).ToUnixTimeSeconds()), (log.Count, log.Seconds[^1]));
        Assert.Contains("begin anew", Assert.Throws<Refusal>(() => Read(head + Rows("{0};{1};{2}", false) + Rows("{0};{1};{2}", false))).Message, StringComparison.Ordinal);
        Assert.Contains("begin at 42", Assert.Throws<Refusal>(() => Read(head + string.Concat(Enumerable.Range(42, 30).Select(i => $"{i};18.5;5{i % 10}\n")))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Newest_first_is_told_by_the_numbers()
    {
        var log = Read("Start: 2025-02-14 08:00\nInterval: 10 min\nNo;Temp °C;RH %\n" + string.Join('\n', Rows("{0};{1};{2}", false).Split('\n', StringSplitOptions.RemoveEmptyEntries).Reverse()));
        Assert.Equal((30, Start.ToUnixTimeSeconds()), (log.Count, log.Seconds[0]));
        Assert.Equal((18.0, 18.3), (Math.Round(log[0].Celsius, 9), Math.Round(log[29].Celsius, 9)));
    }

    [Fact]
    public void An_error_takes_its_interval_and_a_mean_below_does_not()
    {
        var rows = Rows("{1};{2}", false).Split('\n');
        rows[4] = "---;---";
        var log = Read("Start: 2025-02-14 08:00\nInterval: 10 min\nTemp °C;RH %\n" + string.Join('\n', rows) + "\nAverage;18.6\n");
        Assert.Equal((29, Start.AddMinutes(50).ToUnixTimeSeconds(), Start.AddMinutes(290).ToUnixTimeSeconds()), (log.Count, log.Seconds[4], log.Seconds[^1]));
    }

    [Fact]
    public void An_end_that_does_not_fit_is_said()
    {
        var log = Read("Start: 2025-02-14 08:00\nEnd: 2025-02-15 08:00\nInterval: 10 min\nTemp °C;RH %\n" + Rows("{1};{2}", false));
        Assert.Contains(log.Notes, note => note.Contains("it ends 2025-02-15 08:00", StringComparison.Ordinal));
    }

    /// <summary>Berlin puts its clocks forward on 30 March 2025 at 01:00 UTC (time zone database); an interval does not.</summary>
    [Fact]
    public void A_counted_clock_never_shifts()
    {
        var log = Read("Start: 2025-03-29 12:00\nInterval: 1 h\nTemp °C;RH %\n" + Rows("{1};{2}", false), new LogAnswers(Zone: "Europe/Berlin"));
        Assert.Equal(new DateTimeOffset(2025, 3, 29, 11, 0, 0, TimeSpan.Zero).ToUnixTimeSeconds(), log.Seconds[0]);
        Assert.Equal(log.Seconds[0] + (29 * 3600), log.Seconds[^1]);
    }

    [Theory]
    [InlineData("Date;14.02.2025\nStart;14.02.2025\n", 23 * 60, 23 * 60)]
    [InlineData("Start;14.02.2025 23:00\n", 23 * 60, 23 * 60)] // a time of day
    [InlineData("Start;14.02.2025 23:00\n", 0, 23 * 60)] // a time that has passed
    public void A_day_above_and_a_time_of_day_beside_make_a_time(string preamble, int firstMinute, int startMinute)
    {
        var log = Read(preamble + "Clock;Temp °C;RH %\n" + string.Concat(Enumerable.Range(0, 30).Select(i => $"{TimeSpan.FromMinutes((firstMinute + (10 * i)) % 1440):hh\\:mm\\:ss};18.{i % 10};5{i % 7}\n")));
        Assert.Equal(30, log.Count);
        var start = new DateTimeOffset(2025, 2, 14, 0, 0, 0, TimeSpan.Zero).AddMinutes(startMinute);
        for (var i = 0; i < 30; i++)
            Assert.Equal(start.AddMinutes(10 * i).ToUnixTimeSeconds(), log[i].UtcSeconds);
        Assert.Contains(log.Notes, note => note.Contains("No day stands beside the readings", StringComparison.Ordinal));
    }

    [Fact]
    public void A_heading_narrower_than_numbered_rows_still_names_the_right_columns()
    {
        var log = Read("Start;2025-02-14 08:00\nInterval;10 min\nTemp °C;RH %\n" + Rows("{0};{1};{2}", false));
        Assert.Equal((18.1, 51), (Math.Round(log[1].Celsius, 9), Math.Round(100 * log[1].Humidity, 9)));
    }

    private static string Rows(string form, bool comma)
    {
        var text = new StringBuilder();
        for (var i = 0; i < 30; i++)
        {
            var (celsius, humidity) = ((18 + (i % 13 / 10.0)).ToString("0.0", CultureInfo.InvariantCulture), (50 + (i % 7)).ToString("0.0", CultureInfo.InvariantCulture));
            if (comma)
                (celsius, humidity) = (celsius.Replace('.', ','), humidity.Replace('.', ','));
            text.Append(string.Format(CultureInfo.InvariantCulture, form, i + 1, celsius, humidity, 10 * i)).Append('\n');
        }

        return text.ToString();
    }

    private static Log Read(string text, LogAnswers? answers = null) => LogReader.Read(LogSource.Of("log.csv", Encoding.UTF8.GetBytes(text)), answers ?? new LogAnswers(Zone: "UTC"));
}
