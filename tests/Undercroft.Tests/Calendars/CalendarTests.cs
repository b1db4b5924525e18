using System.Text;
using CsCheck;
using Undercroft.Calendars;
using Undercroft.Demo;
using Undercroft.Forecasts.Due;
using Undercroft.Keeping.Adding;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Tests.Forecasts;
using Undercroft.Tests.Ledger;
using Undercroft.Tests.Serving;
using Undercroft.Tests.Shell;
using Xunit;
using Parsed = Ical.Net.Calendar;

namespace Undercroft.Tests.Calendars;

/// <summary>The calendar against the words of RFC 5545, and as an independent library reads it.</summary>
public sealed class CalendarTests
{
    private static readonly DateOnly Today = DemoHousehold.Day;
    private static readonly DateTimeOffset Noon = new(Today, new TimeOnly(12, 0), TimeSpan.Zero);
    private static readonly Cellar Demo = Cellar.Fold(DemoHousehold.Events());

    [Fact]
    public void An_independent_library_reads_what_was_written()
    {
        var entries = ShelfCalendar.Of(Demo, Today);
        var read = Parsed.Load(Encoding.UTF8.GetString(ShelfCalendar.Bytes(Demo, Today)))!;
        Assert.Equal("2.0", read.Version);
        Assert.Equal(entries.Count, read.Events.Count);
        Assert.NotEmpty(entries);
        foreach (var entry in entries)
        {
            var found = read.Events.Single(other => other.Uid == entry.Uid);
            Assert.True(found.IsAllDay);
            Assert.Equal(entry.First.ToDateTime(TimeOnly.MinValue), found.Start!.Value);
            Assert.Equal(entry.Last.AddDays(1).ToDateTime(TimeOnly.MinValue), found.End!.Value);
            Assert.Equal(entry.Summary, found.Summary);
            Assert.Equal(entry.Description, found.Description ?? "");
            Assert.Equal(Noon.UtcDateTime, found.DtStamp!.AsUtc);
        }
    }

    /// <summary>RFC 5545, 3.3.11: a text that is escaped and folded comes back as it was, whatever is in it.</summary>
    [Fact]
    public void Any_text_survives_escaping_and_folding() => Gen.Char["ab -~äößéñ漢字\\;,:\"\n\t"].Array[0, 300]
        .Select(signs => new string(signs))
        .Sample(text =>
        {
            var stream = CalendarText.Of("n", [new("u", Today, Today, "s" + text.Replace("\n", " ", StringComparison.Ordinal), "d" + text)], Noon);
            var found = Parsed.Load(stream)!.Events.Single();
            return found.Description == "d" + text && LinesFit(stream);
        }, seed: Gens.Seed, iter: 300, threads: 1);

    /// <summary>RFC 5545, 3.1: at most 75 octets a line without its end, CR LF between, and no character cut in two.</summary>
    [Theory]
    [InlineData("a")]
    [InlineData("ä")]
    [InlineData("漢")]
    [InlineData("😀")]
    [InlineData("\\")]
    public void Lines_are_folded_by_octets_and_never_inside_a_character(string sign)
    {
        for (var length = 1; length < 120; length++)
        {
            var text = string.Concat(Enumerable.Repeat(sign, length));
            var stream = CalendarText.Of("n", [new("u", Today, Today, text, "")], Noon);
            Assert.True(LinesFit(stream), $"{length} × {sign}");
            var unfolded = stream.Replace("\r\n ", "", StringComparison.Ordinal).Split("\r\n").Single(line => line.StartsWith("SUMMARY:", StringComparison.Ordinal));
            Assert.Equal("SUMMARY:" + text.Replace("\\", "\\\\", StringComparison.Ordinal), unfolded);
        }
    }

    /// <summary>The example of RFC 5545, 3.8.1.5 in its own words: commas and line ends are escaped.</summary>
    [Fact]
    public void Matches_Rfc5545_Section_3_8_1_5_Example()
    {
        const string Told = "Meeting to provide technical review for \"Phoenix\" design.\nHappy Face Conference Room. Phoenix design team MUST attend this meeting.\nRSVP to team leader.";
        const string Written = "Meeting to provide technical review for \"Phoenix\" design.\\nHappy Face Conference Room. Phoenix design team MUST attend this meeting.\\nRSVP to team leader.";
        Assert.Equal(Written, CalendarText.Escaped(Told));
        Assert.Equal(@"a\;b\,c\\d", CalendarText.Escaped(@"a;b,c\d"));
        Assert.Equal("bell", CalendarText.Escaped("be\u0007ll"));
    }

    [Fact]
    public void A_calendar_tells_a_stranger_nothing()
    {
        var text = Encoding.UTF8.GetString(ShelfCalendar.Bytes(Demo, Today)).Replace("\r\n ", "", StringComparison.Ordinal);
        string[] telling = [.. Demo.Lots.Values.Select(lot => lot.Blend.Name!), .. Demo.Places.Values.Select(place => place.Name), "tobacco", "leaf", "mould", "jar", "tin", " g ", "EUR", "blend"];
        Assert.All(telling, word => Assert.DoesNotContain(word, text, StringComparison.OrdinalIgnoreCase));
        var named = Encoding.UTF8.GetString(ShelfCalendar.Bytes(Demo, Today, withNames: true));
        Assert.Contains("Hall closet", named.Replace("\r\n ", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_package_is_looked_at_once_in_a_round_or_by_a_day_of_its_own()
    {
        var made = new OneCellar();
        var jar = made.Add(new AddRequest("One", Net: "50g", Container: "jar-237", Sealed: "2024"));
        var other = made.Add(new AddRequest("Two", Net: "50g", Container: "jar-237", Sealed: "2024"));
        Assert.Equal(2, Rounds(made.Cellar));
        made.Say("2026-05-10", new Fact.Decided(jar, Decision.Watch, new DateOnly(2026, 7, 1), "drops inside"));
        var entries = ShelfCalendar.Of(made.Cellar, Today);
        Assert.Equal(1, Rounds(made.Cellar));
        var again = entries.Single(entry => entry.Summary == $"Look again: {jar}");
        Assert.Equal((new DateOnly(2026, 7, 1), new DateOnly(2026, 7, 1), ""), (again.First, again.Last, again.Description));
        Assert.DoesNotContain(jar.ToString(), Descriptions(entries), StringComparison.Ordinal);
        Assert.Contains(other.ToString(), Descriptions(entries), StringComparison.Ordinal);

        static string Descriptions(IReadOnlyList<CalendarEntry> entries) => string.Join(' ', entries.Select(entry => entry.Description));
        static int Rounds(Cellar cellar) => Descriptions([.. ShelfCalendar.Of(cellar, Today).Where(entry => entry.Summary.StartsWith("Shelf round", StringComparison.Ordinal))]).Split(',').Length;
    }

    /// <summary>What a person set goes before what practice would do, until a look answers it; what spreads does not wait.</summary>
    [Fact]
    public void A_second_look_keeps_a_package_off_the_due_list_until_its_day()
    {
        var made = new OneCellar();
        var jar = made.Add(new AddRequest("One", Net: "50g", Container: "jar-237", Sealed: "2020"));
        Assert.Single(DueList.Of(made.Cellar, Today).Items);
        made.Say("2026-05-12", new Fact.PackageLooked(jar, [Finding.LidLoose])).Say("2026-05-12", new Fact.Decided(jar, Decision.Reseal, new DateOnly(2026, 5, 26)));
        Assert.Empty(DueList.Of(made.Cellar, Today).Items);
        Assert.Single(DueList.Of(made.Cellar, new DateOnly(2026, 5, 26)).Items);
        made.Say("2026-05-13", new Fact.PackageLooked(jar, [Finding.MouldSuspected])).Say("2026-05-13", new Fact.Decided(jar, Decision.Isolate, new DateOnly(2026, 5, 26)));
        Assert.Single(DueList.Of(made.Cellar, Today).Items);
    }

    [Fact]
    public void Identifiers_stay_when_days_move_and_differ_between_cellars()
    {
        var made = new OneCellar();
        var jar = made.Add(new AddRequest("One", Net: "50g", Container: "bag-zip", Sealed: "2026-04"));
        made.Say("2026-05-10", new Fact.Decided(jar, Decision.Watch, new DateOnly(2026, 7, 1)));
        var before = ShelfCalendar.Of(made.Cellar, Today);
        made.Say("2026-05-11", new Fact.Decided(jar, Decision.Watch, new DateOnly(2026, 8, 1)));
        var after = ShelfCalendar.Of(made.Cellar, Today);
        Assert.Equal(Uid(before), Uid(after));
        Assert.NotEqual(First(before), First(after));
        Assert.Equal(after.Count, after.Select(entry => entry.Uid).Distinct().Count());
        var twin = new OneCellar();
        twin.Add(new AddRequest("One", Net: "50g", Container: "bag-zip", Sealed: "2026-04"));
        Assert.Empty(after.Select(entry => entry.Uid).Intersect(ShelfCalendar.Of(twin.Cellar, Today).Select(entry => entry.Uid)));

        static string Uid(IReadOnlyList<CalendarEntry> entries) => entries.Single(entry => entry.Summary.StartsWith("Look again", StringComparison.Ordinal)).Uid;
        static DateOnly First(IReadOnlyList<CalendarEntry> entries) => entries.Single(entry => entry.Summary.StartsWith("Look again", StringComparison.Ordinal)).First;
    }

    [Fact]
    public void A_forecast_is_a_span_and_not_a_day()
    {
        var spans = ShelfCalendar.Of(Demo, Today).Where(entry => entry.Summary.StartsWith("About now", StringComparison.Ordinal)).ToArray();
        Assert.NotEmpty(spans);
        Assert.All(spans, span => Assert.True(span.First >= Today && span.Last > span.First));
    }

    [Fact]
    public void The_same_cellar_and_day_give_the_same_bytes() => Assert.Equal(ShelfCalendar.Bytes(Demo, Today), ShelfCalendar.Bytes(Demo, Today));

    [Fact]
    public async Task The_command_writes_a_file_and_the_page_sends_the_same_without_names()
    {
        using var cli = new Cli();
        await cli.Add("--blend", "Evening ribbon", "--net", "50g", "--container", "jar-237", "--sealed", "2024");
        var answer = await cli.Json("calendar", "--out", "shelf.ics");
        var text = await File.ReadAllTextAsync(answer.GetProperty("files")[0].GetString()!, TestContext.Current.CancellationToken);
        Assert.StartsWith("BEGIN:VCALENDAR\r\n", text, StringComparison.Ordinal);
        Assert.Equal(answer.GetProperty("events").GetArrayLength(), Parsed.Load(text)!.Events.Count);

        await using var page = await OpenPage.Start();
        using (await page.Fill("/add", "rows", ("Blend-0", "Evening ribbon"), ("Container-0", "jar-237"), ("Sealed-0", "2024")))
        {
        }

        using var sent = await page.Send(HttpMethod.Get, "/calendar.ics");
        Assert.Equal("text/calendar", sent.Content.Headers.ContentType?.MediaType);
        var fed = await sent.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Single(Parsed.Load(fed)!.Events);
        Assert.DoesNotContain("Evening", fed, StringComparison.Ordinal);
        Assert.Contains("Shelf round: 1 item", await page.Read("/calendar"), StringComparison.Ordinal);
    }

    private static bool LinesFit(string stream) =>
        !stream.Replace("\r\n", "", StringComparison.Ordinal).Contains('\n', StringComparison.Ordinal)
        && stream.Split("\r\n").All(line => Encoding.UTF8.GetByteCount(line) <= CalendarText.LineOctets)
        && !Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(stream)).Contains('\uFFFD', StringComparison.Ordinal);
}
