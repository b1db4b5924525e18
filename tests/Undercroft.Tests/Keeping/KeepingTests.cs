using System.Text.Json;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Keeping;

/// <summary>The commands that write, through the command line.</summary>
public sealed class KeepingTests : IDisposable
{
    private readonly Cli cli = new();

    public void Dispose() => cli.Dispose();

    [Fact]
    public async Task Adding_nothing_but_a_package_leaves_everything_unknown_as_null()
    {
        var id = await cli.Add();
        var package = await Package(id);
        foreach (var name in new[] { "blend", "cut", "netG", "container", "place", "sealed", "opened", "leafAge", "removed" })
            Assert.Equal(JsonValueKind.Null, package.GetProperty(name).ValueKind);
        Assert.Empty(package.GetProperty("leaf").EnumerateArray());
    }

    [Fact]
    public async Task What_is_added_is_shown()
    {
        var answer = await cli.Json("add", "--blend", "Evening ribbon", "--leaf", "burley", "--cut", "ribbon", "--net", "2oz", "--container", "JAR-237", "--count", "3", "--sealed", "2020-03", "--place", "House/Closet");
        Assert.Equal(3, answer.GetProperty("ids").GetArrayLength());
        Assert.Equal("packages-added/1", answer.GetProperty("event").GetProperty("type").GetString());
        Assert.Equal("House › Closet", answer.GetProperty("newPlace").GetString());
        var package = await Package(answer.GetProperty("ids")[2].GetString()!);
        Assert.Equal(56.699, package.GetProperty("netG").GetDouble(), 0.001); // 2 × 28.349523125 g, the definition of the ounce
        Assert.Equal("jar-237", package.GetProperty("container").GetString());
        Assert.Equal("House › Closet", package.GetProperty("place").GetString());
        Assert.Equal("2020-03", package.GetProperty("sealed").GetString());
        Assert.Equal(6.08, package.GetProperty("leafAge").GetProperty("fromYears").GetDouble(), 0.01); // 31 March 2020 to 1 May 2026: 2222 days
    }

    [Fact]
    public async Task Several_are_written_down_at_once_or_none_and_taken_back_together()
    {
        await cli.Json("place", "add", "Loft", "--room", "attic");
        var (one, other) = (await cli.Add("--blend", "One", "--place", "Loft"), await cli.Add("--blend", "Two", "--place", "Loft"));
        var (third, elsewhere) = (await cli.Add("--blend", "Three", "--place", "Loft"), await cli.Add("--blend", "Four", "--place", "Closet"));
        var moved = await cli.Json("several", "move", "--where", "Loft", "--place", "Closet");
        Assert.Equivalent(new[] { one, other, third }, moved.GetProperty("ids").EnumerateArray().Select(id => id.GetString()), strict: true);
        Assert.Equal("Closet", (await Package(third)).GetProperty("place").GetString());
        await cli.Json("undo", moved.GetProperty("event").GetProperty("id").GetString()!);
        foreach (var id in new[] { one, other, third })
            Assert.Equal("Loft", (await Package(id)).GetProperty("place").GetString());
        await cli.Json("several", "packed-in", "--where", "Loft", "--container", "tin");
        Assert.Equal("tin", (await Package(third)).GetProperty("container").GetString());
        Assert.Contains("say what they are packed in", (await cli.Run("several", "packed-in", one)).Error, StringComparison.Ordinal);
        await cli.Json("remove", other, "--as", "given");
        var refused = await cli.Run("several", "open", one, other, elsewhere);
        Assert.Equal(1, refused.Exit);
        Assert.Contains("Nothing was written for any of them", refused.Error, StringComparison.Ordinal);
        Assert.Equal(JsonValueKind.Null, (await Package(one)).GetProperty("opened").ValueKind);
        Assert.Equal(2, (await cli.Run("several", "open")).Exit);
        Assert.Equal(2, (await cli.Run("several", "open", one, "--where", "Loft")).Exit);
    }

    [Fact]
    public async Task Each_act_answers_with_its_line_a_verdict_and_doubts()
    {
        var id = await cli.Add("--blend", "One", "--leaf", "burley", "--net", "50g", "--gross", "270g", "--container", "jar-237", "--sealed", "2020");
        await cli.Json("place", "add", "Loft", "--room", "attic");
        (string Type, string[] Words)[] acts =
        [
            ("package-weighed/1", ["weigh", id, "269.5g", "--scale", "0.1g", "--on", "2021"]),
            ("humidity-read/1", ["humidity", id, "62%", "--temperature", "68F", "--on", "2022-02"]),
            ("package-looked/1", ["look", id]),
            ("package-looked/1", ["look", id, "crystals", "--feel", "springs-back", "--note", "fine"]),
            ("container-stated/1", ["measure", id, "--empty", "190g", "--full", "442g", "--tare", "219g"]),
            ("package-opened/1", ["open", id]),
            ("leaf-taken/1", ["take", id, "5g"]),
            ("water-added/1", ["water", id, "-1g"]),
            ("package-closed/1", ["close", id]),
            ("package-moved/1", ["move", id, "loft"]),
            ("package-repacked/1", ["repack", id, "--container", "jar-118", "--tare", "130g", "--net", "44g"]),
            ("noted/1", ["note", id, "smells of raisins"]),
            ("package-removed/1", ["remove", id, "--as", "given"]),
        ];
        var number = 3;
        foreach (var (type, words) in acts)
        {
            var answer = await cli.Json(words);
            number++;
            Assert.Equal(type, answer.GetProperty("event").GetProperty("type").GetString());
            Assert.Equal(number.ToString(System.Globalization.CultureInfo.InvariantCulture), answer.GetProperty("event").GetProperty("id").GetString());
            Assert.False(string.IsNullOrWhiteSpace(answer.GetProperty("verdict").GetString()));
            Assert.Empty(answer.GetProperty("doubts").EnumerateArray());
        }

        var package = await Package(id);
        Assert.Equal("jar-118", package.GetProperty("container").GetString());
        Assert.Equal("Loft", package.GetProperty("place").GetString());
        Assert.Equal("given", package.GetProperty("removed").GetString());
        Assert.Empty((await cli.Json("show")).GetProperty("packages").EnumerateArray());
    }

    [Fact]
    public async Task A_surprising_measurement_is_kept_and_flagged_with_its_line()
    {
        var id = await cli.Add("--net", "50g", "--gross", "270g", "--container", "jar-237", "--sealed", "2020");
        var rose = await cli.Json("weigh", id, "300g");
        Assert.StartsWith("Line 3: it weighs 300 g, more than", Assert.Single(rose.GetProperty("doubts").EnumerateArray().ToArray()).GetString(), StringComparison.Ordinal);
        var full = await cli.Json("weigh", id, "900g", "--net");
        Assert.Contains(full.GetProperty("doubts").EnumerateArray(), doubt => doubt.GetString()!.Contains("should hold", StringComparison.Ordinal));
        Assert.NotEmpty((await Package(id)).GetProperty("doubts").EnumerateArray());
        Assert.Equal(2, (await cli.Json("history", id)).GetProperty("events").EnumerateArray().Count(line => line.GetProperty("type").GetString() == "package-weighed/1"));
    }

    [Fact]
    public async Task A_measured_container_is_told_corrected_and_taken_back()
    {
        var id = await cli.Add("--net", "50g", "--container", "jar-237", "--sealed", "2020");
        var line = (await cli.Json("measure", id, "--empty", "190g", "--full", "442g")).GetProperty("event").GetProperty("id").GetString()!;
        Assert.Contains("holds 252.5 ml", await Told(), StringComparison.Ordinal); // 252 g of water at 998.2 kg/m³
        var off = await cli.Json("measure", id, "--holds", "1l");
        Assert.Contains("about 237 ml", Assert.Single(off.GetProperty("doubts").EnumerateArray().ToArray()).GetString(), StringComparison.Ordinal);
        await cli.Json("correct", off.GetProperty("event").GetProperty("id").GetString()!, "--holds", "251ml");
        Assert.Empty((await Package(id)).GetProperty("doubts").EnumerateArray());
        Assert.Contains("holds 251ml", await Told(), StringComparison.Ordinal);
        await cli.Json("undo", line);
        await cli.Json("measure", id, "--container", "jar-473");
        Assert.Equal("jar-473", (await Package(id)).GetProperty("container").GetString());

        async Task<string> Told() => (await cli.Run("history", id)).Out;
    }

    private static readonly (string Told, string[] Words)[] Impossible =
    [
        ("more than zero", ["weigh", "ID", "0g"]),
        ("more than zero", ["weigh", "ID", "-5g"]),
        ("more than zero", ["take", "ID", "-5g"]),
        ("more than zero", ["take", "ID", "0g"]),
        ("zero", ["water", "ID", "0g"]),
        ("more than zero", ["add", "--net", "0g"]),
        ("more than zero", ["add", "--gross=-1g"]),
        ("no unit", ["weigh", "ID", "50"]),
        ("Accepted units", ["weigh", "ID", "50 stone"]),
        ("no unit", ["add", "--net", "50"]),
        ("no unit", ["add", "--net", "40-60"]),
        ("is not a mass", ["weigh", "ID", "NaN"]),
        ("beyond any size", ["weigh", "ID", "1e400g"]),
        ("between 0 % and 100 %", ["humidity", "ID", "101%"]),
        ("between 0 % and 100 %", ["humidity", "ID", "-1%"]),
        ("no unit", ["humidity", "ID", "62"]),
        ("absolute zero", ["humidity", "ID", "62%", "--temperature=-300C"]),
        ("100 %", ["add", "--moisture", "100%"]),
        ("28 days", ["weigh", "ID", "50g", "--on", "2021-02-29"]),
        ("2021-13", ["open", "ID", "--on", "2021-13"]),
        ("not come yet", ["weigh", "ID", "50g", "--on", "2027"]),
        ("not come yet", ["add", "--sealed", "2030"]),
        ("not come yet", ["add", "--made", "2026-05-02"]),
        ("was sealed 2020", ["open", "ID", "--on", "2019"]),
        ("was sealed 2020", ["take", "ID", "5g", "--on", "2019-12"]),
        ("before the leaf was made", ["add", "--made", "2021", "--sealed", "2020"]),
        ("1 to 500", ["add", "--count", "0"]),
        ("1 to 500", ["add", "--count=-3"]),
        ("1 to 500", ["add", "--count", "501"]),
        ("jar-237", ["add", "--container", "jar-236"]),
        ("burley", ["add", "--leaf", "burly"]),
        ("No container kind", ["repack", "ID", "--container", "crate"]),
        ("Nearest: Closet", ["move", "ID", "Closett"]),
        ("There are: living-room", ["place", "add", "Shed", "--room", "igloo"]),
        ("already", ["place", "add", "closet"]),
        ("Nothing was said", ["measure", "ID"]),
        ("Both weights", ["measure", "ID", "--empty", "212g"]),
        ("must weigh more", ["measure", "ID", "--empty", "698g", "--full", "212g"]),
        ("said twice", ["measure", "ID", "--empty", "212g", "--full", "698g", "--holds", "486ml"]),
        ("Accepted units", ["measure", "ID", "--holds", "486g"]),
        ("more than zero", ["measure", "ID", "--holds", "0ml"]),
        ("Nothing was said", ["measure", "ID", "--holds", "?"]),
        ("No container kind", ["measure", "ID", "--container", "crate"]),
        ("is none of", ["look", "ID", "on-fire"]),
        ("contradict", ["look", "ID", "all-well", "rust"]),
        ("cannot be negative", ["look", "ID", "--bulge=-2mm"]),
        ("is none of: finished", ["remove", "ID", "--as", "eaten"]),
        ("needs words", ["note", "ID", ""]),
        ("There is no line 99", ["undo", "99"]),
        ("not the number of a line", ["undo", "twelve"]),
        ("Nothing would change", ["correct", "3"]),
        ("has no such part", ["correct", "3", "--humidity", "60%"]),
        ("itself no fact", ["correct", "5", "--note", "x", "--on", "2022"]),
    ];

    [Fact]
    public async Task A_place_that_came_with_a_package_is_told_more_of_by_the_command_that_the_answer_names()
    {
        var ran = await cli.Run("add", "--net", "50g", "--container", "tin-slip", "--place", "House/top shelf");
        Assert.Contains("undercroft place add \"top shelf\" --inside House --room KIND", string.Join(' ', ran.Out.Split('\n', StringSplitOptions.TrimEntries)), StringComparison.Ordinal);
        var line = (await cli.Json("place", "add", "top shelf", "--inside", "House", "--room", "attic")).GetProperty("event").GetProperty("id").GetString()!;
        Assert.Equal("attic", await Room());
        Assert.Contains("already", await cli.Refused(1, "place", "add", "Top Shelf", "--inside", "House", "--room", "cupboard"), StringComparison.Ordinal);

        // Said wrongly: corrected on the line that says it; taken back, nothing is known again.
        var first = (await cli.Json("history")).GetProperty("events").EnumerateArray().First(one => one.GetProperty("what").GetString()!.Contains("top shelf", StringComparison.Ordinal)).GetProperty("id").GetString()!;
        var corrected = (await cli.Json("correct", first, "--room", "basement")).GetProperty("event").GetProperty("id").GetString()!;
        Assert.Equal("basement", await Room());
        await cli.Json("undo", corrected);
        await cli.Json("undo", line);
        Assert.Equal("", await Room());

        async Task<string> Room() => (await cli.Run("place", "show", "top shelf")).Out is var shown && shown.Contains("attic", StringComparison.Ordinal) ? "attic" : shown.Contains("basement", StringComparison.Ordinal) ? "basement" : "";
    }

    [Fact]
    public async Task The_impossible_is_refused_and_nothing_changes()
    {
        await cli.Json("place", "add", "Closet"); // line 1
        var id = await cli.Add("--net", "50g", "--sealed", "2020", "--container", "jar-237", "--place", "Closet"); // lines 2 and 3
        await cli.Json("note", id, "first"); // line 4
        await cli.Json("undo"); // line 5
        var before = await cli.Run("history", "--json");
        foreach (var (told, words) in Impossible)
        {
            Assert.Contains(told, await cli.Refused(1, [.. words.Select(word => word == "ID" ? id : word)]), StringComparison.Ordinal);
            Assert.Equal(before, await cli.Run("history", "--json"));
        }
    }

    [Fact]
    public async Task An_unknown_id_is_refused_with_the_nearest_ones()
    {
        var ids = (await cli.Json("add", "--count", "5")).GetProperty("ids").EnumerateArray().Select(id => id.GetString()!).ToArray();
        var letters = ids[0].ToCharArray();
        (letters[1], letters[2]) = (letters[2], letters[1]);
        var typo = letters[1] == letters[2] ? "0" + ids[0][1..] : new string(letters);
        foreach (string[] words in new string[][] { ["weigh", typo, "50g"], ["show", typo], ["history", typo], ["forecast", typo], ["note", typo, "x"], ["move", typo, "x"] })
            Assert.Contains("Nearest: " + ids[0], await cli.Refused(1, words), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_has_left_takes_no_more_and_the_refusal_names_the_line()
    {
        var id = await cli.Add("--net", "50g");
        await cli.Json("remove", id, "--as", "finished");
        Assert.Contains("undo that first: line 3 (package removed).", await cli.Refused(1, "open", id), StringComparison.Ordinal);
        Assert.Contains("left the cellar", await cli.Refused(1, "forecast", id), StringComparison.Ordinal);
        await cli.Json("undo", "3");
        await cli.Json("open", id);
    }

    [Fact]
    public async Task A_place_is_shown_with_its_believed_climate_and_what_stands_there()
    {
        await cli.Json("place", "add", "House", "--altitude", "500m");
        await cli.Json("place", "add", "Closet", "--inside", "House", "--room", "cupboard");
        await cli.Json("place", "add", "Loft", "--temperature", "5C..25C", "--humidity", "40%..60%");
        await cli.Add("--net", "50g", "--count", "2", "--place", "House/Closet");
        await cli.Add("--place", "House");
        var closet = await cli.Json("place", "show", "Closet");
        Assert.Equal("House › Closet", closet.GetProperty("path").GetString());
        Assert.Equal("cupboard", closet.GetProperty("room").GetString());
        Assert.Equal("assumption", closet.GetProperty("climate").GetProperty("provenance").GetString());
        Assert.Equal(0, closet.GetProperty("climate").GetProperty("readings").GetInt32());
        Assert.Equal(95.461, closet.GetProperty("climate").GetProperty("pressureKPa").GetDouble(), 0.001); // standard atmosphere at 500 m: 95 461 Pa (ISO 2533:1975)
        Assert.Equal("typical-year", closet.GetProperty("exposure").GetProperty("basis").GetString());
        Assert.Equal(100, closet.GetProperty("lowG").GetDouble(), 1e-6);
        var house = await cli.Json("place", "show", "House");
        Assert.Equal((3, 1), (house.GetProperty("packages").GetInt32(), house.GetProperty("unknownPackages").GetInt32()));
        var loft = (await cli.Json("place", "show", "loft")).GetProperty("climate");
        Assert.Equal((15, 10, 50), (loft.GetProperty("meanC").GetDouble(), loft.GetProperty("annualSwingC").GetDouble(), loft.GetProperty("meanHumidityPct").GetDouble()));
        Assert.Equal("assumption", loft.GetProperty("provenance").GetString());
        Assert.Contains("No logger", (await cli.Run("place", "show", "loft")).Out, StringComparison.Ordinal);
        Assert.Contains("Nearest", await cli.Refused(1, "place", "show", "Lofft"), StringComparison.Ordinal);
    }

    private async Task<JsonElement> Package(string id) => (await cli.Json("show", id)).GetProperty("packages")[0];
}
