using System.Text;
using System.Text.Json;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Ledger;

/// <summary>Every event ever written must read for ever. Lines of the stored file are only ever added.</summary>
public class EventLineTests
{
    private static readonly ShortId[] Ids = [.. ShortId.From(0).Take(4)];
    private static readonly PlaceId Cupboard = new(Ids[0]);
    private static readonly PlaceId House = new(Ids[3]);
    private static readonly LotId Ribbon = new(Ids[1]);
    private static readonly PackageId Jar = new(Ids[2]);
    private static readonly Guid Earlier = new("0198c0de-0000-7000-8000-000000000001");

    private static readonly Fact[] Examples =
    [
        new Fact.CellarCreated("Larder under the stairs", true, new DateOnly(2026, 3, 1)),
        new Fact.PlaceAdded(Cupboard, "Cupboard", House, "cupboard", StatedLength.Parse("~500m", SaidBy.Memory), new StatedClimate(StatedTemperature.Parse("16C..22C", SaidBy.Guess), StatedFraction.Parse("45%..60%"), "dry in winter")),
        new Fact.ClimateStated(Cupboard, new StatedClimate(StatedTemperature.Parse("18C"))),
        new Fact.LotAdded(Ribbon, new Blend("Evening ribbon", [new LeafShare("flue-cured", StatedFraction.Parse("70%")), new LeafShare("burley")], "ribbon", "a little honey"), UnevenDate.Parse("2015~"), StatedMass.Parse("8oz", SaidBy.Label), Money.Parse("32.50 EUR", SaidBy.Receipt), "from a friend", "8oz bag '15"),
        new Fact.PackagesAdded(Ribbon, [Jar], new Container("jar-473", "pint jar", StatedVolume.Parse("473ml"), StatedMass.Parse("412g", SaidBy.Weighed)), StatedMass.Parse("~100g", SaidBy.Guess), StatedMass.Parse("513.2g", SaidBy.Weighed), StatedFraction.Parse("12-15%"), UnevenDate.Parse("2016-21"), Cupboard, "top row", true),
        new Fact.PackageWeighed(Jar, new Mass(0.5132), true, new Mass(0.0001), "513.2 g"),
        new Fact.HumidityRead(Jar, new RelativeHumidity(0.62), new Temperature(293.65), "62 %"),
        new Fact.PackageLooked(Jar, Enum.GetValues<Finding>(), new Length(0.002), Feel.SpringsBack, "rim dusty"),
        new Fact.PackageOpened(Jar, "for Sunday"),
        new Fact.PackageClosed(Jar, null),
        new Fact.LeafTaken(Jar, StatedMass.Parse("about 10 g", SaidBy.Guess)),
        new Fact.PackageMoved(Jar, House, "damp there"),
        new Fact.PackageRepacked(Jar, new Container(null, "old jam jar"), StatedMass.Parse("300g"), StatedMass.Parse("90g"), "chipped rim"),
        new Fact.WaterAdded(Jar, StatedMass.Parse("-4.1g", SaidBy.Weighed), "spread on paper"),
        new Fact.PackageRemoved(Jar, RemovedAs.Given, Money.Parse("5 EUR"), "to a neighbour"),
        new Fact.PaceStated(StatedMass.Parse("10g"), 7, Jar),
        new Fact.Noted("smells of figs", Jar.Id),
        new Fact.EventCorrected(Earlier, new Fact.PackageWeighed(Jar, new Mass(0.5123)), true, UnevenDate.Parse("2020-05"), "read the wrong line"),
        new Fact.EventUndone(Earlier, "wrong jar"),
        new Fact.SheetImported("stock.csv", "9f86d081", 217, 3, "name=B, net=C"),
        new Fact.RowDoubted("stock.csv", "9f86d081", 14, ["?", "2x50g", ""], "two masses in one cell", "Sheet 1"),
        new Fact.ContainerStated(Jar, new Container(Tare: StatedMass.Parse("409g", SaidBy.Weighed))),
        new Fact.ReadingsImported(Cupboard, "logger.csv", "9f86d081", "shelf 2", "Europe/Berlin", "C", "day before month", Earlier, 3, new DateTimeOffset(2020, 5, 1, 6, 0, 0, TimeSpan.Zero), new DateTimeOffset(2020, 5, 1, 7, 0, 0, TimeSpan.Zero), "4e07408562bedb8b60ce05c1decfe3ad16b72230967de01f640b7e4729b49fce", 2, 1),
        new Fact.HygrometerChecked(Cupboard, [new HygrometerPoint(new RelativeHumidity(0.755), new RelativeHumidity(0.73), "NaCl"), new HygrometerPoint(new RelativeHumidity(0.331), new RelativeHumidity(0.36))], "shelf 2", 1.146, -0.081, new Temperature(293.15), "in a jar overnight"),
        new Fact.RowAnswered(Earlier, "day or month first?", "4 December 2013", [new CellSaid("C", "2013-12-04")], ["has no unit"], true, true),
        new Fact.Decided(Jar, Decision.EnjoySoon, new DateOnly(2020, 6, 1), "lid lifts"),
        new Fact.PhotoKept(Jar, "4e07408562bedb8b60ce05c1decfe3ad16b72230967de01f640b7e4729b49fce", "by the window"),
        new Fact.PhotoMarked(Jar, "4e07408562bedb8b60ce05c1decfe3ad16b72230967de01f640b7e4729b49fce", new PhotoPatch(0.2, 0.25, 0.5, 0.5), new PhotoPatch(0, 0, 0.1, 0.1)),
        new Fact.FilmDescribed("shop-pouch", "pouch of the shop round the corner", 1.2, new Temperature(311.15), new RelativeHumidity(0.9), 2.5, new Temperature(296.15), true, "sheet of May"),
        new Fact.ContainerDescribed("my-crock", "stoneware crock", "clamp-500-rubber", StatedVolume.Parse("2l"), StatedMass.Parse("2.1kg", SaidBy.Weighed), new OwnWall("shop-pouch", 0.02), new OwnGasket("butyl", new Length(0.4), new Length(0.002), new Length(0.008)), StatedMass.Parse("500g"), Money.Parse("12 EUR"), "from the market"),
        new Fact.RuleSwitched("tint", false, "my shelf is lit"),
        new Fact.OutdoorsStated(House, [274, 275, 279, 283, 288, 291, 293, 292, 288, 283, 278, 275], [0.85, 0.82, 0.76, 0.7, 0.69, 0.7, 0.7, 0.72, 0.77, 0.82, 0.86, 0.87], 4.5, "hill.epw"),
        new Fact.AltitudeStated(House, StatedLength.Parse("1250m")),
        new Fact.LotValued(Ribbon, Money.Parse("40 EUR"), Money.Parse("30..60 EUR"), "a shop's list"),
    ];

    [Fact]
    public void Every_registered_name_has_an_example() =>
        Assert.Equal(FactNames.All, Examples.Select(fact => fact.Type));

    [Fact]
    public void Stored_lines_read_and_write_back_unchanged()
    {
        var stored = StoredLines();
        Assert.NotEmpty(stored);
        foreach (var line in stored)
            Assert.Equal(line, EventLine.Write(EventLine.Read(line)));
        Assert.Superset(FactNames.All.ToHashSet(), stored.Select(line => EventLine.Read(line).Fact.Type).ToHashSet());
    }

    [Fact]
    public void The_short_way_reads_what_the_general_way_reads()
    {
        var quick = 0;
        foreach (var line in StoredLines())
        {
            var bytes = System.Text.Encoding.UTF8.GetBytes(line);
            if (QuickLine.Read(bytes) is not { } read)
                continue;
            quick++;
            Assert.Equal(EventLine.Write(EventLine.ReadAny(bytes)), EventLine.Write(read));
        }

        Assert.True(quick >= 8, FormattableString.Invariant($"{quick} lines went the short way"));
    }

    /// <summary>The general way takes longer to set up than a short command has: a usual ledger must do without it.</summary>
    [Theory]
    [InlineData("cellar-created/1", """{"type":"cellar-created/1","name":"Home"}""")]
    [InlineData("place-added/1", """{"type":"place-added/1","place":"QG9XS","name":"Shelf","inside":"YB8CC","roomKind":"cupboard","altitude":{"about":200,"unit":"m"},"climate":{"temperature":{"from":288.15,"to":297.15,"unit":"K"},"humidity":{"from":0.4,"to":0.6,"unit":"1"}}}""")]
    [InlineData("lot-added/1", """{"type":"lot-added/1","lot":"7JS7C","blend":{"name":"Evening","cut":"ribbon","leaf":[{"kind":"burley","share":{"exact":0.7,"unit":"1"}},{"kind":"oriental"}]},"made":"2015","net":{"exact":0.5,"unit":"kg"},"paid":{"exact":40.00,"currency":"EUR"},"text":"a row"}""")]
    [InlineData("packages-added/1", """{"type":"packages-added/1","lot":"7JS7C","packages":["HZA06","B2AZS"],"container":{"kind":"jar-237","tare":{"exact":0.22,"unit":"kg"}},"net":{"exact":0.05,"unit":"kg"},"moisture":{"about":0.14,"unit":"1"},"sealed":"2016-03","place":"QG9XS","note":"top","opened":true}""")]
    [InlineData("package-repacked/1", """{"type":"package-repacked/1","package":"HZA06","container":{"kind":"jar-473"},"gross":{"exact":0.5,"unit":"kg"}}""")]
    [InlineData("event-corrected/1", """{"type":"event-corrected/1","event":"0198c0de-0000-7000-8000-000000000002","replacement":{"type":"package-weighed/1","package":"HZA06","massKg":0.5},"replacesDate":true,"happened":"2020-01-02","reason":"misread"}""")]
    [InlineData("event-undone/1", """{"type":"event-undone/1","event":"0198c0de-0000-7000-8000-000000000002"}""")]
    public void What_every_ledger_has_goes_the_short_way_and_reads_the_same(string type, string fact)
    {
        var line = System.Text.Encoding.UTF8.GetBytes($$"""{"version":1,"id":"0198c0de-0000-7000-8000-000000000001","happened":"2020-05-01","recorded":"2020-05-01T12:00:00+00:00","fact":{{fact}}}""");
        var quick = QuickLine.Read(line);
        Assert.NotNull(quick);
        Assert.Equal(type, quick.Fact.Type);
        Assert.Equal(EventLine.Write(EventLine.ReadAny(line)), EventLine.Write(quick));
    }

    [Fact]
    public void The_short_way_writes_what_the_general_way_writes()
    {
        CellarEvent[] lines = [.. Examples.Select(Line), .. StoredLines().Select(EventLine.Read), .. Examples.Select((fact, i) => Line(fact, i) with { Who = "a \u201Cpen\u201D \ud800", Happened = UnevenDate.Unknown })];
        var quick = 0;
        foreach (var line in lines)
        {
            var general = new System.Buffers.ArrayBufferWriter<byte>();
            using (var writer = EventLine.Writer(general))
                EventLine.WriteAny(writer, line);
            var text = new System.Buffers.ArrayBufferWriter<byte>();
            using (var writer = EventLine.Writer(text))
            {
                quick += QuickLine.Write(writer, line) ? 1 : 0;
                writer.Reset(text);
                text.ResetWrittenCount();
                EventLine.Write(writer, line);
            }

            Assert.Equal(EventLine.Write(line), System.Text.Encoding.UTF8.GetString(general.WrittenSpan));
            Assert.Equal(EventLine.Write(line), System.Text.Encoding.UTF8.GetString(text.WrittenSpan));
        }

        Assert.True(quick >= 4, FormattableString.Invariant($"{quick} lines went the short way"));
    }

    [Fact]
    public void Examples_are_written_as_stored()
    {
        string[] written = [.. Examples.Select((fact, i) => EventLine.Write(Line(fact, i)))];
        Assert.Equal(StoredLines().Take(written.Length), written);
    }

    [Fact]
    public void Every_word_of_every_list_is_pinned()
    {
        Assert.Equal("all-well lid-loose lid-lifted film-slack film-split bulge rust seam-rust dent condensation crisp-edges mould-suspected crystals darkened insects label-lost", string.Join(' ', CodeWords.All<Finding>()));
        Assert.Equal("crumbles breaks crisp-edge springs-back stays-pressed damp", string.Join(' ', CodeWords.All<Feel>()));
        Assert.Equal("finished given sold discarded lost split", string.Join(' ', CodeWords.All<RemovedAs>()));
        Assert.Equal("watch isolate reseal move enjoy-soon discard", string.Join(' ', CodeWords.All<Decision>()));
        Assert.Equal("unstated label receipt weighed memory guess", string.Join(' ', CodeWords.All<SaidBy>()));
        Assert.Equal("unknown exact about between", string.Join(' ', CodeWords.All<Evenness>()));
    }

    [Theory]
    [InlineData("""{"version":1,"id":"0198c0de-0000-7000-8000-000000000001","happened":null,"recorded":"2020-05-01T12:00:00+00:00","fact":{"type":"package-teleported/1","package":"X"}}""", "package-teleported/1")]
    [InlineData("""{"version":1,"id":"0198c0de-0000-7000-8000-000000000001","happened":null,"recorded":"2020-05-01T12:00:00+00:00","fact":{"type":"noted/1","text":"a","colour":"red"}}""", "colour")]
    [InlineData("""{"version":1,"id":"0198c0de-0000-7000-8000-000000000001","happened":null,"recorded":"2020-05-01T12:00:00+00:00","mood":1,"fact":{"type":"noted/1","text":"a"}}""", "mood")]
    [InlineData("""{"version":1,"id":"0198c0de-0000-7000-8000-000000000001","happened":null,"recorded":"2020-05-01T12:00:00+00:00","fact":{"type":"noted/1"}}""", "text")]
    [InlineData("""{"version":1,"id":"0198c0de-0000-7000-8000-000000000001","happened":null,"recorded":"2020-05-01T12:00:00+00:00","fact":{"type":"noted/1","text":null}}""", "text")]
    [InlineData("""{"version":1,"id":"0198c0de-0000-7000-8000-000000000001","happened":"2015-02-30","recorded":"2020-05-01T12:00:00+00:00","fact":{"type":"noted/1","text":"a"}}""", "28 days")]
    [InlineData("""{"version":1,"id":"0198c0de-0000-7000-8000-000000000001","happened":null,"recorded":"2020-05-01T12:00:00+00:00","fact":{"type":"noted/1","text":"a","text":"b"}}""", "text")]
    [InlineData("""{"version":1,"id":"0198c0de-0000-7000-8000-000000000001","happened":null,"recorded":"2020-05-01T12:00:00+00:00","fact":{"type":"package-looked/1","package":"QG9XS","findings":["on-fire"]}}""", "on-fire")]
    [InlineData("""null""", "null")]
    [InlineData("""{""", "no event")]
    [InlineData("", "no event")]
    public void What_it_does_not_know_is_refused(string line, string named) =>
        Assert.Contains(named, Assert.Throws<InvalidDataException>(() => EventLine.Read(line)).Message, StringComparison.OrdinalIgnoreCase);

    /// <summary>A number that JSON allows and no quantity can have; once read as infinite, the line could not be written back.</summary>
    [Fact]
    public void A_number_beyond_all_bounds_is_refused_wherever_it_stands()
    {
        var tried = 0;
        foreach (var line in StoredLines())
        {
            var bytes = Encoding.UTF8.GetBytes(line);
            var reader = new Utf8JsonReader(bytes);
            List<(int At, int Length)> numbers = [];
            while (reader.Read())
            {
                if (reader.TokenType == JsonTokenType.Number)
                    numbers.Add(((int)reader.TokenStartIndex, reader.ValueSpan.Length));
            }

            foreach (var (at, length) in numbers)
            {
                foreach (var beyond in new[] { "1e400", "-1e400" })
                {
                    byte[] changed = [.. bytes[..at], .. Encoding.UTF8.GetBytes(beyond), .. bytes[(at + length)..]];
                    Assert.Throws<InvalidDataException>(() => EventLine.Read(changed));
                    tried++;
                }
            }
        }

        Assert.True(tried > 200);
    }

    [Theory]
    [InlineData("""{"exact":1,"about":2}""")]
    [InlineData("""{"from":2,"to":1}""")]
    [InlineData("""{"from":2}""")]
    [InlineData("""{"exact":1,"unit":"g"}""")]
    [InlineData("""{"exact":"1"}""")]
    [InlineData("""{"heavy":1}""")]
    [InlineData("""{"by":"nobody"}""")]
    [InlineData("""[]""")]
    [InlineData("""5""")]
    public void Stated_amounts_are_read_strictly(string amount) =>
        Assert.Throws<InvalidDataException>(() => EventLine.Read(
            """{"version":1,"id":"0198c0de-0000-7000-8000-000000000001","happened":null,"recorded":"2020-05-01T12:00:00+00:00","fact":{"type":"pace-stated/1","perWeek":""" + amount + "}}"));

    private static CellarEvent Line(Fact fact, int i) => new(i + 1, new Guid(i + 1, 0, 0x7000, [0x80, 0, 0, 0, 0, 0, 0, 0]), UnevenDate.Parse(i % 2 == 0 ? "2020-05-01" : ""), new DateTimeOffset(2020, 5, 1, 12, 0, i, TimeSpan.Zero), fact, i == 5 ? "kitchen scale" : null, i == 20 ? Earlier : null);

    private static string[] StoredLines() => File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Ledger", "events.jsonl"));
}
