using System.Globalization;
using System.Text;

namespace Undercroft.Shell.Web;

/// <summary>A line of a drawing with no more corners than the eye can tell, as the text of an SVG path.</summary>
internal static class DrawnLine
{
    /// <summary>So far from the true line a drawn one may run, in units of the drawing, which are about pixels.</summary>
    internal const double Off = 0.25;

    /// <summary>The corners that are needed so that no other one lies further from the line than <see cref="Off"/>; the first and the last always are.</summary>
    /// <remarks>Ramer's and Douglas and Peucker's way (from memory): keep the corner that lies furthest from the chord, then do the same on both sides of it.</remarks>
    internal static List<(double X, double Y)> Needed(IReadOnlyList<(double X, double Y)> corners)
    {
        if (corners.Count < 3)
            return [.. corners];
        var keep = new bool[corners.Count];
        keep[0] = keep[^1] = true;
        var spans = new Stack<(int From, int To)>([(0, corners.Count - 1)]);
        while (spans.TryPop(out var span))
        {
            var (furthest, at) = (Off, -1);
            for (var i = span.From + 1; i < span.To; i++)
            {
                if (Distance(corners[i], corners[span.From], corners[span.To]) is var far && far > furthest)
                    (furthest, at) = (far, i);
            }

            if (at < 0)
                continue;
            keep[at] = true;
            spans.Push((span.From, at));
            spans.Push((at, span.To));
        }

        return [.. corners.Where((_, i) => keep[i])];
    }

    /// <summary>The path through some corners.</summary>
    internal static string Path(IEnumerable<(double X, double Y)> corners)
    {
        var path = new StringBuilder();
        foreach (var (x, y) in corners)
            path.Append(path.Length == 0 ? 'M' : 'L').Append(Number(x)).Append(' ').Append(Number(y));
        return path.ToString();
    }

    /// <summary>A coordinate with at most one decimal, never with an exponent or a comma.</summary>
    internal static string Number(double value) => value.ToString("0.#", CultureInfo.InvariantCulture) is var text && text == "-0" ? "0" : text;

    private static double Distance((double X, double Y) point, (double X, double Y) from, (double X, double Y) to)
    {
        var (dx, dy) = (to.X - from.X, to.Y - from.Y);
        var length = Math.Sqrt((dx * dx) + (dy * dy));
        return length > 0 ? Math.Abs((dy * (point.X - from.X)) - (dx * (point.Y - from.Y))) / length : Math.Sqrt(Math.Pow(point.X - from.X, 2) + Math.Pow(point.Y - from.Y, 2));
    }
}
