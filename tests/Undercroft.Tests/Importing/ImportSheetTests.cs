using System.Text;
using Undercroft.Importing;
using Undercroft.Importing.Rows;
using Undercroft.Ledger;
using Undercroft.Ledger.Sqlite;
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
