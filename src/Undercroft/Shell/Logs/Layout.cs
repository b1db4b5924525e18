namespace Undercroft.Shell.Logs;

/// <summary>How the times of a log are written.</summary>
internal enum TimeForm
{
    /// <summary>Dates and times as people write them.</summary>
    Written,

    /// <summary>Seconds, milliseconds, microseconds or nanoseconds since 1970.</summary>
    Epoch,

    /// <summary>Days as spreadsheets count them.</summary>
    Serial,

    /// <summary>Not at all, or without a day: the start stands above the readings.</summary>
    Steady,
}

/// <summary>Columns of a date and a time that stand number by number; −1 where there is none of it.</summary>
internal sealed record TimeParts(int Year, int Month, int Day, int Hour, int Minute, int Second)
{
    /// <summary>True for the columns that hold the time.</summary>
    public bool Uses(int column) => column == Year || column == Month || column == Day || column == Hour || column == Minute || column == Second;

    /// <summary>Reads them.</summary>
    public bool Read(ReadOnlySpan<byte> line, ReadOnlySpan<(int Start, int Length)> cells, out Stamp stamp)
    {
        stamp = default;
        return At(line, cells, Year, out var year) && At(line, cells, Month, out var month) && At(line, cells, Day, out var day) && At(line, cells, Hour, out var hour) && At(line, cells, Minute, out var minute)
            && At(line, cells, Second, out var second) && stamp.Set(year < 100 ? 2000 + year : year, month, day, hour, minute, second);
    }

    private static bool At(ReadOnlySpan<byte> line, ReadOnlySpan<(int Start, int Length)> cells, int column, out int number)
    {
        number = 0;
        if (column < 0)
            return true;
        if (column >= cells.Length || Cells.Number(line.Slice(cells[column].Start, cells[column].Length), out var value, out var unit) != CellKind.Number || unit.Length > 0 || value is < 0 or > 9999 || value != Math.Floor(value))
            return false;
        number = (int)value;
        return true;
    }
}

/// <summary>Where the times of a log stand.</summary>
/// <param name="First">Column of the date, or of all of it.</param>
/// <param name="Second">Column of the time of day where it stands apart; −1 where it does not.</param>
/// <param name="Form">How they are written.</param>
/// <param name="Half">Column that says morning or afternoon where that stands apart; −1 where it does not.</param>
/// <param name="Parts">Columns of year, month, day and so on where each stands apart; null where they do not.</param>
/// <param name="Step">What a running number grows by from row to row; only where the start stands above the readings.</param>
/// <param name="IsClock">True where rows say the time of day and the start above them the day.</param>
internal readonly record struct TimePlace(int First, int Second, TimeForm Form, int Half = -1, TimeParts? Parts = null, double Step = 1, bool IsClock = false)
{
    /// <summary>True for the columns that hold the time.</summary>
    public bool Uses(int column) => column == First || column == Second || column == Half || Parts?.Uses(column) == true;

    /// <summary>Reads the written time of a row.</summary>
    public bool Written(ReadOnlySpan<byte> line, ReadOnlySpan<(int Start, int Length)> cells, out Stamp stamp)
    {
        if (Parts is not null)
            return Parts.Read(line, cells, out stamp);
        stamp = default;
        if (First >= cells.Length || Second >= cells.Length || Half >= cells.Length)
            return false;
        // Of two cells the first is a date or begins one with the name of a month; numbers of a total are neither.
        return stamp.Take(line.Slice(cells[First].Start, cells[First].Length))
            && (Second < 0 ? stamp.HasDate : (stamp.HasDate || stamp.HasMonth || stamp.HasClock) && stamp.Take(line.Slice(cells[Second].Start, cells[Second].Length)) && stamp.HasDate && stamp.HasClock)
            && (Half < 0 || stamp.Take(line.Slice(cells[Half].Start, cells[Half].Length)));
    }

    /// <summary>Reads the counted time of a row: milliseconds since 1970, in UTC for an epoch and of the logger's own clock for a serial.</summary>
    public bool Counted(ReadOnlySpan<byte> line, ReadOnlySpan<(int Start, int Length)> cells, bool from1904, out long milliseconds)
    {
        milliseconds = 0;
        if (First >= cells.Length || Cells.Number(line.Slice(cells[First].Start, cells[First].Length), out var number, out var unit) != CellKind.Number || unit.Length > 0)
            return false;
        if (Form == TimeForm.Epoch)
        {
            if (EpochScale(number) is not { } scale)
                return false;
            milliseconds = (long)Math.Round(number * scale);
            return true;
        }

        if (!IsSerial(number))
            return false;
        // To the second: the fraction of a day is stored rounded.
        milliseconds = (long)Math.Round((number - (from1904 ? 24107 : 25569)) * 86400) * 1000;
        return true;
    }

    /// <summary>Milliseconds in the unit in which an instant of 1990 to 2100 is that number; null where there is none.</summary>
    public static double? EpochScale(double number) => number switch
    {
        >= 631_152_000 and <= 4_102_444_800 => 1000,
        >= 631_152_000e3 and <= 4_102_444_800e3 => 1,
        >= 631_152_000e6 and <= 4_102_444_800e6 => 1e-3,
        >= 631_152_000e9 and <= 4_102_444_800e9 => 1e-6,
        _ => null,
    };

    /// <summary>True for days of 1990 to 2100 as spreadsheets count them.</summary>
    public static bool IsSerial(double number) => number is >= 31_000 and <= 73_500;
}

/// <summary>One column of a log as it is understood.</summary>
/// <param name="Index">From 0.</param>
/// <param name="Heading">As it stands in the file, header rows joined; empty where there is none.</param>
/// <param name="Group">A heading above several columns, such as the sensor's name; empty where there is none.</param>
/// <param name="Meaning">What it holds.</param>
internal sealed record LogColumn(int Index, string Heading, string Group, ColumnMeaning Meaning)
{
    /// <summary>For people.</summary>
    public string Name => (Group.Length > 0 && !Heading.Contains(Group, StringComparison.Ordinal) ? Group + " " : "") + Heading is { Length: > 0 } name
        ? name : $"column {(Index + 1).ToString(System.Globalization.CultureInfo.InvariantCulture)}";

    /// <summary>Small plain letters.</summary>
    public string Folded => LogWords.Fold(Heading);
}

/// <summary>The first lines of a log cut at one separator.</summary>
internal sealed class SampleCut
{
    private readonly List<byte[]> lines;
    private readonly (int Start, int Length)[][] cells;

    public SampleCut(List<byte[]> lines, byte separator)
    {
        this.lines = lines;
        Separator = separator;
        Span<(int Start, int Length)> found = stackalloc (int, int)[Cells.Most];
        cells = new (int, int)[lines.Count][];
        for (var i = 0; i < lines.Count; i++)
            cells[i] = Cells.Bare(lines[i]).IsEmpty ? [] : found[..Trimmed(lines[i], found[..Cells.Cut(lines[i], separator, found)])].ToArray();
        Width = cells.Max(row => row.Length);
    }

    public byte Separator { get; }

    public int Width { get; }

    public int Count => lines.Count;

    public ReadOnlySpan<byte> Line(int row) => lines[row];

    public ReadOnlySpan<(int Start, int Length)> Row(int row) => cells[row];

    public ReadOnlySpan<byte> Cell(int row, int column) => (uint)column < (uint)cells[row].Length ? lines[row].AsSpan(cells[row][column].Start, cells[row][column].Length) : default;

    public string Text(int row, int column) => Cells.Text(Cell(row, column));

    // Separators at the end of a line make no columns.
    private static int Trimmed(byte[] line, ReadOnlySpan<(int Start, int Length)> found)
    {
        var count = found.Length;
        while (count > 1 && Cells.Bare(line.AsSpan(found[count - 1].Start, found[count - 1].Length)).IsEmpty)
            count--;
        return count;
    }
}

/// <summary>How a log is laid out: what its first lines show.</summary>
/// <param name="Separator">Between cells; a space stands for any run of spaces.</param>
/// <param name="FirstRow">Line of the first reading, from 0.</param>
/// <param name="Heading">The last line of the header as bytes, to know it again further down; empty where there is none.</param>
/// <param name="Preamble">Lines above the first reading, folded.</param>
/// <param name="Time">Where the times stand.</param>
/// <param name="Columns">All columns but those of the time.</param>
/// <param name="Pairs">True where the comma separates columns and decimals alike and each value takes two cells.</param>
/// <param name="TimeHeading">Heading of the time, folded.</param>
/// <param name="Sample">The first rows.</param>
/// <param name="DataRows">Lines of the sample that hold readings.</param>
internal sealed record Layout(
    byte Separator, int FirstRow, byte[] Heading, string Preamble, TimePlace Time, IReadOnlyList<LogColumn> Columns, bool Pairs, string TimeHeading, SampleCut Sample, IReadOnlyList<int> DataRows)
{
    /// <summary>For people.</summary>
    public string SeparatorWord => Separator switch
    {
        (byte)'\t' => "tabs",
        (byte)';' => "semicolons",
        (byte)',' => "commas",
        (byte)'|' => "bars",
        _ => "spaces",
    };

    /// <summary>The column of a meaning; null where there is none. After <see cref="ColumnChoice"/> there is at most one of each.</summary>
    public LogColumn? Of(ColumnMeaning meaning) => Columns.FirstOrDefault(column => column.Meaning == meaning);

    /// <summary>The dew point where it stands in place of the humidity; null where a humidity is read, or no temperature that it needs.</summary>
    public LogColumn? DewPoint => Of(ColumnMeaning.Humidity) is null && Of(ColumnMeaning.Temperature) is not null ? Of(ColumnMeaning.DewPoint) : null;
}
