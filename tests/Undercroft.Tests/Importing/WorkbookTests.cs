using Undercroft.Importing.Cells;
using Undercroft.Importing.Rows;
using Undercroft.Importing.Sheets;
using Xunit;

namespace Undercroft.Tests.Importing;

/// <summary>Workbooks of several sheets, merged heads, dates by style, units that are only shown.</summary>
public sealed class WorkbookTests
{
    [Fact]
    public void Numbers_dates_and_shown_units_are_read_by_their_style()
    {
        var bytes = new WorkbookMaker().Sheet("Cellar",
        [
            ["Blend", "Net", "Bought", "Jarred", "Moisture", "Opened?"],
            ["Harbour Flake", new WorkbookMaker.Styled(50, WorkbookMaker.Grams), new DateOnly(2015, 3, 1), new WorkbookMaker.Styled(42064, WorkbookMaker.MonthYear), new WorkbookMaker.Styled(0.17, WorkbookMaker.Percent), true],
            [new WorkbookMaker.Inline("Evening Ribbon"), "8 oz", 41365, null, null, false],
        ]).Bytes();
        var reading = Read(bytes);
        Assert.Equal(2, reading.RowsUnderstood);
        Assert.Equal(50 + (8 * UnitWords.OunceGrams), reading.GramsAdded, 6);
        Assert.Equal("2015-03-01", reading.Rows[0].DateOf(DateRole.Bought)!.Edtf);
        Assert.Equal("2015-03", reading.Rows[0].DateOf(DateRole.Sealed)!.Edtf);
        Assert.Equal(17, reading.Rows[0].MoisturePct!.Value, 9);
        Assert.True(reading.Rows[0].Open);
        Assert.False(reading.Rows[1].Open);
        Assert.Equal("2013-04-01", reading.Rows[1].DateOf(DateRole.Bought)!.Edtf);
    }

    [Fact]
    public void Merged_heads_and_merged_places_hold_for_all_their_cells()
    {
        var bytes = new WorkbookMaker().Sheet("Cellar",
        [
            ["My cellar", null, null, null],
            ["What", "Amounts", null, "Where"],
            ["Blend", "Count", "Size (g)", "Place"],
            ["Harbour Flake", 2, 50, "closet / top shelf"],
            ["Evening Ribbon", 1, 100, null],
            ["Total", null, 200, null],
        ],
        ["A1:D1", "B2:C2", "D4:D5"]).Bytes();
        var reading = Read(bytes);
        Assert.Equal((2, 2, 3), (reading.RowsRead, reading.RowsUnderstood, reading.Packages));
        Assert.Equal(200, reading.GramsAdded, 9);
        Assert.Equal(["closet", "top shelf"], reading.Rows[1].Place!.Value);
        Assert.Empty(reading.Doubts);
    }

    [Fact]
    public void An_amount_over_several_rows_is_asked_and_not_multiplied()
    {
        var bytes = new WorkbookMaker().Sheet("Cellar",
        [
            ["Blend", "Weight (g)", "Year"],
            ["Harbour Flake", 150, 2015],
            ["Evening Ribbon", null, 2016],
        ],
        ["B2:B3"]).Bytes();
        var reading = Read(bytes);
        Assert.Equal(150, reading.GramsRead, 9);
        Assert.Contains("several rows", Assert.Single(reading.Doubts).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Other_sheets_are_read_by_what_they_hold()
    {
        object?[] head = ["Blend", "Weight", "Container"];
        var bytes = new WorkbookMaker()
            .Sheet("Tins", [head, ["Harbour Flake", "50 g", "tin"]])
            .Sheet("Jars", [head, ["Evening Ribbon", "100 g", "pint jar"]])
            .Sheet("Wishlist", [head, ["Orchard Mixture", "50 g", "tin"]])
            .Sheet("Summary", [["Kind", "Weight"], ["all", "150 g"]])
            .Sheet("Shops", [["Shop", "Town"], ["corner shop", "harbour town"]])
            .Sheet("Finished", [head, ["Old Mill", "50 g", "tin"]], state: "hidden")
            .Bytes();
        var reading = Read(bytes);
        Assert.Equal((4, 3, 2), (reading.RowsRead, reading.RowsUnderstood, reading.Packages));
        Assert.Equal(150, reading.GramsAdded, 9);
        Assert.Equal("Wishlist", Assert.Single(reading.Doubts).Sheet);
        Assert.Contains(reading.Remarks, remark => remark.Contains("'Summary' sums up", StringComparison.Ordinal));
        Assert.Contains(reading.Remarks, remark => remark.Contains("'Shops' holds no packages", StringComparison.Ordinal));
        Assert.Contains(reading.Remarks, remark => remark.Contains("hidden", StringComparison.Ordinal));
    }

    [Fact]
    public void A_formula_counts_by_its_stored_result_and_is_never_computed()
    {
        var bytes = new WorkbookMaker().Sheet("Cellar",
        [
            ["Blend", "Weight (g)", "Year"],
            ["Harbour Flake", new WorkbookMaker.Formula("25*2", 50), 2015],
            ["Evening Ribbon", new WorkbookMaker.Formula("B2*2", null), 2016],
        ]).Bytes();
        var reading = Read(bytes);
        Assert.Equal(50, reading.GramsAdded, 9);
        Assert.Contains("formula without a result", Assert.Single(reading.Doubts).Reason, StringComparison.Ordinal);
    }

    private static SheetReading Read(byte[] bytes) => SheetUnderstanding.Of(SheetReader.Read(bytes), FixtureTests.Today);
}
