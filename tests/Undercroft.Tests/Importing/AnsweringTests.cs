using Undercroft.Importing;
using Undercroft.Importing.Answering;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Sqlite;
using Xunit;

namespace Undercroft.Tests.Importing;

/// <summary>Rows that were not understood: asked, answered, answered alike, left, taken back.</summary>
public sealed class AnsweringTests : IDisposable
{
    private static readonly DateTimeOffset Noon = new(FixtureTests.Today, new TimeOnly(12, 0), TimeSpan.Zero);

    private readonly string root = Directory.CreateTempSubdirectory("undercroft-answers").FullName;
    private readonly KeptSheets kept = new();
    private readonly SqliteCellars cellars;

    public AnsweringTests() => cellars = SqliteCellars.OpenOrCreate(DataFolder.OrNew(root));

    public void Dispose()
    {
        cellars.Dispose();
        Directory.Delete(root, recursive: true);
    }

    [Theory]
    [InlineData(2, "day-or-month")]
    [InlineData(4, "unit-missing")]
    [InlineData(5, "several")]
    [InlineData(6, "out-of-order")]
    [InlineData(7, "below-zero")]
    [InlineData(9, "date-relative")]
    [InlineData(10, "twin")]
    [InlineData(11, "date-unclear")]
    [InlineData(12, "overfull")]
    [InlineData(13, "total")]
    public async Task Every_check_asks_with_readings_to_choose_from(int row, string kind)
    {
        var asked = Assert.Single(await Waiting(), waiting => waiting.Row == row);
        Assert.NotEmpty(Assert.Single(asked.Questions, question => question.Kind == kind).Choices);
    }

    [Fact]
    public async Task Totals_that_do_not_add_up_wait_too() =>
        Assert.Contains("is not the sum", Assert.Single((await Waiting()).Single(row => row.Row == 13).Questions).Reason, StringComparison.Ordinal);

    [Theory]
    [InlineData("Blend,Net,Status,Bought\nFen,100 g,half gone,2015\n", "part-left", "half", 50)]
    [InlineData("Blend,Net,Bought,Place\nFen,100 g,2015,attic\nMoss,about a 12 I think,2015,attic\n", "amount-unread", "grams-12", 112)]
    [InlineData("Blend,Tins,Net,Total\nFen,2,100 g,150 g\n", "row-total", "total", 150)]
    [InlineData("Blend,Tins,Net,Total\nFen,2,100 g,150 g\n", "row-total", "packages", 200)]
    [InlineData("Blend,Tins,Net,Left\nFen,3,50 g,16 g left\n", "left-of-several", "in-one-beside-full", 116)]
    [InlineData("Blend,Tins,Net,Left\nFen,3,50 g,16 g left\n", "left-of-several", "in-one", 16)]
    [InlineData("Blend,Tins,Net,Left\nFen,3,50 g,16 g left\n", "left-of-several", "each", 48)]
    [InlineData("Blend,Tins,Net,Left\nFen,3,50 g,15 g left\n", "left-of-several", "even", 15)]
    [InlineData("Blend,Tins,Net,Notes\nFen,3,50 g,\"2 open, 2 closed\"\n", "states", "as-stated", 200)]
    [InlineData("Blend,Tins,Net\nFen,\"3 (2 open, 2 closed)\",50 g\n", "states", "as-stated", 200)]
    [InlineData("Blend,Tins,Net\nFen,\"3 (2 open, 2 closed)\",50 g\n", "states", "as-counted", 150)]
    public async Task What_was_not_read_has_readings_to_choose_from(string sheet, string kind, string choice, double grams)
    {
        var waiting = Assert.Single(await Waiting(sheet));
        Assert.Equal(kind, Assert.Single(waiting.Questions).Kind);
        await Answer(new RowAnswer(waiting.Line, Choice: choice));
        var cellar = await Cellar();
        Assert.Empty(cellar.OpenRows);
        Assert.Equal(grams, cellar.Here.Sum(package => package.Net.Mid?.Grams ?? 0), 6);
    }

    [Theory]
    [InlineData("in-first", 500)]
    [InlineData("same", 1000)]
    public async Task An_amount_across_rows_is_in_the_first_or_in_each(string choice, double grams)
    {
        var book = new WorkbookMaker().Sheet("Cellar", [["Blend", "Net", "Bought"], ["Fen", "500 g", "2015"], ["Moss", null, "2016"]], ["B2:B3"]).Bytes();
        await ImportSheet.RunAsync(cellars, DataFolder.OrNew(root), new SheetRequest("mine.xlsx", book), _ => FixtureTests.Today, _ => Noon);
        var waiting = Assert.Single(await Waiting());
        Assert.Equal("across-rows", Assert.Single(waiting.Questions).Kind);
        await Answer(new RowAnswer(waiting.Line, Choice: choice));
        Assert.Empty((await Cellar()).OpenRows);
        Assert.Equal(grams, (await Cellar()).Here.Sum(package => package.Net.Mid?.Grams ?? 0), 6);
    }

    [Fact]
    public async Task A_total_that_adds_up_after_an_answer_waits_no_longer()
    {
        var waiting = await Waiting("Blend,Net,Bought\nFen,100 g,2015\nMoss,50,2016\nLarch,25 g,2017\nTotal,175 g,\n");
        Assert.Equal([3, 5], waiting.Select(row => row.Row));
        Assert.EndsWith("Row 3 alone has no weight.", waiting[1].Questions[0].Reason, StringComparison.Ordinal);
        await Answer(new RowAnswer(waiting[0].Line, Choice: "ounces"));
        Assert.Equal(5, Assert.Single(await Waiting()).Row);
        await cellars.ChangeAsync(cellar => [Rules.Undo(cellar, null, Noon)], TestContext.Current.CancellationToken);
        await Answer(new RowAnswer(waiting[0].Line, Choice: "grams"));
        Assert.Empty(await Waiting());
        Assert.Empty((await Cellar()).OpenRows);
        await cellars.ChangeAsync(cellar => [Rules.Undo(cellar, null, Noon)], TestContext.Current.CancellationToken);
        Assert.Equal([3, 5], (await Waiting()).Select(row => row.Row));
    }

    [Fact]
    public async Task Checks_across_rows_are_repeated_after_an_answer()
    {
        const string sheet = "No,Blend,Net,Bought\n1,Fen,100 g,2015\n2,Moss,50 g,2016\n2,Larch,25 g,2017\n4,Bay,10 g,2018\n5,Oak,30,2018\n";
        var waiting = await Waiting(sheet);
        Assert.Equal([4, 6], waiting.Select(row => row.Row));
        // Another number that is taken is asked again; a free one is not.
        await Answer(new RowAnswer(waiting[0].Line, Say: ["No=4"]));
        Assert.Contains("stands in row 5, too", (await Waiting())[0].Questions[0].Reason, StringComparison.Ordinal);
        await Answer(new RowAnswer(waiting[0].Line, Say: ["No=3"]));
        Assert.Equal(6, Assert.Single(await Waiting()).Row);
        // An answer about one row that makes it the twin of another is asked about.
        await Answer(new RowAnswer(waiting[1].Line, Say: ["No=1", "Net=30 g"]));
        Assert.Equal("label-twice", Assert.Single(Assert.Single(await Waiting()).Questions).Kind);
    }

    [Fact]
    public async Task An_answer_corrects_the_packages_that_are_there()
    {
        var row = (await Waiting()).Single(waiting => waiting.Row == 4);
        var done = await Answer(new RowAnswer(row.Line, Choice: "ounces"));
        var package = (await Cellar()).FindPackage(Assert.Single(done.Packages));
        Assert.Equal(row.Packages, done.Packages);
        Assert.Equal(50 * 28.349523125, package.Net.Mid!.Value.Grams, 6);
    }

    [Fact]
    public async Task One_answer_serves_similar_rows_and_one_undo_takes_them_all_back()
    {
        var before = await Waiting();
        var first = before.Single(row => row.Row == 2);
        Assert.Equal(1, Assert.Single(first.Questions).Alike);
        var done = await Answer(new RowAnswer(first.Line, Choice: "month-first", Alike: true));
        Assert.Equal((2, before.Count - 2), (done.Rows, done.Open));
        var cellar = await Cellar();
        Assert.Equal(["2013-12-04", "2014-03-05"], cellar.Here.Where(package => cellar.BlendOf(package).Name is "Harbour Flake" or "Old Orchard")
            .Select(package => cellar.Lines.Single(line => line.Event.Id == cellar.Lots[package.Lot].AddedBy).Happened.ToString()).Distinct().Order());
        await Undo();
        Assert.Equal(before.Select(row => row.Line), (await Waiting()).Select(row => row.Line));
    }

    [Fact]
    public async Task A_row_that_was_held_back_becomes_packages_once_it_is_answered()
    {
        var row = (await Waiting()).Single(waiting => waiting.Row == 7);
        Assert.True(row.HeldBack);
        Assert.Empty(row.Packages);
        var done = await Answer(new RowAnswer(row.Line, Choice: "positive"));
        var cellar = await Cellar();
        var package = cellar.FindPackage(Assert.Single(done.Packages));
        Assert.Equal(("Moss", 50.0), (cellar.BlendOf(package).Name, package.Net.Mid!.Value.Grams));
        await Undo();
        Assert.DoesNotContain((await Cellar()).Here, one => one.Id == package.Id);
        Assert.True((await Waiting()).Single(waiting => waiting.Row == 7).HeldBack);
    }

    [Fact]
    public async Task A_count_that_was_missing_keeps_the_package_and_adds_the_others()
    {
        var row = (await Waiting()).Single(waiting => waiting.Row == 5);
        var done = await Answer(new RowAnswer(row.Line, Say: ["Amount=3 tins"]));
        Assert.Equal(3, done.Packages.Count);
        Assert.Contains(row.Packages[0], done.Packages);
        Assert.DoesNotContain(await Waiting(), waiting => waiting.Row == 5);
    }

    [Fact]
    public async Task Fewer_packages_than_before_are_taken_back()
    {
        var row = (await Waiting()).Single(waiting => waiting.Row == 2);
        var done = await Answer(new RowAnswer(row.Line, Say: ["Amount=50 g"]));
        var cellar = await Cellar();
        Assert.Single(cellar.Here, package => cellar.BlendOf(package).Name == "Harbour Flake");
        Assert.Single(done.Packages);
    }

    [Fact]
    public async Task A_twin_can_be_left_out_and_swapped_days_put_right()
    {
        var waiting = await Waiting();
        await Answer(new RowAnswer(waiting.Single(row => row.Row == 10).Line, Choice: "leave-out"));
        await Answer(new RowAnswer(waiting.Single(row => row.Row == 6).Line, Choice: "swapped"));
        var cellar = await Cellar();
        Assert.Single(cellar.Here, package => cellar.BlendOf(package).Name == "Larch");
        var fen = cellar.Here.Single(package => cellar.BlendOf(package).Name == "Fen");
        Assert.Equal("2014-01-05", fen.Timeline.Single(entry => entry.Fact is Fact.PackageOpened).Happened.ToString());
    }

    [Fact]
    public async Task What_is_left_as_it_is_waits_no_more_and_changes_nothing()
    {
        var row = (await Waiting()).Single(waiting => waiting.Row == 13);
        var before = (await Cellar()).Packages.Count;
        await Answer(new RowAnswer(row.Line, Leave: true));
        Assert.DoesNotContain(await Waiting(), waiting => waiting.Line == row.Line);
        Assert.Equal(before, (await Cellar()).Packages.Count);
        await Assert.ThrowsAsync<Refusal>(async () => await Answer(new RowAnswer(row.Line, Leave: true)));
    }

    [Fact]
    public async Task The_queue_is_found_again_by_another_program()
    {
        var first = (await Waiting())[0];
        await Answer(new RowAnswer(first.Line, Choice: "1"));
        var anew = AnswerRows.Waiting(await Cellar(), DataFolder.Existing(root), new KeptSheets());
        Assert.Equal((await Waiting()).Select(row => (row.Line, row.Questions.Count)), anew.Select(row => (row.Line, row.Questions.Count)));
        Assert.DoesNotContain(anew, row => row.Line == first.Line);
    }

    [Fact]
    public async Task Answers_go_with_the_import_that_they_are_about()
    {
        var waiting = await Waiting();
        await Answer(new RowAnswer(waiting.Single(row => row.Row == 7).Line, Choice: "positive"));
        await Answer(new RowAnswer(waiting.Single(row => row.Row == 4).Line, Choice: "grams", Alike: true));
        var import = (await Cellar()).Imports[0].Entry.Event;
        await cellars.ChangeAsync(cellar => [Rules.Undo(cellar, import, Noon)], TestContext.Current.CancellationToken);
        var bare = await Cellar();
        Assert.Empty(bare.Packages);
        Assert.Empty(bare.RowAnswers);
    }

    [Fact]
    public async Task What_cannot_be_is_refused_and_says_what_there_is()
    {
        var row = (await Waiting()).Single(waiting => waiting.Row == 4);
        var choice = await Assert.ThrowsAsync<Refusal>(async () => await Answer(new RowAnswer(row.Line, Choice: "9")));
        Assert.Contains("1 (grams)", choice.Message, StringComparison.Ordinal);
        var column = await Assert.ThrowsAsync<Refusal>(async () => await Answer(new RowAnswer(row.Line, Say: ["Taste=good"])));
        Assert.Contains("Amount", column.Message, StringComparison.Ordinal);
        await Assert.ThrowsAsync<Refusal>(async () => await Answer(new RowAnswer(1, Choice: "1")));
        await Assert.ThrowsAsync<Refusal>(async () => await Answer(new RowAnswer(row.Line)));
        await Assert.ThrowsAsync<Refusal>(async () => await Answer(new RowAnswer(row.Line, Choice: "1", Leave: true)));
    }

    [Fact]
    public async Task Without_the_kept_file_the_reasons_stay_and_can_be_left()
    {
        var row = (await Waiting()).Single(waiting => waiting.Row == 4);
        Directory.Delete(Path.Combine(root, "imports"), recursive: true);
        var bare = AnswerRows.Waiting(await Cellar(), DataFolder.Existing(root), new KeptSheets()).Single(waiting => waiting.Line == row.Line);
        Assert.Equal(row.Questions[0].Reason, Assert.Single(bare.Questions).Reason);
        var done = await AnswerRows.RunAsync(cellars, DataFolder.Existing(root), new KeptSheets(), new RowAnswer(row.Line, Leave: true), _ => Noon);
        Assert.Equal(1, done.Rows);
    }

    private async Task<IReadOnlyList<QueuedRow>> Waiting(string sheet)
    {
        await ImportSheet.RunAsync(cellars, DataFolder.OrNew(root), new SheetRequest("mine.csv", System.Text.Encoding.UTF8.GetBytes(sheet)), _ => FixtureTests.Today, _ => Noon);
        return await Waiting();
    }

    private async Task<IReadOnlyList<QueuedRow>> Waiting()
    {
        var folder = DataFolder.OrNew(root);
        if ((await Cellar()).Imports.Count == 0)
            await ImportSheet.RunAsync(cellars, folder, new SheetRequest("queue.csv", FixtureTests.Bytes("queue.csv")), _ => FixtureTests.Today, _ => Noon);
        return AnswerRows.Waiting(await Cellar(), folder, kept);
    }

    private async Task<Answered> Answer(RowAnswer answer) => await AnswerRows.RunAsync(cellars, DataFolder.OrNew(root), kept, answer, _ => Noon);

    private async Task Undo() => await cellars.ChangeAsync(cellar => [Rules.Undo(cellar, null, Noon)], TestContext.Current.CancellationToken);

    private async Task<Cellar> Cellar() => await cellars.ReadAsync(cancellation: TestContext.Current.CancellationToken);
}
