using System.Buffers.Text;
using System.Text;

namespace Undercroft.Shell.Logs;

/// <summary>What a cell of a log holds.</summary>
internal enum CellKind
{
    /// <summary>Nothing.</summary>
    Blank,

    /// <summary>A number, with or without a unit behind it.</summary>
    Number,

    /// <summary>Anything else: a dash, an error, a word.</summary>
    Text,
}

/// <summary>Cells of a line.</summary>
internal static class Cells
{
    /// <summary>More columns than any logger writes.</summary>
    public const int Most = 128;

    private static readonly double[] Tens = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18];

    /// <summary>Cuts a line at a separator; <c>' '</c> stands for any run of spaces. Separators inside quotation marks do not count.</summary>
    /// <returns>How many cells were found.</returns>
    public static int Cut(ReadOnlySpan<byte> line, byte separator, Span<(int Start, int Length)> cells)
    {
        if (separator == ' ')
            return CutAtSpaces(line, cells);
        var count = 0;
        var quoted = line.Contains((byte)'"');
        for (var start = 0; count < cells.Length; count++)
        {
            var length = quoted ? QuotedLength(line[start..], separator) : line[start..].IndexOf(separator);
            if (length < 0)
            {
                cells[count++] = (start, line.Length - start);
                break;
            }

            cells[count] = (start, length);
            start += length + 1;
        }

        return count;
    }

    /// <summary>The cell without spaces and quotation marks around it.</summary>
    public static ReadOnlySpan<byte> Bare(ReadOnlySpan<byte> cell)
    {
        while (true)
        {
            if (cell.Length > 0 && cell[0] is (byte)' ' or (byte)'\t' or (byte)'"' or (byte)0)
                cell = cell[1..];
            else if (cell.Length > 0 && cell[^1] is (byte)' ' or (byte)'\t' or (byte)'"' or (byte)0)
                cell = cell[..^1];
            else if (cell.Length > 1 && cell[0] == 0xC2 && cell[1] == 0xA0)
                cell = cell[2..];
            else if (cell.Length > 1 && cell[^2] == 0xC2 && cell[^1] == 0xA0)
                cell = cell[..^2];
            else
                return cell;
        }
    }

    /// <summary>The words of a cell.</summary>
    public static string Text(ReadOnlySpan<byte> cell) => Encoding.UTF8.GetString(Bare(cell));

    /// <summary>Reads a cell as a number with point or comma, and the unit behind it.</summary>
    public static CellKind Number(ReadOnlySpan<byte> cell, out double value, out ReadOnlySpan<byte> unit)
    {
        cell = Bare(cell);
        unit = default;
        value = 0;
        if (cell.IsEmpty)
            return CellKind.Blank;
        var at = 0;
        var negative = false;
        if (cell[0] is (byte)'-' or (byte)'+')
        {
            negative = cell[0] == '-';
            at = 1;
        }
        else if (cell.StartsWith("\u2212"u8))
        {
            negative = true;
            at = 3;
        }

        ulong digits = 0;
        int seen = 0, decimals = -1;
        byte last = 0;
        for (; at < cell.Length; at++)
        {
            var sign = cell[at];
            if (sign is >= (byte)'0' and <= (byte)'9')
            {
                if (seen < 18)
                    digits = (digits * 10) + (uint)(sign - '0');
                else if (decimals < 0)
                    return CellKind.Text;
                seen++;
                if (decimals >= 0 && seen <= 18)
                    decimals++;
            }
            else if (sign is (byte)'.' or (byte)',' && at + 1 < cell.Length && cell[at + 1] is >= (byte)'0' and <= (byte)'9')
            {
                // Of several marks the last is the decimal one and those before it group thousands; one that comes twice only groups.
                decimals = sign == last ? -1 : 0;
                last = sign;
            }
            else
            {
                break;
            }
        }

        if (seen == 0)
            return CellKind.Text;
        unit = Bare(cell[at..]);
        if (unit.Length > 0 && !IsUnit(unit))
            return Exponent(cell, ref value, ref unit);
        value = decimals > 0 ? digits / Tens[decimals] : digits;
        value = negative ? -value : value;
        return CellKind.Number;
    }

    private static CellKind Exponent(ReadOnlySpan<byte> cell, ref double value, ref ReadOnlySpan<byte> unit)
    {
        if (!Utf8Parser.TryParse(cell, out value, out int used) || used != cell.Length || !double.IsFinite(value))
            return CellKind.Text;
        unit = default;
        return CellKind.Number;
    }

    // Letters, degrees and per cent; no digits, which would make it a time, a code or a date.
    private static bool IsUnit(ReadOnlySpan<byte> rest)
    {
        if (rest.Length > 12)
            return false;
        foreach (var sign in rest)
        {
            if (sign is (>= (byte)'0' and <= (byte)'9') or (byte)':' or (byte)'-' or (byte)'+' or (byte)'_' or (byte)'#')
                return false;
        }

        return rest[0] is not ((byte)'/' or (byte)',') && (rest[0] != '.' || rest.Length == 1);
    }

    private static int QuotedLength(ReadOnlySpan<byte> rest, byte separator)
    {
        var inside = false;
        for (var i = 0; i < rest.Length; i++)
        {
            if (rest[i] == '"')
                inside = !inside;
            else if (rest[i] == separator && !inside)
                return i;
        }

        return -1;
    }

    private static int CutAtSpaces(ReadOnlySpan<byte> line, Span<(int Start, int Length)> cells)
    {
        var count = 0;
        for (var at = 0; at < line.Length && count < cells.Length;)
        {
            if (line[at] is (byte)' ' or (byte)'\t')
            {
                at++;
                continue;
            }

            var start = at;
            while (at < line.Length && line[at] is not ((byte)' ' or (byte)'\t'))
                at++;
            cells[count++] = (start, at - start);
        }

        return count;
    }
}
