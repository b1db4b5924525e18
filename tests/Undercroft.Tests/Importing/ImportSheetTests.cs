using System.Text;
using Undercroft.Importing;
using Undercroft.Importing.Answering;
using Undercroft.Importing.Rows;
using Undercroft.Importing.Sheets;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Sqlite;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Tests.Importing;

/// <summary>A sheet in the ledger: written once, kept, compared, taken back.</summary>
public sealed class ImportSheetTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(FixtureTests.Today, new TimeOnly(12, 0), TimeSpan.Zero);

    private readonly string root = Directory.CreateTempSubdirectory("undercroft-import").FullName;

    public void Dispose() => Directory.Delete(root, recursive: true);

    [Fact]
    public async Task Both_sides_of_the_account_agree_with_the_cellar()
    {
        using var cellars = Open();
        var account = await Import(cellars, "german.csv");
        var cellar = await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(account.PackagesAdded, cellar.Here.Count());
        Assert.Equal(account.GramsAdded, cellar.Here.Sum(package => package.Net.Mid?.Grams ?? 0), 6);
        Assert.Contains("Keller › Regal 2", cellar.Places.Keys.Select(place => cellar.PathOf(place)));
        var flake = cellar.Here.First(package => cellar.BlendOf(package).Name == "Hafenflake");
        Assert.Equal("tin-pull-50", flake.Container.Kind);
        Assert.Equal("Dose", flake.Container.Text);
        Assert.Contains("row 5: Hafenflake | 3 | 50,0", cellar.Lots[flake.Lot].Text, StringComparison.Ordinal);
        Assert.Equal(FixtureTests.Bytes("german.csv"), File.ReadAllBytes(Assert.Single(Directory.GetFiles(Path.Combine(root, "imports")))));
    }

    [Theory]
    [InlineData("jar", "jar")]
    [InlineData("2 large jars", "jar")]
    [InlineData("clamp jar", "clamp")]
    [InlineData("Dose", "tin")]
    [InlineData("pouch", "pouch")]
    [InlineData("zip bag", "bag-zip")]
    [InlineData("bag", "bag")]
    [InlineData("pint jar", "jar-473")]
    [InlineData("cookie tin", null)]
    [InlineData("silver bag", null)]
    [InlineData("crock", null)]
    public async Task A_sort_of_container_counts_as_that_sort_and_words_that_are_not_understood_are_only_kept(string words, string? kind)
    {
        using var cellars = Open();
        var account = await Import(cellars, "words.csv", $"name,amount,container\nEvening ribbon,70g,{words}\n");
        var container = (await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken)).Here.First().Container;
        Assert.Equal(kind, container.Kind);
        Assert.Equal(words, container.Text);
        Assert.Equal(kind is null, account.Remarks.Any(remark => remark.Contains($"'{words}' (1)", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task The_same_file_twice_adds_nothing()
    {
        using var cellars = Open();
        var first = await Import(cellars, "plain.csv");
        var version = (await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken)).Version;
        var second = await Import(cellars, "plain.csv");
        Assert.True(second.AlreadyImported);
        Assert.Equal((first.RowsRead, first.RowsUnderstood, first.GramsRead), (second.RowsRead, second.RowsUnderstood, second.GramsRead));
        Assert.Equal((0, 0.0), (second.PackagesAdded, second.GramsAdded));
        Assert.Equal(version, (await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken)).Version);
    }

    /// <summary>A head that says "each" is not believed where no such jar holds so much: it is what all of them hold, and asked about.</summary>
    [Theory]
    [InlineData("1 lb", "4 pint jars", 4, 453.59, "of each, or of all together")]
    [InlineData("50 g", "4 pint jars", 4, 200, null)]
    [InlineData("5 kg", "2 pint jars", 2, 10_000, "is more than a container")]
    public async Task More_than_such_jars_hold_is_shared_among_them_where_that_fits(string size, string jars, int packages, double grams, string? doubt)
    {
        var dry = await ImportSheet.RunAsync(
            null, null, new SheetRequest("jars.csv", Encoding.UTF8.GetBytes($"Name,Size,How many,Got it\nCask,{size},{jars},2018\nHill flake,50g,2,2019\n")) { DryRun = true }, _ => FixtureTests.Today, _ => Noon);
        Assert.Equal((2, packages + 2), (dry.RowsRead, dry.PackagesAdded));
        Assert.Equal(grams + 100, dry.GramsRead, 0.01);
        Assert.Equal(doubt is null ? 0 : 1, dry.Doubts.Count);
        Assert.All(dry.Doubts, one => Assert.Contains(doubt!, one.Reason, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_dry_run_says_the_same_numbers_and_writes_nothing()
    {
        var request = new SheetRequest("quantities.csv", FixtureTests.Bytes("quantities.csv"));
        var dry = await ImportSheet.RunAsync(null, null, request with { DryRun = true }, _ => FixtureTests.Today, _ => Noon);
        Assert.Empty(Directory.GetFileSystemEntries(root));
        using var cellars = Open();
        var wet = await Import(cellars, "quantities.csv");
        Assert.Equal(
            (dry.RowsRead, dry.RowsUnderstood, dry.RowsDoubtful, dry.PackagesAdded, dry.GramsRead, dry.GramsAdded, dry.Doubts.Count),
            (wet.RowsRead, wet.RowsUnderstood, wet.RowsDoubtful, wet.PackagesAdded, wet.GramsRead, wet.GramsAdded, wet.Doubts.Count));
    }

    [Fact]
    public async Task Doubts_are_kept_with_their_row_and_reason()
    {
        using var cellars = Open();
        var account = await Import(cellars, "twins.csv");
        var cellar = await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(account.Doubts.Select(doubt => (doubt.Row, doubt.Reason)), cellar.DoubtfulRows.Select(row => (row.Fact.Row, row.Fact.Reason)));
        Assert.Contains("Lamplighter Plug", cellar.DoubtfulRows[0].Fact.Cells);
    }

    [Fact]
    public async Task One_undo_takes_the_whole_import_back_and_it_can_come_again()
    {
        using var cellars = Open();
        await Import(cellars, "status.csv");
        await cellars.ChangeAsync(cellar => [Rules.Undo(cellar, null, Noon)], TestContext.Current.CancellationToken);
        var bare = await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken);
        Assert.Empty(bare.Packages);
        Assert.Empty(bare.Places);
        Assert.Empty(bare.DoubtfulRows);
        var again = await Import(cellars, "status.csv");
        Assert.False(again.AlreadyImported);
        Assert.Equal(again.PackagesAdded, (await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken)).Here.Count());
    }

    [Fact]
    public async Task Gone_packages_are_recorded_and_not_on_the_shelf()
    {
        using var cellars = Open();
        var account = await Import(cellars, "status.csv");
        var cellar = await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken);
        Assert.Equal((4, 2), (account.PackagesAdded, account.PackagesGone));
        Assert.Equal((4, 6), (cellar.Here.Count(), cellar.Packages.Count));
        Assert.Equal(2, cellar.Here.Count(package => package.IsOpen));
    }

    [Fact]
    public async Task Rows_that_were_only_added_come_in_alone()
    {
        using var cellars = Open();
        await Import(cellars, "plain.csv");
        var account = await Import(cellars, "plain.csv", Encoding.UTF8.GetString(FixtureTests.Bytes("plain.csv")) + "Old Mill,,100g,tin,2020,cellar,\n");
        Assert.Equal((5, 1, 100.0), (account.RowsRead, account.PackagesAdded, account.GramsAdded));
        Assert.Equal([6], account.Changes!.AddedRows);
        Assert.Equal(5, (await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken)).Here.Count());
    }

    [Fact]
    public async Task A_sheet_with_changed_rows_asks_and_does_as_told()
    {
        using var cellars = Open();
        await Import(cellars, "plain.csv");
        var changed = Encoding.UTF8.GetString(FixtureTests.Bytes("plain.csv")).Replace("1 lb", "2 lb", StringComparison.Ordinal);
        var refusal = await Assert.ThrowsAsync<Refusal>(async () => await Import(cellars, "plain.csv", changed));
        Assert.Contains("3 rows are the same", refusal.Message, StringComparison.Ordinal);
        Assert.Equal(4, (await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken)).Here.Count());

        var replaced = await Import(cellars, "plain.csv", changed, WhenChanged.Replace);
        var cellar = await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(4, cellar.Here.Count());
        Assert.Equal(replaced.GramsAdded, cellar.Here.Sum(package => package.Net.Mid?.Grams ?? 0), 6);
    }

    [Fact]
    public async Task A_changed_sheet_shows_cell_by_cell_what_differs()
    {
        using var cellars = Open();
        const string before = "Blend,Net,Bought,Place\nHarbour Flake,50 g,2015,closet\nEvening Ribbon,100 g,2016,closet\nOld Mill,25 g,2017,attic\n";
        await Import(cellars, "mine.csv", before);
        // A column moved, one cell reads otherwise, one row is gone, one is new.
        var dry = await ImportSheet.RunAsync(
            cellars, DataFolder.OrNew(root), new SheetRequest("mine.csv", Encoding.UTF8.GetBytes("Blend,Place,Net,Bought\nNew One,attic,10 g,2020\nHarbour Flake,closet,50 g,2015\nEvening Ribbon,closet,80 g,2016\n"), DryRun: true), _ => FixtureTests.Today, _ => Noon);
        var changed = Assert.Single(dry.Changes!.ChangedRows);
        Assert.Equal((4, 3), (changed.Row, changed.RowBefore));
        Assert.Equal([new ChangedCell("Net", "100 g", "80 g")], changed.Cells);
        Assert.Equal((1, 2, 4), (dry.Changes.SameRows, Assert.Single(dry.Changes.AddedRows), Assert.Single(dry.Changes.MissingRows)));
        var refusal = await Assert.ThrowsAsync<Refusal>(async () => await Import(cellars, "mine.csv", before.Replace("100 g", "80 g", StringComparison.Ordinal)));
        Assert.Contains("Row 3: Net '100 g' became '80 g'.", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_update_corrects_what_nothing_was_noted_of_and_asks_about_the_rest()
    {
        using var cellars = Open();
        var stop = TestContext.Current.CancellationToken;
        var folder = DataFolder.OrNew(root);
        const string before = "Blend,Tins,Net,Bought,Place\nHarbour Flake,2,50 g,2015,closet\nEvening Ribbon,1,100 g,2016,closet\nOld Mill,1,25 g,2017,attic\nQuiet Street,1,75 g,2018,attic\n";
        await Import(cellars, "mine.csv", before);
        var first = await cellars.ReadAsync(cancellation: stop);
        PackageId Of(Cellar cellar, string name) => cellar.Here.First(package => cellar.BlendOf(package).Name == name).Id;
        var (harbour, evening, mill) = (Of(first, "Harbour Flake"), Of(first, "Evening Ribbon"), Of(first, "Old Mill"));
        await cellars.ChangeAsync(_ => [CellarEvent.New(new Fact.PackageWeighed(evening, new Mass(0.3)), UnevenDate.Unknown, Noon)], stop);

        // Two rows read otherwise, one is gone, one is new; one of the two was weighed.
        const string after = "Blend,Tins,Net,Bought,Place\nNew One,1,10 g,2020,attic\nHarbour Flake,3,60 g,2015,closet\nEvening Ribbon,1,80 g,2016,closet\nOld Mill,1,25 g,2017,attic\n";
        await Assert.ThrowsAsync<Refusal>(async () => await Import(cellars, "mine.csv", after, WhenChanged.Replace));
        var dry = await ImportSheet.RunAsync(cellars, folder, new SheetRequest("mine.csv", Encoding.UTF8.GetBytes(after), DryRun: true), _ => FixtureTests.Today, _ => Noon);
        var done = await Import(cellars, "mine.csv", after, WhenChanged.Update);
        Assert.Equal(dry.Changes!.UpToDate, done.Changes!.UpToDate);
        Assert.Equal(dry.Changes.Asked, done.Changes.Asked);
        Assert.Equal([3], done.Changes.UpToDate);
        Assert.Equal([4, 5], done.Changes.Asked);

        var cellar = await cellars.ReadAsync(cancellation: stop);
        Assert.Equal([10, 25, 60, 60, 60, 75, 100], cellar.Here.Select(package => Math.Round(package.Net.Mid?.Grams ?? 0)).Order());
        Assert.Equal((60.0, 25.0), (Math.Round(cellar.Packages[harbour].Net.Mid!.Value.Grams), Math.Round(cellar.Packages[mill].Net.Mid!.Value.Grams)));
        var waiting = AnswerRows.Waiting(cellar, folder, new KeptSheets());
        Assert.Equal(["changed", "gone-from-sheet"], waiting.Select(row => Assert.Single(row.Questions).Kind));
        Assert.Equal([evening.ToString()], waiting[0].Packages);

        // As the row reads now; what is gone stays.
        await AnswerRows.RunAsync(cellars, folder, new KeptSheets(), new RowAnswer(waiting[0].Line, Choice: "as-now"), _ => Noon);
        await AnswerRows.RunAsync(cellars, folder, new KeptSheets(), new RowAnswer(waiting[1].Line, Leave: true), _ => Noon);
        cellar = await cellars.ReadAsync(cancellation: stop);
        Assert.Empty(AnswerRows.Waiting(cellar, folder, new KeptSheets()));
        Assert.Equal(80, Math.Round(cellar.Packages[evening].Net.Mid!.Value.Grams));

        // The same file once more adds nothing; the next state of the sheet finds its rows again, and one undo takes an update back.
        Assert.True((await Import(cellars, "mine.csv", after, WhenChanged.Update)).AlreadyImported);
        var third = await Import(cellars, "mine.csv", after.Replace("25 g", "20 g", StringComparison.Ordinal), WhenChanged.Update);
        Assert.Equal([5], third.Changes!.UpToDate);
        Assert.Empty(third.Changes.Asked);
        Assert.Equal(20, Math.Round((await cellars.ReadAsync(cancellation: stop)).Packages[mill].Net.Mid!.Value.Grams));
        await cellars.ChangeAsync(now => [Rules.Undo(now, null, Noon)], stop);
        Assert.Equal(25, Math.Round((await cellars.ReadAsync(cancellation: stop)).Packages[mill].Net.Mid!.Value.Grams));
    }

    [Fact]
    public async Task A_column_that_is_new_changes_rows_and_doubles_none()
    {
        using var cellars = Open();
        await Import(cellars, "mine.csv", "Blend,Net,Bought\nHarbour Flake,50 g,2015\nEvening Ribbon,100 g,2016\n");
        await Assert.ThrowsAsync<Refusal>(async () => await Import(cellars, "mine.csv", "Blend,Net,Place,Bought\nHarbour Flake,50 g,closet,2015\nEvening Ribbon,100 g,attic,2016\n"));
        await Import(cellars, "mine.csv", "Blend,Net,Place,Bought\nHarbour Flake,50 g,closet,2015\nEvening Ribbon,100 g,attic,2016\nOld Mill,25 g,attic,2017\n", WhenChanged.AddNew);
        Assert.Equal(3, (await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken)).Here.Count());
    }

    [Fact]
    public async Task Answers_about_rows_that_are_the_same_outlive_a_replaced_import()
    {
        using var cellars = Open();
        const string before = "Blend,Net,Bought\nHarbour Flake,50,2015\nEvening Ribbon,70,2016\nOld Mill,4,2017\nQuiet Street,100 g,2018\n";
        await Import(cellars, "mine.csv", before);
        var kept = new KeptSheets();
        var folder = DataFolder.OrNew(root);
        var waiting = AnswerRows.Waiting(await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken), folder, kept);
        await AnswerRows.RunAsync(cellars, folder, kept, new RowAnswer(waiting[0].Line, Choice: "grams"), _ => Noon);
        await AnswerRows.RunAsync(cellars, folder, kept, new RowAnswer(waiting[1].Line, Choice: "grams"), _ => Noon);
        await AnswerRows.RunAsync(cellars, folder, kept, new RowAnswer(waiting[2].Line, LeaveOut: true), _ => Noon);
        var changed = before.Replace("70,2016", "75,2016", StringComparison.Ordinal);
        var refusal = await Assert.ThrowsAsync<Refusal>(async () => await Import(cellars, "mine.csv", changed));
        Assert.Contains("what you answered about 2 rows still holds", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("your answers about rows 3 of the earlier file would be dropped", refusal.Message, StringComparison.Ordinal);

        var account = await Import(cellars, "mine.csv", changed, WhenChanged.Replace);
        var cellar = await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken);
        // The first is 50 g as answered, the second waits again, the third stays out, the fourth was never asked about.
        Assert.Equal((3, 150.0), (account.PackagesAdded, account.GramsAdded));
        Assert.Equal([0, 50, 100], cellar.Here.Select(package => package.Net.Mid?.Grams ?? 0).Order());
        Assert.Equal(3, Assert.Single(AnswerRows.Waiting(cellar, folder, new KeptSheets())).Row);
        await cellars.ChangeAsync(now => [Rules.Undo(now, null, Noon)], TestContext.Current.CancellationToken);
        Assert.Empty((await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken)).Here);
    }

    [Fact]
    public async Task The_encoding_is_said_in_the_map_and_kept_with_the_import()
    {
        using var cellars = Open();
        var stop = TestContext.Current.CancellationToken;
        var bytes = CodePagesEncodingProvider.Instance.GetEncoding(850)!.GetBytes("Name;Menge;Ort\nMöwenflug;50;Kühlraum\n");
        var guessed = await ImportSheet.RunAsync(cellars, DataFolder.OrNew(root), new SheetRequest("alt.csv", bytes, DryRun: true), _ => FixtureTests.Today, _ => Noon);
        Assert.NotEqual("CP850", guessed.Map.Encoding);
        var map = SheetMap.Read((guessed.Map with { Encoding = "cp850" }).Json());
        var account = await ImportSheet.RunAsync(cellars, DataFolder.OrNew(root), new SheetRequest("alt.csv", bytes, map), _ => FixtureTests.Today, _ => Noon);
        Assert.Equal("CP850", account.Map.Encoding);
        var cellar = await cellars.ReadAsync(cancellation: stop);
        Assert.Equal("Möwenflug", Assert.Single(cellar.Lots.Values).Blend.Name);
        // The queue reads the kept file once more, in the same way.
        Assert.Contains("Möwenflug", Assert.Single(AnswerRows.Waiting(cellar, DataFolder.OrNew(root), new KeptSheets())).Cells.Select(cell => cell.Text));
        Assert.Throws<Refusal>(() => SheetMap.Read("""{ "columns": [], "encoding": "Klingon" }"""));
        Assert.Throws<Refusal>(() => SheetReader.Read("a,b\n1,2\n"u8.ToArray(), encoding: "Klingon"));
    }

    [Fact]
    public async Task A_map_overrules_the_guess()
    {
        using var cellars = Open();
        var map = SheetMap.Read("""{ "columns": [ { "head": "Amount", "meaning": "each", "unit": "g" } ], "dayFirst": true }""");
        var request = new SheetRequest("quantities.csv", FixtureTests.Bytes("quantities.csv"), map, DryRun: true);
        var account = await ImportSheet.RunAsync(cellars, DataFolder.OrNew(root), request, _ => FixtureTests.Today, _ => Noon);
        Assert.DoesNotContain(account.Doubts, doubt => doubt.Row == 11);
        Assert.DoesNotContain("day or month", Assert.Single(account.Doubts).Reason, StringComparison.Ordinal);
        Assert.Equal(SheetMap.Read(account.Map.Json()).Columns, account.Map.Columns);
        Assert.Throws<Refusal>(() => SheetMap.Read("""{ "columns": [ { "head": "Amount", "meaning": "taste" } ] }"""));
    }

    private SqliteCellars Open() => SqliteCellars.OpenOrCreate(DataFolder.OrNew(root));

    private async Task<SheetAccount> Import(SqliteCellars cellars, string file, string? text = null, WhenChanged changed = WhenChanged.Ask) => await ImportSheet.RunAsync(
        cellars, DataFolder.OrNew(root), new SheetRequest(file, text is null ? FixtureTests.Bytes(file) : Encoding.UTF8.GetBytes(text), WhenChanged: changed), _ => FixtureTests.Today, _ => Noon);
}
