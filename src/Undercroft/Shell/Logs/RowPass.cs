using System.Globalization;
using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>The one pass over all lines of a log.</summary>
internal sealed class RowPass(LogText text, Layout layout, LogAnswers answers, bool from1904, List<string> notes)
{
    private const int MostRows = 12_000_000;
    private const int MostSensors = 200;

    private readonly int temperature = layout.Of(ColumnMeaning.Temperature)?.Index ?? -1;
    private readonly int humidity = (layout.Of(ColumnMeaning.Humidity) ?? layout.DewPoint)?.Index ?? -1;
    private readonly int pressure = layout.Of(ColumnMeaning.Pressure)?.Index ?? -1;
    private readonly int light = layout.Of(ColumnMeaning.Light)?.Index ?? -1;
    private readonly int sensor = layout.Of(ColumnMeaning.Sensor)?.Index ?? -1;
    private readonly int quantity = layout.Of(ColumnMeaning.Quantity)?.Index ?? -1;
    private readonly int value = layout.Of(ColumnMeaning.Value)?.Index ?? -1;
    private readonly int unit = layout.Of(ColumnMeaning.Unit)?.Index ?? -1;
    private readonly Dictionary<string, int> sensors = new(StringComparer.Ordinal);
    private readonly Dictionary<string, ColumnMeaning> quantities = new(StringComparer.Ordinal);
    private readonly int steadyWidth = layout.Time.Form == TimeForm.Steady ? layout.DataRows.Max(row => layout.Sample.Row(row).Length) + 1 : 0;
    private int following;
    private long clock = long.MinValue / 2;
    private int days;
    private readonly LogBlocks blocks = new(layout, text.Source.Name);
    private string? chosen;
    private byte[] lastSensor = [];
    private bool lastTaken = true;

    /// <summary>Reads them.</summary>
    /// <exception cref="Refusal">Several sensors below each other, too many rows, or none.</exception>
    public RawRows Run()
    {
        var rows = new RawRows((int)Math.Min(text.Source.Length / 24, 1 << 21));
        Span<(int Start, int Length)> found = stackalloc (int, int)[Cells.Most];
        using var reader = text.Lines();
        for (var number = 1; reader.Next(out var line); number++)
        {
            if (number <= layout.FirstRow || Cells.Bare(line).IsEmpty || (layout.Heading.Length > 0 && line.SequenceEqual(layout.Heading)))
                continue;
            if (++rows.Lines > MostRows)
                throw new Refusal($"{text.Source.Name} is not read: it has more than {MostRows.ToString("#,0", CultureInfo.InvariantCulture)} rows. Split it by year.");
            var cells = found[..Cells.Cut(line, layout.Separator, found)];
            if (!Take(rows, line, cells))
            {
                blocks.Between(line, cells, rows.Count > 0);
                rows.Timeless++;
                if (rows.UnreadLines.Count < 5)
                    rows.UnreadLines.Add(number);
            }
        }

        Decide(rows);
        return rows;
    }

    private bool Take(RawRows rows, ReadOnlySpan<byte> line, Span<(int Start, int Length)> cells)
    {
        Stamp stamp = default;
        long counted = 0;
        var written = layout.Time.Form == TimeForm.Written;
        if (layout.Time.Form == TimeForm.Steady)
        {
            if (!Follows(line, cells, out counted))
                return false;
        }
        else if (written ? !layout.Time.Written(line, cells, out stamp) : !layout.Time.Counted(line, cells, from1904, out counted))
            return false;
        if (layout.Pairs)
            return TakePairs(rows, line, cells, stamp);
        if (blocks.Name is { } block && !OfBlock(rows, block))
        {
            rows.Elsewhere++;
            return true;
        }

        if (sensor >= 0 && !OfSensor(Cell(line, cells, sensor)))
        {
            rows.Elsewhere++;
            return true;
        }

        if (value >= 0)
            return TakeLong(rows, line, cells, stamp, counted, written);
        if (written)
            rows.Add(stamp);
        else
            rows.Add(counted, layout.Time.Form == TimeForm.Epoch);
        var at = rows.Count - 1;
        if (temperature >= 0)
            rows.Temperature[at] = Warmth(rows, Cell(line, cells, temperature));
        if (humidity >= 0)
            rows.Humidity[at] = Number(Cell(line, cells, humidity), out _);
        if (pressure >= 0)
            rows.SetPressure(Number(Cell(line, cells, pressure), out _));
        if (light >= 0)
            rows.SetLight(Number(Cell(line, cells, light), out _));
        return true;
    }

    // Rows without a time follow each other, by their running number where there is one.
    private bool Follows(ReadOnlySpan<byte> line, Span<(int Start, int Length)> cells, out long counted)
    {
        counted = SteadyTimes.Base;
        var place = layout.Time;
        if (cells.Length > steadyWidth || !LayoutGuess.IsOfReadings(line, cells, place.IsClock ? place.First : -1, out _))
            return false;
        if (place.IsClock)
        {
            Stamp stamp = default;
            if (place.First >= cells.Length || !stamp.Take(Cell(line, cells, place.First)) || !stamp.HasClock || stamp.HasDate)
                return false;
            if (stamp.Clock + (86_400_000L * days) < clock - 43_200_000)
                days++;
            counted += clock = stamp.Clock + (86_400_000L * days);
            return true;
        }

        if (place.First < 0)
        {
            counted += 1000L * following++;
            return true;
        }

        if (place.First >= cells.Length || Cells.Number(Cell(line, cells, place.First), out var number, out _) != CellKind.Number || Math.Abs(number) > MostRows * place.Step)
            return false;
        counted += 1000 * (long)Math.Round(number / place.Step);
        return true;
    }

    private bool TakePairs(RawRows rows, ReadOnlySpan<byte> line, Span<(int Start, int Length)> cells, in Stamp stamp)
    {
        var times = layout.Time.Second >= 0 ? 2 : 1;
        var width = layout.Sample.Row(layout.DataRows[0]).Length;
        if (cells.Length != width)
            return false;
        rows.Add(stamp);
        foreach (var column in layout.Columns)
        {
            var at = times + (2 * (column.Index - times));
            var joined = Cells.Text(Cell(line, cells, at)) + "." + Cells.Text(Cell(line, cells, at + 1));
            var number = double.TryParse(joined, NumberStyles.Float, CultureInfo.InvariantCulture, out var read) ? read : RawRows.Failed;
            if (column.Meaning == ColumnMeaning.Temperature)
                rows.Temperature[rows.Count - 1] = number;
            else if (column.Meaning == ColumnMeaning.Humidity)
                rows.Humidity[rows.Count - 1] = number;
        }

        return true;
    }

    private bool TakeLong(RawRows rows, ReadOnlySpan<byte> line, Span<(int Start, int Length)> cells, in Stamp stamp, long counted, bool written)
    {
        var meaning = quantity >= 0 ? Named(Cell(line, cells, quantity)) : unit >= 0 ? Named(Cell(line, cells, unit)) : ColumnMeaning.Temperature;
        if (meaning is not (ColumnMeaning.Temperature or ColumnMeaning.Humidity or ColumnMeaning.Pressure or ColumnMeaning.Light))
        {
            rows.Elsewhere++;
            return true;
        }

        var cell = Cell(line, cells, value);
        var read = meaning == ColumnMeaning.Temperature ? Warmth(rows, cell) : Number(cell, out _);
        if (meaning == ColumnMeaning.Temperature && unit >= 0)
            Count(rows, HeadingWords.TemperatureUnit(LogWords.Fold(Cells.Text(Cell(line, cells, unit)))));
        if (written && rows.SameAsLast(stamp) && double.IsNaN(Slot(rows, meaning)))
        {
            rows.Joined++;
        }
        else if (written)
        {
            rows.Add(stamp);
        }
        else
        {
            rows.Add(counted, layout.Time.Form == TimeForm.Epoch);
        }

        switch (meaning)
        {
            case ColumnMeaning.Temperature: rows.Temperature[rows.Count - 1] = read; break;
            case ColumnMeaning.Humidity: rows.Humidity[rows.Count - 1] = read; break;
            case ColumnMeaning.Pressure: rows.SetPressure(read); break;
            default: rows.SetLight(read); break;
        }

        return true;
    }

    private static double Slot(RawRows rows, ColumnMeaning meaning) => meaning switch
    {
        ColumnMeaning.Temperature => rows.Temperature[rows.Count - 1],
        ColumnMeaning.Humidity => rows.Humidity[rows.Count - 1],
        ColumnMeaning.Pressure => rows.Pressure is { } pressures ? pressures[rows.Count - 1] : double.NaN,
        _ => rows.Light is { } lights ? lights[rows.Count - 1] : double.NaN,
    };

    private ColumnMeaning Named(ReadOnlySpan<byte> cell)
    {
        var word = Cells.Text(cell);
        if (!quantities.TryGetValue(word, out var meaning))
            quantities[word] = meaning = HeadingWords.Meaning(LogWords.Fold(word));
        return meaning;
    }

    private static ReadOnlySpan<byte> Cell(ReadOnlySpan<byte> line, ReadOnlySpan<(int Start, int Length)> cells, int column) =>
        column < cells.Length ? line.Slice(cells[column].Start, cells[column].Length) : default;

    private static double Number(ReadOnlySpan<byte> cell, out ReadOnlySpan<byte> behind) => Cells.Number(cell, out var number, out behind) switch
    {
        CellKind.Number => number,
        CellKind.Blank => double.NaN,
        _ => RawRows.Failed,
    };

    private static double Warmth(RawRows rows, ReadOnlySpan<byte> cell)
    {
        var number = Number(cell, out var behind);
        if (behind.Length > 0)
            Count(rows, behind[^1] switch { (byte)'C' or (byte)'c' or 0x83 => 'C', (byte)'F' or (byte)'f' or 0x89 => 'F', (byte)'K' => 'K', _ => null });
        return number;
    }

    private static void Count(RawRows rows, char? unit)
    {
        if (unit is { } one)
            rows.Units["CFK".IndexOf(one, StringComparison.Ordinal)]++;
    }

    private bool OfSensor(ReadOnlySpan<byte> cell)
    {
        if (cell.SequenceEqual(lastSensor) && chosen is not null)
            return lastTaken;
        var word = Cells.Text(cell);
        lastSensor = cell.ToArray();
        if (sensors.Count <= MostSensors)
            sensors[word] = sensors.GetValueOrDefault(word) + 1;
        chosen ??= "";
        return lastTaken = answers.Sensor is null || LogWords.Fold(word).Contains(LogWords.Fold(answers.Sensor), StringComparison.Ordinal);
    }

    // Rows of the first block were taken before it was known that there are others.
    private bool OfBlock(RawRows rows, byte[] block)
    {
        if (sensors.Count == 0)
        {
            sensors[blocks.First] = rows.Count;
            if (answers.Sensor is not null && !LogWords.Fold(blocks.First).Contains(LogWords.Fold(answers.Sensor), StringComparison.Ordinal))
                rows.Elsewhere += rows.Forget();
        }

        return OfSensor(block);
    }

    private void Decide(RawRows rows)
    {
        var named = sensors.Keys.Where(word => word.Length > 0).ToList();
        var taken = answers.Sensor is null ? named : [.. named.Where(word => LogWords.Fold(word).Contains(LogWords.Fold(answers.Sensor), StringComparison.Ordinal))];
        if (taken.Count > 1 && taken.Find(word => string.Equals(LogWords.Fold(word), LogWords.Fold(answers.Sensor ?? ""), StringComparison.Ordinal)) is null)
        {
            throw new Refusal(taken.Count > MostSensors
                ? $"{text.Source.Name} is not read: the column '{layout.Of(ColumnMeaning.Sensor)!.Name}' says something else in almost every row. Name the columns with --columns."
                : $"{text.Source.Name} is not read: it holds several sensors ({string.Join(", ", taken.Take(12).Select(word => $"'{word}'"))}), and each place takes one. Say which with --sensor, such as --sensor \"{taken[0]}\".");
        }

        if (named.Count > 0 && taken.Count == 0)
            throw new Refusal($"{text.Source.Name} holds no sensor '{answers.Sensor}'. There are: {string.Join(", ", named.Take(12).Select(word => $"'{word}'"))}.");
        if (rows.Elsewhere > 0)
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"{rows.Elsewhere} rows of other {(value >= 0 ? "quantities or sensors" : "sensors")} are left out."));
        if (rows.Count == 0)
            throw new Refusal($"{text.Source.Name} is not read: no row holds a time and a value. Export the log again.");
    }
}
