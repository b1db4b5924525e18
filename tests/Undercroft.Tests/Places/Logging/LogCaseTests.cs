using System.Globalization;
using System.Text;
using Undercroft.Ledger;
using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;
using Undercroft.Shell.Logs;
using Undercroft.Tests.Importing;
using Xunit;

namespace Undercroft.Tests.Places.Logging;

/// <summary>Shapes that stand apart from the usual ones, one a test, each written here from the same made-up week and read back.</summary>
public sealed class LogCaseTests
{
    private static readonly DateTime Start = new(2025, 2, 14, 0, 0, 0, DateTimeKind.Unspecified);

    [Fact]
    public void Morning_and_afternoon_may_stand_in_a_column_of_their_own() =>
        ReadsBack(Text("No,Date,Time,AM/PM,Temp (C),RH (%)", (i, at, c, pct) => $"{i + 1},{at:MM/dd/yyyy},{at:hh:mm:ss},{at.ToString("tt", CultureInfo.InvariantCulture)},{c},{pct}"));

    [Fact]
    public void Year_month_day_hour_and_minute_may_stand_one_by_one() =>
        ReadsBack(Text("Year,Month,Day,Hour,Min,Temp (°C),RH (%)", (_, at, c, pct) => $"{at.Year},{at.Month},{at.Day},{at.Hour},{at.Minute},{c},{pct}"));

    [Fact]
    public void A_heading_in_quotation_marks_may_run_over_lines()
    {
        var log = ReadsBack(Text("\"Date\nTime\",\"Air\ntemperature\n(°F)\",\"Humidity\n(%)\"", (_, at, c, pct) => $"{at:yyyy-MM-dd HH:mm},{(c * 1.8) + 32:0.00},{pct}"));
        Assert.Equal("F", log.Form.Unit);
        Assert.Contains(log.Form.Columns, column => column.Heading == "Air temperature (°F)");
    }

    [Fact]
    public void Totals_above_the_names_are_no_part_of_them()
    {
        var log = ReadsBack("Max;20.1;67.2\nMin;14.1;55.0\nFirst;2025-02-14 00:00\n" + Text("Time;Temperature °C;Humidity %", (_, at, c, pct) => $"{at:yyyy-MM-dd HH:mm};{c};{pct}"));
        Assert.Equal("Temperature °C", log.Form.Columns[0].Heading);
    }

    [Theory]
    [InlineData(30, 2)]
    [InlineData(15, 4)]
    [InlineData(40, 2)] // two in one minute, one in the next
    public void A_logger_that_notes_more_often_than_its_stamps_say_is_no_several_sensors(int seconds, int inMinute)
    {
        var text = new StringBuilder("time;T °C;RH %\n");
        for (var i = 0; i < 600; i++)
            text.Append(CultureInfo.InvariantCulture, $"{Start.AddSeconds(seconds * i):yyyy-MM-dd HH:mm};{17.3 + (2.7 * Math.Sin(i / 150.0)):0.00};{61 + (6 * Math.Cos(i / 150.0)):0.00}\n");
        var log = Read(text.ToString(), "UTC");
        Assert.Equal((600, 0, 0), (log.Count, log.Contradicted, log.Rejected));
        for (var i = 0; i < 600; i++)
        {
            Assert.InRange(log[i].UtcSeconds - new DateTimeOffset(Start, TimeSpan.Zero).AddSeconds(seconds * i).ToUnixTimeSeconds(), -59, 59);
            Assert.Equal(17.3 + (2.7 * Math.Sin(i / 150.0)), log[i].Celsius, 0.0051);
        }

        Assert.Contains(log.Notes, note => note.Contains($"up to {inMinute} rows share one", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Device: pantry\n", "\nDevice: loft\n", 7)]
    [InlineData("Sensor;1\n", "Sensor;2\n", 20 * 24 * 60)]
    [InlineData("", "Location = loft\n", 7)]
    public void Blocks_of_several_devices_below_each_other_are_told_apart_by_their_names(string above, string between, int later)
    {
        string Block(double warmer, int minutes) => Text("time;T °C;RH %", (_, at, c, pct) => $"{at.AddMinutes(minutes):yyyy-MM-dd HH:mm};{c + warmer:0.0};{pct}");
        var text = above + Block(0, 0) + between + Block(4, later);
        if (above.Length == 0)
        {
            Assert.Equal(200, LogReader.Read(LogSource.Of("log.csv", Encoding.UTF8.GetBytes(text)), new(Zone: "UTC", Sensor: "loft")).Count);
            return;
        }

        Assert.Contains("--sensor", Refused(text), StringComparison.Ordinal);
        var second = LogReader.Read(LogSource.Of("log.csv", Encoding.UTF8.GetBytes(text)), new(Zone: "UTC", Sensor: between.Contains("loft", StringComparison.Ordinal) ? "loft" : "2"));
        Assert.Equal((200, 21.3), (second.Count, Math.Round(second[0].Celsius, 9)));
    }

    [Theory]
    [InlineData("time;T °F;RH %")]
    [InlineData("time;RH %;T °C")]
    public void A_heading_that_says_otherwise_further_down_is_refused(string heading) =>
        Assert.Contains("Split it there", Refused(Text("time;T °C;RH %", (_, at, c, pct) => $"{at:yyyy-MM-dd HH:mm};{c};{pct}") + Text(heading, (_, at, c, pct) => $"{at.AddDays(9):yyyy-MM-dd HH:mm};{c};{pct}")), StringComparison.Ordinal);

    [Fact]
    public void A_named_column_without_readable_numbers_is_said_to_be_left_out() =>
        Assert.Contains(Read(Text("time;T °C;RH %", (_, at, c, pct) => $"{at:yyyy-MM-dd HH:mm};{c:0.0}-;{pct}"), "UTC").Notes, note => note.Contains("'T °C' is left out", StringComparison.Ordinal));

    [Theory]
    [InlineData("14. února 2025", 14)]
    [InlineData("14 lutego 2025", 14)]
    public void Months_are_read_in_the_genitive(string first, int day)
    {
        var log = Read($"Data;Čas;Temperatura °C;Wilgotność %\n{first};10:00;17,3;61\n{first};10:15;17,4;61\n{first};10:30;17,5;62\n", "UTC");
        Assert.Equal(new DateTimeOffset(2025, 2, day, 10, 0, 0, TimeSpan.Zero).ToUnixTimeSeconds(), log[0].UtcSeconds);
    }

    [Fact]
    public void Two_sensors_below_each_other_are_still_refused()
    {
        var text = new StringBuilder("time;T °C;RH %\n");
        for (var i = 0; i < 600; i++)
            text.Append(CultureInfo.InvariantCulture, $"{Start.AddMinutes(i / 2):yyyy-MM-dd HH:mm};{17.3 + (2 * (i % 2)) + (2.7 * Math.Sin(i / 150.0)):0.00};{61 - (4 * (i % 2)):0.00}\n");
        Assert.Contains("several sensors below each other", Refused(text.ToString()), StringComparison.Ordinal);
    }

    [Fact]
    public void First_rows_whose_last_channels_are_blank_are_readings_and_no_heading()
    {
        var log = ReadsBack(Text("Time,Temperature (°C),Humidity (%),Pressure (hPa),Light (lx)", (i, at, c, pct) => $"{at:yyyy-MM-dd HH:mm},{c},{pct},{(i < 3 || i % 2 == 1 ? "" : "1013.2")},{(i < 3 || i % 3 > 0 ? "" : "40")}"));
        Assert.Equal("Temperature (°C)", log.Form.Columns[0].Heading);
    }

    [Theory]
    [InlineData("Datum;Tijd;Temperatuur;Vochtigheid", "dd-MM-yyyy;HH:mm")]
    [InlineData("Data;Czas;Temperatura;Wilgotność", "dd.MM.yyyy;HH:mm")]
    [InlineData("日付;時刻;温度(℃);湿度(%)", "yyyy/MM/dd;HH:mm")]
    [InlineData("Elapsed [h];Clock;Temp;RH", "'0,25';dd.MM.yyyy HH:mm")]
    [InlineData("Datum;Uhrzeit;Window shelf temperature;Luftfeuchte", "dd.MM.yyyy;HH:mm")]
    public void Headings_speak_many_languages(string heading, string form) =>
        ReadsBack(Text(heading, (_, at, c, pct) => $"{at.ToString(form, CultureInfo.InvariantCulture)};{c.ToString(CultureInfo.InvariantCulture).Replace('.', ',')};{pct.ToString(CultureInfo.InvariantCulture).Replace('.', ',')}"));

    /// <summary>Berlin on 26 October 2025: CEST until 01:00 UTC, then CET (time zone database).</summary>
    [Fact]
    public void Letters_behind_the_times_tell_the_hour_that_comes_twice()
    {
        var text = new StringBuilder("time;T °C;RH\n");
        var start = new DateTimeOffset(2025, 10, 25, 22, 0, 0, TimeSpan.Zero);
        for (var i = 0; i < 40; i++)
        {
            var at = start.AddMinutes(15 * i);
            var summer = at < new DateTimeOffset(2025, 10, 26, 1, 0, 0, TimeSpan.Zero);
            text.Append(CultureInfo.InvariantCulture, $"{at.AddHours(summer ? 2 : 1):dd.MM.yyyy HH:mm} {(summer ? "CEST" : "CET")};18.{i % 10};55\n");
        }

        var log = Read(text.ToString(), null);
        Assert.Equal((40, 0), (log.Count, log.Rejected));
        for (var i = 0; i < 40; i++)
            Assert.Equal(start.AddMinutes(15 * i).ToUnixTimeSeconds(), log[i].UtcSeconds);
    }

    /// <summary>Berlin on 30 March 2025: 02:30 does not exist, 01:30 is 00:30 UTC and 03:30 is 01:30 UTC (time zone database).</summary>
    [Fact]
    public void An_hour_that_never_was_is_stepped_over()
    {
        var log = Read("time;T °C;RH\n2025-03-29 12:00;18.1;55\n2025-03-29 12:30;18.2;55\n2025-03-30 01:00;18.3;55\n2025-03-30 01:30;18.4;55\n2025-03-30 03:00;18.5;55\n2025-03-30 03:30;18.6;55\n2025-03-30 04:00;18.7;55\n", "Europe/Berlin");
        Assert.Equal(new DateTimeOffset(2025, 3, 30, 0, 30, 0, TimeSpan.Zero).ToUnixTimeSeconds(), log[3].UtcSeconds);
        Assert.Equal(new DateTimeOffset(2025, 3, 30, 1, 30, 0, TimeSpan.Zero).ToUnixTimeSeconds(), log[5].UtcSeconds);
        Assert.Contains(log.Notes, note => note.Contains("follows summer time in Europe/Berlin: forward on 2025-03-30", StringComparison.Ordinal));
    }

    /// <summary>Every six hours: a step of five hours across the night of the change is the logger following it (Berlin, 26 October 2025), one of six is not.</summary>
    [Theory]
    [InlineData(1, "follows summer time")]
    [InlineData(2, "never shifts")]
    public void A_logger_that_seldom_writes_shows_whether_it_shifts_all_the_same(int winter, string said)
    {
        var text = new StringBuilder("time,T °C,RH\n");
        var start = new DateTimeOffset(2025, 10, 24, 22, 0, 0, TimeSpan.Zero);
        for (var i = 0; i < 20; i++)
        {
            var at = start.AddHours(6 * i);
            text.Append(CultureInfo.InvariantCulture, $"{at.AddHours(at < new DateTimeOffset(2025, 10, 26, 1, 0, 0, TimeSpan.Zero) ? 2 : winter):yyyy-MM-dd HH:mm},18.{i % 10},55\n");
        }

        var log = Read(text.ToString(), "Europe/Berlin");
        Assert.Contains(log.Notes, note => note.Contains(said, StringComparison.Ordinal));
        for (var i = 0; i < 20; i++)
            Assert.Equal(start.AddHours(6 * i).ToUnixTimeSeconds(), log[i].UtcSeconds);
    }

    [Theory]
    [InlineData("°C")]
    [InlineData("°F")]
    public void A_dew_point_stands_in_for_the_humidity(string unit)
    {
        double As(double celsius) => unit == "°F" ? (celsius * 1.8) + 32 : celsius;
        var log = ReadsBack(Text($"Time;Temperature [{unit}];Dew point [{unit}]", (_, at, c, pct) => $"{at:yyyy-MM-dd HH:mm};{As(c):0.0000};{As(Dew(c, pct)):0.0000}"), 0.02);
        Assert.Contains(log.Notes, note => note.Contains("'Dew point", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("hPa", 1)]
    [InlineData("mbar", 1)]
    [InlineData("kPa", 0.1)]
    [InlineData("Pa", 100)]
    [InlineData("inHg", 1 / 33.86389)] // conventional inch of mercury, 3386.389 Pa (NIST SP 811, B.8)
    [InlineData("mmHg", 1 / 1.333224)] // conventional millimetre of mercury, 133.3224 Pa (NIST SP 811, B.8)
    public void Air_pressure_is_read_in_any_unit(string unit, double perHectopascal)
    {
        var log = ReadsBack(Text($"Time,Temp (°C),RH (%),Barometer ({unit})", (i, at, c, pct) => $"{at:yyyy-MM-dd HH:mm},{c},{pct},{(1009.5 + (i % 7)) * perHectopascal:0.0000}"));
        Assert.Equal(100_950, log[0].Pascals, 1.0);
        Assert.Equal(101_050, log[1].Pascals, 1.0);
    }

    [Theory]
    [InlineData("temp [0.1 °C];rh [0.1 %]", 10)]
    [InlineData("temp_x100;rh_x100", 100)]
    public void Tenths_and_hundredths_are_read_where_the_heading_says_so(string headings, double times) =>
        ReadsBack(Text("time;" + headings, (_, at, c, pct) => $"{at:yyyy-MM-dd HH:mm};{c * times:0};{pct * times:0}"));

    [Fact]
    public void Hundredths_that_nothing_tells_of_are_refused() =>
        Assert.Contains("fit neither", Refused(Text("time;temp;rh", (_, at, c, pct) => $"{at:yyyy-MM-dd HH:mm};{c * 100:0};{pct * 100:0}")), StringComparison.Ordinal);

    [Fact]
    public void A_channel_that_says_one_error_throughout_is_no_second_sensor() =>
        ReadsBack(Text("Time;Temp 1 °C;Temp 2 °C;RH %", (_, at, c, pct) => $"{at:yyyy-MM-dd HH:mm};{c};999.9;{pct}"));

    [Fact]
    public void Without_a_heading_the_cooler_of_two_columns_is_the_temperature()
    {
        var log = Read(Text("", (i, at, _, _) => $"{at:yyyy-MM-dd HH:mm},{34.5 + (i * 7 % 5)},{24.5 + (i * 3 % 4)}"), "UTC");
        Assert.Equal((24.5, 34.5), (Math.Round(log[0].Celsius, 9), Math.Round(100 * log[0].Humidity, 9)));
        Assert.Contains("both can be", Refused(Text("", (i, at, _, _) => $"{at:yyyy-MM-dd HH:mm},{26.5 + (i * 7 % 5)},{24.5 + (i * 3 % 4)}")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Date system: 1904\n", 1904)]
    [InlineData("S/N 1904-0022\n", 1900)]
    public void Spreadsheet_days_count_from_1904_where_the_file_says_so(string preamble, int system) =>
        ReadsBack(preamble + Text("Time;T °C;RH %", (_, at, c, pct) => $"{Serial(at, system):0.00000000};{c};{pct}"));

    [Theory]
    [InlineData(1900, WorkbookMaker.Moment)]
    [InlineData(1904, WorkbookMaker.Moment)]
    [InlineData(1900, WorkbookMaker.Plain)]
    [InlineData(1904, WorkbookMaker.Plain)]
    public void A_workbook_keeps_the_time_of_day(int system, int style)
    {
        var rows = Rows().Select((row, i) => (object?[])[i + 1, new WorkbookMaker.Styled(Serial(row.At, system), style), row.C, row.Pct]);
        ReadsBack(new WorkbookMaker { From1904 = system == 1904 }
            .Sheet("Summary", [["Logger", "A7"], ["Average", 17.3]]).Sheet("Readings", [["No", "Time", "Temperature °C", "Humidity %"], .. rows]).Bytes());
    }

    [Fact]
    public void A_workbook_may_keep_day_and_time_apart() => ReadsBack(new WorkbookMaker().Sheet("Readings", [
        ["Date", "Time", "Temperature °C", "Humidity %"],
        .. Rows().Select(row => (object?[])[DateOnly.FromDateTime(row.At), new WorkbookMaker.Styled(row.At.TimeOfDay.TotalDays, WorkbookMaker.Clock), row.C, row.Pct])]).Bytes());

    [Fact]
    public void Sheets_for_each_quantity_or_each_stretch_of_time_make_one_log()
    {
        object?[] Moment(DateTime at, params object?[] more) => [new WorkbookMaker.Styled(Serial(at, 1900), WorkbookMaker.Moment), .. more];
        ReadsBack(new WorkbookMaker().Sheet("T", [["Time", "Temperature °C"], .. Rows().Select(row => Moment(row.At, row.C))]).Sheet("H", [["Time", "Humidity %"], .. Rows().Select(row => Moment(row.At, row.Pct))]).Bytes());
        var half = Rows().Count / 2;
        object?[] heads = ["Time", "Temperature °C", "Humidity %"];
        ReadsBack(new WorkbookMaker().Sheet("later", [heads, .. Rows().Skip(half).Select(row => Moment(row.At, row.C, row.Pct))]).Sheet("earlier", [heads, .. Rows().Take(half).Select(row => Moment(row.At, row.C, row.Pct))]).Bytes());
        var two = new WorkbookMaker().Sheet("shelf", [heads, .. Rows().Select(row => Moment(row.At, row.C, row.Pct))]).Sheet("attic", [heads, .. Rows().Select(row => Moment(row.At, row.C + 4, row.Pct))]).Bytes();
        Assert.Contains("--sensor", Assert.Throws<Refusal>(() => LogReader.Read(LogSource.Of("log.xlsx", two), new(Zone: "UTC"), LogWorkbook.Sheets)).Message, StringComparison.Ordinal);
    }

    private static double Serial(DateTime at, int system) => (at - (system == 1904 ? new DateTime(1904, 1, 1, 0, 0, 0, DateTimeKind.Unspecified) : new DateTime(1899, 12, 30, 0, 0, 0, DateTimeKind.Unspecified))).TotalDays;

    private static double Dew(double celsius, double pct) =>
        DewPoint.OverWater(new Pressure(pct / 100 * SaturationPressure.OverWater(Temperature.FromCelsius(celsius)).Pascals)).Celsius;

    /// <summary>A quarter-hourly week and a bit; from the fourteenth on no day can be a month.</summary>
    private static List<(DateTime At, double C, double Pct)> Rows() =>
        [.. Enumerable.Range(0, 200).Select(i => (Start.AddMinutes(15 * i), Math.Round(17.3 + (2.7 * Math.Sin(i / 15.0)), 1), Math.Round(61 + (6 * Math.Cos(i / 15.0)), 1)))];

    private static string Text(string heading, Func<int, DateTime, double, double, FormattableString> row) =>
        heading + "\n" + string.Concat(Rows().Select((one, i) => row(i, one.At, one.C, one.Pct).ToString(CultureInfo.InvariantCulture) + "\n"));

    private static Log ReadsBack(string text, double points = 0.0001) => Compared(Read(text, "UTC"), points);

    private static void ReadsBack(byte[] workbook) => Compared(LogReader.Read(LogSource.Of("log.xlsx", workbook), new(Zone: "UTC"), LogWorkbook.Sheets), 0.0001);

    private static Log Compared(Log log, double points)
    {
        var rows = Rows();
        Assert.Equal((rows.Count, rows.Count, 0, 0), (log.RowsRead, log.Count, log.Rejected, log.Repeated));
        for (var i = 0; i < rows.Count; i++)
        {
            Assert.Equal(new DateTimeOffset(rows[i].At, TimeSpan.Zero).ToUnixTimeSeconds(), log[i].UtcSeconds);
            Assert.Equal(rows[i].C, log[i].Celsius, 0.006);
            Assert.Equal(rows[i].Pct, 100 * log[i].Humidity, points);
        }

        return log;
    }

    private static Log Read(string text, string? zone) => LogReader.Read(LogSource.Of("log.csv", Encoding.UTF8.GetBytes(text)), new(Zone: zone));

    private static string Refused(string text) => Assert.Throws<Refusal>(() => Read(text, "UTC")).Message;
}
