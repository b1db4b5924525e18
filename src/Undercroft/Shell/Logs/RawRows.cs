namespace Undercroft.Shell.Logs;

/// <summary>The rows of a log as they stand in it: times not yet told apart, values in the file's own units. Not a number where nothing stands, minus infinity where an error does.</summary>
internal sealed class RawRows(int capacity)
{
    /// <summary>Stands where the cell holds something that is no number.</summary>
    public const double Failed = double.NegativeInfinity;

    /// <summary>Where a row names no offset.</summary>
    public const short NoOffset = short.MinValue;

    private const ulong KnownMark = 1UL << 62;

    private ulong[] dates = new ulong[Math.Clamp(capacity, 64, 1 << 21)];
    private double[] temperature = new double[Math.Clamp(capacity, 64, 1 << 21)];
    private double[] humidity = new double[Math.Clamp(capacity, 64, 1 << 21)];
    private double[]? pressure;
    private double[]? light;
    private short[]? offsets;
    private int pointed;
    private int clockless;

    /// <summary>Rows.</summary>
    public int Count { get; private set; }

    public double[] Temperature => temperature;

    public double[] Humidity => humidity;

    public double[]? Pressure => pressure;

    public double[]? Light => light;

    /// <summary>Rows below the header that are not blank.</summary>
    public int Lines { get; set; }

    /// <summary>Of them without a time that can be read.</summary>
    public int Timeless { get; set; }

    /// <summary>Of them of other sensors than the chosen one, or of quantities that are not used.</summary>
    public int Elsewhere { get; set; }

    /// <summary>Rows that were joined to another of the same time, one quantity a row.</summary>
    public int Joined { get; set; }

    /// <summary>The first lines that could not be read, from 1.</summary>
    public List<int> UnreadLines { get; } = [];

    /// <summary>Temperatures with °C, °F and K behind them.</summary>
    public int[] Units { get; } = new int[3];

    /// <summary>True where most dates stand with points; a lone line below the readings may look like one.</summary>
    public bool Points => 2 * pointed > Count;

    /// <summary>True where offsets stand as letters, such as CET.</summary>
    public bool Lettered { get; private set; }

    /// <summary>True where morning and afternoon are said.</summary>
    public bool Halves { get; set; }

    /// <summary>True where most rows have no time of day.</summary>
    public bool Clockless => 2 * clockless > Count;

    public bool HasOffsets => offsets is not null;

    /// <summary>True where the start above the readings says its offset.</summary>
    public bool StartHasOffset { get; set; }

    /// <summary>Adds a row with a written time.</summary>
    public void Add(in Stamp stamp)
    {
        var date = Pack(stamp);
        Grow();
        dates[Count] = date;
        if (stamp.Offset is { } minutes)
            Offset((short)minutes);
        else if (offsets is not null)
            offsets[Count] = NoOffset;
        Blank();
        pointed += stamp.Points ? 1 : 0;
        Halves |= stamp.HasHalf;
        Lettered |= stamp.Lettered;
        clockless += stamp.HasClock ? 0 : 1;
    }

    /// <summary>Adds a row with a counted time.</summary>
    /// <param name="milliseconds">Since 1970.</param>
    /// <param name="universal">True for world time, false for the logger's own clock.</param>
    public void Add(long milliseconds, bool universal)
    {
        Grow();
        var days = Math.DivRem(milliseconds, 86_400_000, out var clock);
        if (clock < 0)
            (days, clock) = (days - 1, clock + 86_400_000);
        var date = DateOnly.FromDayNumber((int)(days + Epoch));
        dates[Count] = Pack(date.Year, date.Month, date.Day, (int)clock) | KnownMark;
        if (universal)
            Offset(0);
        Blank();
    }

    /// <summary>Lets go of all rows so far, and says how many.</summary>
    public int Forget()
    {
        var count = Count;
        (Count, pointed, clockless) = (0, 0, 0);
        Array.Clear(Units);
        return count;
    }

    /// <summary>True where the last row stands at the same time.</summary>
    public bool SameAsLast(in Stamp stamp) => Count > 0 && dates[Count - 1] == Pack(stamp) && (offsets is null || offsets[Count - 1] == (stamp.Offset is { } minutes ? (short)minutes : NoOffset));

    public void SetPressure(double value)
    {
        pressure ??= Filled();
        pressure[Count - 1] = value;
    }

    public void SetLight(double value)
    {
        light ??= Filled();
        light[Count - 1] = value;
    }

    /// <summary>True where year, month and day are told apart.</summary>
    public bool IsKnown(int row) => (dates[row] & KnownMark) != 0;

    /// <summary>The three numbers of the date in their order.</summary>
    public (int A, int B, int C) Date(int row) => ((int)(dates[row] >> 48) & 0x3FFF, (int)(dates[row] >> 41) & 0x7F, (int)(dates[row] >> 27) & 0x3FFF);

    /// <summary>Milliseconds of the day.</summary>
    public int Clock(int row) => (int)(dates[row] & 0x7FFFFFF);

    /// <summary>Minutes east of Greenwich; <see cref="NoOffset"/> where not said.</summary>
    public short OffsetOf(int row) => offsets is null ? NoOffset : offsets[row];

    internal static int Epoch { get; } = new DateOnly(1970, 1, 1).DayNumber;

    private static ulong Pack(in Stamp stamp) => Pack(stamp.A, stamp.B, stamp.C, stamp.Clock) | (stamp.Known ? KnownMark : 0);

    private static ulong Pack(int a, int b, int c, int clock) => ((ulong)(uint)(a & 0x3FFF) << 48) | ((ulong)(uint)(b & 0x7F) << 41) | ((ulong)(uint)(c & 0x3FFF) << 27) | (uint)clock;

    private void Blank()
    {
        temperature[Count] = double.NaN;
        humidity[Count] = double.NaN;
        if (pressure is not null)
            pressure[Count] = double.NaN;
        if (light is not null)
            light[Count] = double.NaN;
        Count++;
    }

    private void Offset(short minutes)
    {
        if (offsets is null)
        {
            offsets = new short[dates.Length];
            Array.Fill(offsets, NoOffset);
        }

        offsets[Count] = minutes;
    }

    private double[] Filled()
    {
        var values = new double[dates.Length];
        Array.Fill(values, double.NaN);
        return values;
    }

    private void Grow()
    {
        if (Count < dates.Length)
            return;
        var more = 2 * dates.Length;
        Array.Resize(ref dates, more);
        Array.Resize(ref temperature, more);
        Array.Resize(ref humidity, more);
        if (pressure is not null)
            Array.Resize(ref pressure, more);
        if (light is not null)
            Array.Resize(ref light, more);
        if (offsets is not null)
            Array.Resize(ref offsets, more);
    }
}
