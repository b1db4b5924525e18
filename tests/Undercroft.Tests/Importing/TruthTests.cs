using Undercroft.Importing.Cells;
using Undercroft.Importing.Rows;
using Undercroft.Importing.Sheets;
using Xunit;

namespace Undercroft.Tests.Importing;

/// <summary>Sheets invented from a known cellar: what is imported without a question is true. A row may be asked about; it may not be wrong in silence.</summary>
public class TruthTests(ITestOutputHelper output)
{
    private const int Plain = 40;
    private const int Long = 4_000;

    /// <summary>Of the rows of these sheets, the share that must come in without a question; the others are dates of which nothing decides the order.</summary>
    private const double Understood = 0.75;

    [Fact]
    public void The_truth_is_recovered_or_asked_and_never_silently_wrong()
    {
        int rows = 0, understood = 0;
        var wrong = new List<string>();
        for (var seed = 1; seed <= (Environment.GetEnvironmentVariable("UNDERCROFT_LONG") is null ? Plain : Long); seed++)
        {
            var sheet = InventedSheet.Of(seed);
            var reading = SheetUnderstanding.Of(SheetReader.Read(sheet.Bytes), FixtureTests.Today);
            var read = reading.Rows.ToDictionary(row => row.Row);
            foreach (var extra in reading.Rows.Where(row => sheet.Truths.All(truth => truth.Row != row.Row)))
                wrong.Add($"seed {seed} row {extra.Row}: taken for packages");
            foreach (var truth in sheet.Truths)
            {
                rows++;
                if (!read.TryGetValue(truth.Row, out var row))
                {
                    wrong.Add($"seed {seed} row {truth.Row}: not read: {sheet.Text.Split('\n')[truth.Row - 1]}");
                    continue;
                }

                if (row.Standing != Standing.Understood)
                    continue;
                understood++;
                wrong.AddRange(Differences(truth, row).Select(difference => $"seed {seed} row {truth.Row}: {difference}"));
            }
        }

        output.WriteLine($"{rows} rows, {understood} without a question, {wrong.Count} wrong");
        Assert.True(wrong.Count == 0, string.Join("\n", wrong.Take(30)));
        Assert.True(understood >= Understood * rows, $"{understood} of {rows}");
    }

    private static IEnumerable<string> Differences(Truth truth, RowFacts row)
    {
        if (row.Blend?.Value != truth.Blend)
            yield return $"'{row.Blend?.Value}' for '{truth.Blend}'";
        if (row.Packages != truth.Count)
            yield return $"{row.Packages} packages for {truth.Count}";
        if (Math.Abs(row.GramsAdded - (truth.Count * truth.Grams)) > 1e-6)
            yield return $"{row.GramsAdded} g for {truth.Count * truth.Grams}";
        if (truth.Made is { } made && !(row.DateOf(DateRole.Made) is { First: { } first, Last: { } last } && first.Year <= made && last.Year >= made && last.Year - first.Year <= 2))
            yield return $"made {row.DateOf(DateRole.Made)?.Edtf} for {made}";
        if (truth.Bought is { } bought && row.DateOf(DateRole.Bought)?.First != bought)
            yield return $"bought {row.DateOf(DateRole.Bought)?.Edtf} for {bought:yyyy-MM-dd}";
    }
}
