using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;

namespace Undercroft.Shell.Logs;

/// <summary>Values in the file's own units become SI in place; error values fall out.</summary>
internal sealed class ReadingValues(RawRows rows, Layout layout, string name, List<string> notes)
{
    private const double Coldest = -60;
    private const double Warmest = 85;
    private const double FarOff = 20;

    // What sensors say when they were switched on, are unplugged or fail, in °C or as a bare number.
    private static readonly double[] Signals = [85, 125, 127, 127.9, 130, -40, -45, -46.85, -50, -55, -127];

    /// <summary>Rows whose temperature is no reading.</summary>
    public int FailedWarmth { get; private set; }

    /// <summary>Rows whose humidity alone is no reading.</summary>
    public int FailedHumidity { get; private set; }

    /// <summary>The unit of temperature; null where there is none.</summary>
    public char? Unit { get; private set; }

    /// <summary>Converts; a temperature or lone humidity that failed becomes <see cref="RawRows.Failed"/>.</summary>
    public void Convert(bool winter, LogAnswers answers)
    {
        var warmth = rows.Temperature.AsSpan(0, rows.Count);
        var damp = rows.Humidity.AsSpan(0, rows.Count);
        Unscale(warmth, ColumnMeaning.Temperature);
        Unscale(damp, ColumnMeaning.Humidity);
        for (var row = 0; row < warmth.Length; row++)
        {
            // Both at nothing: the sensor did not answer.
            if (warmth[row] == 0 && damp[row] == 0 && layout.DewPoint is null)
                warmth[row] = damp[row] = RawRows.Failed;
        }

        Warmth(warmth, winter, answers);
        if (layout.DewPoint is { } column)
            FromDewPoint(warmth, damp, column);
        else
            Damp(damp);
        Others();
        for (var row = 0; row < warmth.Length; row++)
        {
            FailedWarmth += double.IsNegativeInfinity(warmth[row]) ? 1 : 0;
            if (!double.IsNegativeInfinity(damp[row]))
                continue;
            // A row that brought a temperature is kept for it.
            if (double.IsFinite(warmth[row]))
            {
                FailedHumidity++;
                damp[row] = double.NaN;
            }
        }

        if (FailedHumidity > 0)
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"{FailedHumidity} rows have an error in place of the humidity; their temperature is kept."));
    }

    // Tenths and hundredths, where the heading says so.
    private void Unscale(Span<double> values, ColumnMeaning meaning)
    {
        if (layout.Of(meaning) is not { } column)
            return;
        var sorted = Sorted(values, value => value is > -30_000 and < 30_000 && value == Math.Floor(value));
        var scale = sorted.Length == 0 || sorted.Length < 0.9 * Sorted(values, _ => true).Length ? 1 : HeadingWords.Scale(column.Folded, sorted[sorted.Length / 2] > 150);
        if (scale == 1)
            return;
        notes.Add($"'{column.Name}' counts in {(scale == 0.1 ? "tenths" : scale == 0.01 ? "hundredths" : "thousandths")}.");
        foreach (ref var value in values)
            value *= scale;
    }

    private void Warmth(Span<double> warmth, bool winter, LogAnswers answers)
    {
        var sorted = Sorted(warmth, value => value is > -90 and < 400 and not 127);
        if (sorted.Length == 0)
        {
            RefuseOther(warmth, "temperatures", "neither °C nor °F");
            foreach (ref var value in warmth)
                value = double.IsFinite(value) ? RawRows.Failed : value;
            return;
        }

        var unit = UnitChoice.Of(sorted, winter, rows, layout, answers, name, notes);
        Unit = unit;
        double Celsius(double value) => unit switch
        {
            'C' => value,
            'F' => (value - 32) / 1.8,
            'K' => value - Temperature.ZeroCelsius,
            _ => throw new ArgumentOutOfRangeException(nameof(answers), unit, "Unknown unit."),
        };
        var usual = Celsius(sorted[sorted.Length / 2]);
        for (var row = 0; row < warmth.Length; row++)
        {
            var value = warmth[row];
            if (!double.IsFinite(value))
                continue;
            var celsius = Celsius(value);
            var signal = celsius is < Coldest or > Warmest || (Math.Abs(celsius - usual) > FarOff && (IsSignal(value) || IsSignal(Math.Round(celsius, 6))));
            warmth[row] = signal ? RawRows.Failed : unit == 'K' ? value : celsius + Temperature.ZeroCelsius;
        }
    }

    // The vapour that saturates the air at the dew point is what it holds.
    private void FromDewPoint(ReadOnlySpan<double> warmth, Span<double> damp, LogColumn column)
    {
        var unit = HeadingWords.TemperatureUnit(column.Folded) ?? Unit;
        var below = false;
        for (var row = 0; row < damp.Length; row++)
        {
            if (!double.IsFinite(damp[row]) || !double.IsFinite(warmth[row]))
                continue;
            var dew = unit switch { 'F' => ((damp[row] - 32) / 1.8) + Temperature.ZeroCelsius, 'K' => damp[row], _ => damp[row] + Temperature.ZeroCelsius };
            // A sensor may round both: half a degree above the air is still saturation.
            if (dew < Temperature.ZeroCelsius - 90 || dew > warmth[row] + 0.5)
            {
                damp[row] = RawRows.Failed;
                continue;
            }

            below |= dew < Temperature.ZeroCelsius;
            damp[row] = Math.Min(1, SaturationPressure.OverWater(new Temperature(dew)).Pascals / SaturationPressure.OverWater(new Temperature(warmth[row])).Pascals);
        }

        notes.Add($"No humidity stands in the file; it is worked out from the temperature and '{column.Name}'{(below ? ", over liquid water below 0 °C, too" : "")}.");
    }

    private static bool IsSignal(double value) => Array.IndexOf(Signals, value) >= 0;

    private void Damp(Span<double> damp)
    {
        var sorted = Sorted(damp, value => value is > 0 and <= 110);
        if (sorted.Length == 0)
            RefuseOther(damp, "humidities", "no per cent");
        var fraction = sorted.Length > 0 && sorted[(int)(0.995 * (sorted.Length - 1))] <= 1.05;
        if (fraction)
            notes.Add("Humidity stands as a fraction of one, not in percent.");
        var clipped = 0;
        for (var row = 0; row < damp.Length; row++)
        {
            if (!double.IsFinite(damp[row]))
                continue;
            var value = fraction ? damp[row] : damp[row] / 100;
            clipped += value is > 1 and <= 1.05 ? 1 : 0;
            damp[row] = value is > 0 and <= 1 ? value : value is > 1 and <= 1.05 ? 1 : RawRows.Failed;
        }

        if (clipped > 0)
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"{clipped} humidities lie up to five points above 100 % and are held at 100 %."));
    }

    private void Others()
    {
        if (rows.Pressure is { } pressure && layout.Columns.FirstOrDefault(column => column.Meaning is ColumnMeaning.Pressure or ColumnMeaning.Value) is { } column)
        {
            var sorted = Sorted(pressure.AsSpan(0, rows.Count), value => value > 0);
            var middle = sorted.Length == 0 ? 0 : sorted[sorted.Length / 2];
            var scale = (column.Meaning == ColumnMeaning.Pressure ? HeadingWords.PressureUnit(column.Folded) : null) ?? middle switch
            {
                > 30_000 => 1,
                > 300 and < 1200 => 100,
                > 50 and < 120 => 1000,
                > 20 and < 35 => 3386.389,
                _ => double.NaN,
            };
            if (middle * scale is > 0.5 and < 2 && column.Folded.Length > 0)
                scale *= 1000; // 1,013.2 with a comma for the thousands
            for (var row = 0; row < rows.Count; row++)
                pressure[row] = pressure[row] * scale is >= 30_000 and <= 120_000 and var pascals ? pascals : double.NaN;
        }

        if (rows.Light is { } light)
        {
            var kilo = layout.Of(ColumnMeaning.Light) is { } lit && (lit.Folded.Contains("klx", StringComparison.Ordinal) || lit.Folded.Contains("klux", StringComparison.Ordinal));
            for (var row = 0; row < rows.Count; row++)
                light[row] = light[row] is >= 0 and <= 200_000 ? light[row] * (kilo ? 1000 : 1) : double.NaN;
        }
    }

    // Not one value can be: a sensor that says the same error throughout, or a unit that is not known here.
    private void RefuseOther(ReadOnlySpan<double> values, string what, string fits)
    {
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        foreach (var value in values)
        {
            if (!double.IsFinite(value))
                continue;
            low = Math.Min(low, value);
            high = Math.Max(high, value);
        }

        if (high > low && high - low < 0.9 * Math.Abs(high))
            throw new Refusal($"{name} is not read: its {what}, {low.As("0.#")} to {high.As("0.#")}, fit {fits}. If they are tenths or hundredths, export them in plain degrees and per cent.");
    }

    private static double[] Sorted(ReadOnlySpan<double> values, Func<double, bool> believable)
    {
        // Enough of them to know the range, from beginning to end.
        var step = Math.Max(1, values.Length / 50_000);
        var found = new List<double>(Math.Min(values.Length, 60_000));
        for (var row = 0; row < values.Length; row += step)
        {
            if (double.IsFinite(values[row]) && believable(values[row]))
                found.Add(values[row]);
        }

        found.Sort();
        return [.. found];
    }
}
