using System.Buffers;
using System.Text;
using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>Lines between readings that begin something new: another sensor's name, or a heading that says otherwise than the first.</summary>
internal sealed class LogBlocks(Layout layout, string name)
{
    private static readonly SearchValues<char> Marks = SearchValues.Create(":;=,\t|");
    private readonly Dictionary<string, string> first = Labels(layout);

    /// <summary>The sensor whose rows follow, where the lines between them name one; null as long as none does.</summary>
    public byte[]? Name { get; private set; }

    /// <summary>The sensor of the rows above the first such line.</summary>
    public string First { get; private set; } = "without a name";

    /// <summary>Looks at a line that holds no reading.</summary>
    /// <param name="line">Its bytes.</param>
    /// <param name="cells">Its cells.</param>
    /// <param name="within">True where readings stand above it.</param>
    /// <exception cref="Refusal">It is a heading by which the columns hold something else from here on.</exception>
    public void Between(ReadOnlySpan<byte> line, ReadOnlySpan<(int Start, int Length)> cells, bool within)
    {
        if (layout.Of(ColumnMeaning.Sensor) is not null || !within)
            return;
        if (LabelOf(LogWords.Fold(Encoding.UTF8.GetString(line))) is var (label, value))
        {
            var known = first.GetValueOrDefault(label);
            if (known == value && Name is null)
                return;
            if (Name is null && known is not null)
                First = known;
            Name = Encoding.UTF8.GetBytes(value);
            return;
        }

        RefuseOther(line, cells);
    }

    private void RefuseOther(ReadOnlySpan<byte> line, ReadOnlySpan<(int Start, int Length)> cells)
    {
        LogColumn[] read = [.. layout.Columns.Where(column => column.Meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity)];
        foreach (var column in read)
        {
            if (column.Index >= cells.Length || HeadingWords.Meaning(LogWords.Fold(Cells.Text(line.Slice(cells[column.Index].Start, cells[column.Index].Length)))) is not (ColumnMeaning.Temperature or ColumnMeaning.Humidity))
                return; // no heading
        }

        foreach (var column in read)
        {
            if (column.Heading.Length == 0)
                continue;
            var cell = LogWords.Fold(Cells.Text(line.Slice(cells[column.Index].Start, cells[column.Index].Length)));
            var meaning = HeadingWords.Meaning(cell);
            var (was, now) = (HeadingWords.TemperatureUnit(column.Folded), HeadingWords.TemperatureUnit(cell));
            if ((meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity && meaning != column.Meaning) || (meaning == ColumnMeaning.Temperature && was is not null && now is not null && was != now))
                throw new Refusal($"{name} is not read: below its readings the heading '{column.Name}' becomes '{Cells.Text(line.Slice(cells[column.Index].Start, cells[column.Index].Length))}': from there on its columns hold something else. Split it there.");
        }
    }

    private static Dictionary<string, string> Labels(Layout layout)
    {
        var labels = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var line in layout.Preamble.Split('\n'))
        {
            if (LabelOf(line) is var (label, value))
                labels.TryAdd(label, value);
        }

        return labels;
    }

    // Device: loft, Sensor;2, S/N = 88.
    private static (string Label, string Value)? LabelOf(string folded)
    {
        var at = folded.AsSpan().IndexOfAny(Marks);
        if (at is < 1 or > 30)
            return null;
        var (label, value) = (folded[..at].Trim(' ', '"'), folded[(at + 1)..].Trim(' ', '"', ';', ',', '\t', '|', ':', '='));
        return value.Length is > 0 and < 60 && HeadingWords.Meaning(label) == ColumnMeaning.Sensor && HeadingWords.Meaning(value) is not (ColumnMeaning.Temperature or ColumnMeaning.Humidity) ? (label, value) : null;
    }
}
