using System.Text;

namespace Undercroft.Shell.Logs;

/// <summary>A date and a time of day as they stand in one or two cells, before it is known which number is the day.</summary>
internal struct Stamp
{
    /// <summary>The three numbers of the date in their order; year, month, day where <see cref="Known"/>.</summary>
    public int A, B, C;

    /// <summary>Numbers of the date seen.</summary>
    public int Parts;

    /// <summary>True where year, month and day are told apart.</summary>
    public bool Known;

    /// <summary>True where the date is whole.</summary>
    public bool HasDate;

    /// <summary>True where a time of day was seen.</summary>
    public bool HasClock;

    /// <summary>True where morning or afternoon was said.</summary>
    public bool HasHalf;

    /// <summary>True where the date stands with points.</summary>
    public bool Points;

    /// <summary>Milliseconds of the day.</summary>
    public int Clock;

    /// <summary>Minutes east of Greenwich; null where not said.</summary>
    public int? Offset;

    /// <summary>True where letters such as CET said it.</summary>
    public bool Lettered;

    /// <summary>True where a month was named.</summary>
    public readonly bool HasMonth => month > 0;

    private int month;
    private int width;
    private bool? half;

    /// <summary>Reads one cell on top of what was read before.</summary>
    /// <returns>False where the cell holds anything that no time does.</returns>
    public bool Take(ReadOnlySpan<byte> cell)
    {
        cell = Cells.Bare(cell);
        if (cell.IsEmpty)
            return false;
        if (TakePlain(cell))
            return true;
        for (var at = 0; at < cell.Length;)
        {
            var sign = cell[at];
            if (sign is >= (byte)'0' and <= (byte)'9')
            {
                if (!Digits(cell, ref at))
                    return false;
            }
            else if (sign is >= (byte)'A' and <= (byte)'Z' or >= (byte)'a' and <= (byte)'z' or >= 0x80)
            {
                if (!Word(cell, ref at))
                    return false;
            }
            else if (sign is (byte)'+' or (byte)'-' && HasClock && Offset is null or 0 && (Parts == 0 || HasDate || DateIsWhole) && at + 1 < cell.Length && char.IsAsciiDigit((char)cell[at + 1]))
            {
                if (!Zone(cell, ref at))
                    return false;
            }
            else if (sign is (byte)' ' or (byte)',' or (byte)'-' or (byte)'/' or (byte)'.' or (byte)'(' or (byte)')' or (byte)'[' or (byte)']' or (byte)'\'' or (byte)'\\')
            {
                Points |= sign == '.' && Parts is 1 or 2 && !HasClock;
                at++;
            }
            else
            {
                return false;
            }
        }

        return Settle();
    }

    // 2026-05-01 06:10:00, which most logs write: the same as the long way would read.
    private bool TakePlain(ReadOnlySpan<byte> cell)
    {
        if (cell.Length != 19 || Parts != 0 || HasClock || month != 0 || half is not null || cell[4] != '-' || cell[7] != '-' || cell[10] is not ((byte)' ' or (byte)'T') || cell[13] != ':' || cell[16] != ':'
            || !Two(cell, 0, out var century) || !Two(cell, 2, out var year) || !Two(cell, 5, out var m) || !Two(cell, 8, out var day)
            || !Two(cell, 11, out var hour) || !Two(cell, 14, out var minute) || !Two(cell, 17, out var second) || !SetClock(hour, minute, second, 0))
            return false;
        (A, B, C, Parts, Known, HasDate) = ((100 * century) + year, m, day, 3, true, true);
        width = 0x224;
        return true;
    }

    private static bool Two(ReadOnlySpan<byte> cell, int at, out int number)
    {
        var (tens, ones) = (cell[at] - (uint)'0', cell[at + 1] - (uint)'0');
        number = (int)((10 * tens) + ones);
        return tens <= 9 && ones <= 9;
    }

    /// <summary>Takes the numbers of a date and a time that are told apart.</summary>
    /// <returns>False where there is no such date or time.</returns>
    public bool Set(int year, int m, int day, int hour, int minute, int second)
    {
        (A, B, C, Parts, Known, HasDate) = (year, m, day, 3, true, true);
        return year is >= 1900 and <= 2999 && m is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, m) && SetClock(hour, minute, second, 0);
    }

    private bool Settle()
    {
        if (!HasDate && month > 0 && Parts == 2)
        {
            (A, B, C) = A > 31 || (width & 0xF) >= 3 ? (A, month, B) : (Century(B), month, A);
            (Known, HasDate) = (true, true);
        }
        else if (!HasDate && month == 0 && Parts == 3)
        {
            HasDate = true;
            Known = (width & 0xF) == 4;
            if (!Known && ((width >> 4) & 0xF) > 2 || A > 99 && !Known)
                return false;
        }

        if (half is { } after && HasClock)
        {
            var hour = Clock / 3_600_000;
            if (after && hour < 12)
                Clock += 12 * 3_600_000;
            else if (!after && hour == 12)
                Clock -= 12 * 3_600_000;
            half = null;
        }

        return true;
    }

    private static int Century(int year) => year >= 100 ? year : year < 70 ? 2000 + year : 1900 + year;

    private bool Digits(ReadOnlySpan<byte> cell, ref int at)
    {
        var (number, count) = Run(cell, ref at);
        var next = at < cell.Length ? cell[at] : (byte)0;
        if (!HasClock && count <= 2 && (next == ':' || (HasDate || DateIsWhole) && next is (byte)'.' or (byte)'h' or (byte)'H' && at + 1 < cell.Length && char.IsAsciiDigit((char)cell[at + 1])))
            return ReadClock((int)number, cell, ref at);
        if (HasDate || DateIsWhole)
        {
            // Bare digits are a time of day only behind a date that is whole without them.
            if (HasClock || !HasDate || count is not (4 or 6))
                return false;
            return SetClock(count == 4 ? (int)number / 100 : (int)number / 10_000, (int)(count == 4 ? number % 100 : number / 100 % 100), count == 4 ? 0 : (int)(number % 100), 0);
        }

        if (Parts == 0 && month == 0 && count is 8 or 12 or 14)
            return Compact(number, count);
        if (count > 4 || Parts >= 3)
            return false;
        switch (Parts++)
        {
            case 0: A = (int)number; break;
            case 1: B = (int)number; break;
            default: C = (int)number; break;
        }

        width |= count << (4 * (Parts - 1));
        return true;
    }

    private readonly bool DateIsWhole => Parts == 3 || (Parts == 2 && month > 0);

    private bool Compact(long number, int count)
    {
        var day = count == 8 ? number : number / (count == 12 ? 10_000 : 1_000_000);
        (A, B, C) = ((int)(day / 10_000), (int)(day / 100 % 100), (int)(day % 100));
        if (A is < 1900 or > 2999 || B is < 1 or > 12 || C is < 1 or > 31)
            return false;
        (Parts, Known, HasDate) = (3, true, true);
        if (count == 8)
            return true;
        var clock = (int)(number % (count == 12 ? 10_000 : 1_000_000));
        return count == 12 ? SetClock(clock / 100, clock % 100, 0, 0) : SetClock(clock / 10_000, clock / 100 % 100, clock % 100, 0);
    }

    private bool ReadClock(int hour, ReadOnlySpan<byte> cell, ref int at)
    {
        var mark = cell[at++];
        if (at >= cell.Length || !char.IsAsciiDigit((char)cell[at]))
            return false;
        var (minute, width2) = Run(cell, ref at);
        if (width2 > 2)
            return false;
        long second = 0;
        var thousandths = 0;
        if (at + 1 < cell.Length && (cell[at] == ':' || cell[at] == mark) && char.IsAsciiDigit((char)cell[at + 1]))
        {
            at++;
            (second, var width3) = Run(cell, ref at);
            if (width3 > 2)
                return false;
            if (at + 1 < cell.Length && cell[at] is (byte)'.' or (byte)',' or (byte)':' && char.IsAsciiDigit((char)cell[at + 1]))
            {
                at++;
                var (fraction, places) = Run(cell, ref at);
                for (; places < 3; places++)
                    fraction *= 10;
                for (; places > 3; places--)
                    fraction /= 10;
                thousandths = (int)fraction;
            }
        }

        return SetClock(hour, (int)minute, (int)second, thousandths);
    }

    private bool SetClock(int hour, int minute, int second, int thousandths)
    {
        // 24:00 is the end of a day.
        if (minute > 59 || second > 59 || hour > 24 || (hour == 24 && minute + second + thousandths > 0))
            return false;
        Clock = (((((hour * 60) + minute) * 60) + second) * 1000) + thousandths;
        return HasClock = true;
    }

    private bool Zone(ReadOnlySpan<byte> cell, ref int at)
    {
        var negative = cell[at++] == '-';
        var (hours, count) = Run(cell, ref at);
        long minutes = 0;
        if (count == 4)
            (hours, minutes) = (hours / 100, hours % 100);
        else if (count > 2)
            return false;
        else if (at + 2 < cell.Length && cell[at] == ':')
        {
            at++;
            (minutes, _) = Run(cell, ref at);
        }

        if (hours > 14 || minutes > 59)
            return false;
        Offset = (int)((hours * 60) + minutes) * (negative ? -1 : 1);
        return true;
    }

    private bool Word(ReadOnlySpan<byte> cell, ref int at)
    {
        Span<char> word = stackalloc char[24];
        var start = at;
        var length = 0;
        while (at < cell.Length && length < word.Length - 1)
        {
            if (cell[at] < 0x80)
            {
                var letter = (char)cell[at];
                if (char.IsAsciiLetter(letter))
                    word[length++] = char.ToLowerInvariant(letter);
                else if (letter != '.' && !(letter == ' ' && length == 1 && at > start && cell[at - 1] == '.' && at + 1 < cell.Length && cell[at + 1] is (byte)'m' or (byte)'M'))
                    break;
                at++;
                continue;
            }

            if (Rune.DecodeFromUtf8(cell[at..], out var rune, out var used) != System.Buffers.OperationStatus.Done || !rune.IsBmp)
                return false;
            at += used;
            if (Rune.IsWhiteSpace(rune))
                break;
            if (Rune.IsLetter(rune))
                word[length++] = LogWords.FoldedLetter((char)rune.Value);
        }

        return Meant(word[..length]);
    }

    private bool Meant(ReadOnlySpan<char> word)
    {
        if (word.IsEmpty)
            return true;
        if (HasClock && word is "z" or "utc" or "gmt")
        {
            Offset ??= 0;
            return true;
        }

        if (HasClock && Offset is null && LogWords.ZoneMinutes(word) is { } minutes)
        {
            Offset = minutes;
            return Lettered = true;
        }

        if (LogWords.HalfDay(word) is { } after && (HasClock || word is "am" or "pm" || word[0] > '\u0400'))
        {
            half = after;
            return HasHalf = true;
        }

        if (LogWords.Month(word) is > 0 and var found && month == 0 && !HasDate)
        {
            month = found;
            return true;
        }

        return LogWords.IsIdle(word) || (word.Length > 2 && LogWords.IsIdle(word[..3])) || LogWords.Month(word) > 0;
    }

    private static (long Number, int Count) Run(ReadOnlySpan<byte> cell, ref int at)
    {
        long number = 0;
        var start = at;
        while (at < cell.Length && cell[at] is >= (byte)'0' and <= (byte)'9' && at - start < 15)
            number = (number * 10) + (cell[at++] - '0');
        return (number, at - start);
    }
}
