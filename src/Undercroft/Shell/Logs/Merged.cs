namespace Undercroft.Shell.Logs;

/// <summary>Rows in order of time, one an instant.</summary>
internal sealed class Merged
{
    public required long[] Seconds { get; init; }

    public required double[] Kelvin { get; init; }

    public required double[] Humidity { get; init; }

    public required double[]? Pascals { get; init; }

    public required double[]? Lux { get; init; }

    public int Count { get; private set; }

    /// <summary>Rows that say an instant again.</summary>
    public int Repeated { get; private set; }

    /// <summary>Of them with other values.</summary>
    public int Contradicted { get; private set; }

    /// <summary>Rows without a reading that can be.</summary>
    public int Failed { get; private set; }

    /// <summary>Of them without an instant.</summary>
    public int Dateless { get; private set; }

    /// <summary>Keeps what can be, sorts where that is needed, and joins rows of one instant.</summary>
    /// <param name="rows">In SI units.</param>
    /// <param name="times">UTC milliseconds, in the order of <paramref name="order"/>.</param>
    /// <param name="order">Rows oldest first; null for the order of the file.</param>
    public static Merged Of(RawRows rows, long[] times, int[]? order)
    {
        var kept = new int[times.Length];
        int count = 0, failed = 0, dateless = 0;
        var sorted = true;
        for (var place = 0; place < times.Length; place++)
        {
            var row = order is null || rows.HasOffsets ? place : order[place];
            if (times[place] == RowTimes.None || !Holds(rows, row))
            {
                failed++;
                dateless += times[place] == RowTimes.None ? 1 : 0;
                continue;
            }

            sorted &= count == 0 || times[place] >= times[kept[count - 1]];
            kept[count++] = place;
        }

        if (!sorted)
        {
            // Rows of one instant stay in their order: the first counts.
            var keys = new (long Time, int Place)[count];
            for (var i = 0; i < count; i++)
                keys[i] = (times[kept[i]], kept[i]);
            Array.Sort(keys);
            for (var i = 0; i < count; i++)
                kept[i] = keys[i].Place;
        }

        var merged = new Merged
        {
            Seconds = new long[count],
            Kelvin = new double[count],
            Humidity = new double[count],
            Pascals = rows.Pressure is null ? null : new double[count],
            Lux = rows.Light is null ? null : new double[count],
            Failed = failed,
            Dateless = dateless,
        };
        for (var i = 0; i < count; i++)
            merged.Take(rows, order is null || rows.HasOffsets ? kept[i] : order[kept[i]], Math.DivRem(times[kept[i]] + 500, 1000, out _));
        return merged;
    }

    private static bool Holds(RawRows rows, int row) => !double.IsNegativeInfinity(rows.Temperature[row]) && !double.IsNegativeInfinity(rows.Humidity[row])
        && (double.IsFinite(rows.Temperature[row]) || double.IsFinite(rows.Humidity[row]) || (rows.Light is { } light && double.IsFinite(light[row])) || (rows.Pressure is { } pressure && double.IsFinite(pressure[row])));

    private void Take(RawRows rows, int row, long second)
    {
        var (kelvin, humidity) = (rows.Temperature[row], rows.Humidity[row]);
        if (Count == 0 || Seconds[Count - 1] != second)
        {
            Seconds[Count] = second;
            Kelvin[Count] = kelvin;
            Humidity[Count] = humidity;
            if (Pascals is not null)
                Pascals[Count] = rows.Pressure![row];
            if (Lux is not null)
                Lux[Count] = rows.Light![row];
            Count++;
            return;
        }

        // One quantity a row: what is missing is filled in, what is there stays.
        var at = Count - 1;
        var fills = double.IsNaN(Kelvin[at]) && !double.IsNaN(kelvin) || double.IsNaN(Humidity[at]) && !double.IsNaN(humidity);
        var differs = Differs(Kelvin[at], kelvin) || Differs(Humidity[at], humidity);
        Repeated++;
        Contradicted += differs ? 1 : 0;
        if (fills && !differs)
        {
            Kelvin[at] = double.IsNaN(Kelvin[at]) ? kelvin : Kelvin[at];
            Humidity[at] = double.IsNaN(Humidity[at]) ? humidity : Humidity[at];
        }
    }

    private static bool Differs(double one, double other) => !double.IsNaN(one) && !double.IsNaN(other) && Math.Abs(one - other) > 1e-9;
}

/// <summary>Steps between rows.</summary>
internal static class Steps
{
    /// <summary>The usual one: the lower median of the steps between neighbours, forward ones alone. 0 where there is none.</summary>
    public static long Usual(ReadOnlySpan<long> times)
    {
        var counts = new Dictionary<long, int>();
        var total = 0;
        var before = RowTimes.None;
        var (same, run) = (0L, 0);
        foreach (var time in times)
        {
            if (time == RowTimes.None)
                continue;
            if (before != RowTimes.None && time > before)
            {
                if (time - before != same)
                {
                    Count(same, run);
                    (same, run) = (time - before, 0);
                }

                run++;
                total++;
            }

            before = time;
        }

        Count(same, run);
        void Count(long step, int more)
        {
            if (more > 0)
                System.Runtime.InteropServices.CollectionsMarshal.GetValueRefOrAddDefault(counts, step, out _) += more;
        }

        var passed = 0;
        foreach (var (step, count) in counts.OrderBy(pair => pair.Key))
        {
            passed += count;
            if (passed > (total - 1) / 2)
                return step;
        }

        return 0;
    }
}
