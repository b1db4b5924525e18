using System.Text;

namespace Undercroft.Importing.Sheets;

/// <summary>Text in columns that are kept apart by spaces alone.</summary>
internal static class FixedWidths
{
    /// <summary>Put where one column ends and the next begins; no text holds it.</summary>
    public const char Mark = '\uE000';

    private const int Sample = 500;
    private const int Widest = 400;

    /// <summary>The text with a mark between its columns; null where no two columns stand apart in every line.</summary>
    public static string? Marked(string text)
    {
        var lines = text.Split('\n').Select(line => line.TrimEnd('\r', ' ')).ToArray();
        var filled = lines.Where(line => line.Trim().Length > 0).Take(Sample).ToArray();
        if (filled.Length < 3 || text.Contains(Mark, StringComparison.Ordinal))
            return null;
        var width = Math.Min(Widest, filled.Max(line => line.Length));
        var taken = new bool[width];
        // A title line above the table has no columns: what begins with fewer than two gaps is not asked.
        foreach (var line in filled.Where(line => line.Contains("  ", StringComparison.Ordinal)))
        {
            for (var i = 0; i < Math.Min(width, line.Length); i++)
                taken[i] |= line[i] != ' ';
        }

        var starts = new List<int>();
        for (var i = 2; i < width; i++)
        {
            if (taken[i] && !taken[i - 1] && !taken[i - 2])
                starts.Add(i);
        }

        if (starts.Count == 0 || filled.Count(line => line.Contains("  ", StringComparison.Ordinal)) < 0.6 * filled.Length)
            return null;
        var marked = new StringBuilder(text.Length + (lines.Length * starts.Count));
        foreach (var line in lines)
        {
            var from = 0;
            foreach (var start in starts)
            {
                if (start >= line.Length)
                    break;
                marked.Append(line.AsSpan(from, start - from).Trim()).Append(Mark);
                from = start;
            }

            marked.Append(line.AsSpan(from).Trim()).Append('\n');
        }

        return marked.ToString();
    }
}
