namespace Undercroft.Printing.Drawing;

/// <summary>A column of a table.</summary>
/// <param name="Head">Above it.</param>
/// <param name="WidthMm">Its width.</param>
/// <param name="Right">True where its cells end at the right edge, as numbers do.</param>
internal sealed record FlowColumn(string Head, double WidthMm, bool Right = false);

/// <summary>A cell of a table: text, boxes to tick, or a line to write on.</summary>
/// <param name="Text">Its words; empty where there is something to fill in.</param>
/// <param name="Bold">Heavy.</param>
/// <param name="Box">True for a box to tick before the text.</param>
/// <param name="Blank">True for a line to write on.</param>
/// <param name="Second">A second paragraph, quieter.</param>
/// <param name="Marks">Letters to ring, wide apart.</param>
internal sealed record FlowCell(string Text = "", bool Bold = false, bool Box = false, bool Blank = false, string? Second = null, IReadOnlyList<string>? Marks = null)
{
    public static implicit operator FlowCell(string text) => new(text);
}

/// <summary>Running text on as many pages as it takes, with a foot that says what it is, when it was printed and which page this is.</summary>
internal sealed class Flow
{
    private const double Margin = 15;
    private const double FootMm = 9;
    private const double Between = 1.6;
    private const double RightInset = 3.5; // numbers at the right edge of a column keep clear of the words of the next
    private static readonly Letters Title = new(20, true);
    private static readonly Letters Head = new(12.5, true);
    private static readonly Letters Body = new(10.5);
    private static readonly Letters Small = new(9);
    private readonly Paper paper;
    private readonly PaperSize size;
    private readonly string name;
    private readonly List<PaperPage> pages = [];
    private double y;

    /// <summary>Begins a paper with its title.</summary>
    /// <param name="paper">The document.</param>
    /// <param name="size">Of each page.</param>
    /// <param name="title">Above the first page.</param>
    /// <param name="name">In the foot of each.</param>
    internal Flow(Paper paper, PaperSize size, string title, string name)
    {
        (this.paper, this.size, this.name) = (paper, size, name);
        Turn();
        Titled(title);
    }

    /// <summary>From one margin to the other.</summary>
    internal double Width => size.WidthMm - (2 * Margin);

    private PaperPage Page => pages[^1];

    private double Foot => size.HeightMm - Margin - FootMm;

    /// <summary>A title.</summary>
    internal Flow Titled(string title)
    {
        foreach (var line in Page.Broken(title, Width, Title))
            Put(line, Title);
        y += Between;
        return this;
    }

    /// <summary>A heading that stays with what follows it.</summary>
    internal Flow Heading(string text)
    {
        Need(Head.Line + (4 * Body.Line));
        y += y > Margin + 1 ? 2.5 : 0;
        Put(text, Head);
        y += 0.6;
        return this;
    }

    /// <summary>A paragraph.</summary>
    internal Flow Say(string text, bool quiet = false)
    {
        var letters = quiet ? Small : Body;
        foreach (var line in Page.Broken(text, Width, letters))
            Put(line, letters);
        y += Between;
        return this;
    }

    /// <summary>Points of a list; each may be a box to tick.</summary>
    internal Flow Points(IEnumerable<string> points, bool boxes = false)
    {
        const double Indent = 6;
        foreach (var point in points)
        {
            var lines = Page.Broken(point, Width - Indent, Body);
            Need(Math.Min(lines.Count, 2) * Body.Line);
            if (boxes)
                Page.Frame(Margin, y + 0.6, 3.4, 3.4);
            else
                Page.Text("–", Margin + 1.5, y, Body);
            foreach (var line in lines)
                Put(line, Body, Indent);
            y += boxes ? 1.2 : 0.5;
        }

        y += Between;
        return this;
    }

    /// <summary>A caution in a frame.</summary>
    internal Flow Caution(string text)
    {
        const double Pad = 3;
        const double Sign = 7;
        var lines = Page.Broken(text, Width - (3 * Pad) - Sign, Body);
        var height = Math.Max(lines.Count * Body.Line, Sign) + (2 * Pad);
        Need(height + 1);
        Page.Frame(Margin, y, Width, height, 0.5);
        Page.Warning(Margin + Pad, y + Pad, Sign);
        var top = y + Pad;
        foreach (var line in lines)
        {
            Page.Text(line, Margin + (2 * Pad) + Sign, top, Body);
            top += Body.Line;
        }

        y += height + 3;
        return this;
    }

    /// <summary>A line to write on, with what belongs there before it.</summary>
    internal Flow Fill(string before, string filled = "")
    {
        Need(9);
        y += 2;
        Page.Text(before, Margin, y, Body);
        var from = Margin + Math.Max(PaperPage.Width(before, Body) + 2, 45);
        if (filled.Length > 0)
        {
            var lines = Page.Broken(filled, size.WidthMm - Margin - from, Body);
            foreach (var line in lines)
                Put(line, Body, from - Margin);
        }
        else
        {
            Page.Line(from, y + Body.Line, size.WidthMm - Margin, y + Body.Line);
            y += Body.Line + 1.5;
        }

        return this;
    }

    /// <summary>A table; its head stands again on each page, and no row is torn in two.</summary>
    internal Flow Table(IReadOnlyList<FlowColumn> columns, IReadOnlyList<IReadOnlyList<FlowCell>> rows, double leastRowMm = 0)
    {
        Heads(columns);
        foreach (var row in rows)
        {
            var cells = row.Select((cell, n) => Lines(cell, columns[n].WidthMm - (columns[n].Right ? 1 + RightInset : 2))).ToArray();
            var height = Math.Max(leastRowMm, (cells.Max(lines => lines.Count) * Small.Line) + 1.8);
            if (y + height > Foot)
            {
                Turn();
                Heads(columns);
            }

            var x = Margin;
            for (var n = 0; n < row.Count; n++)
            {
                Cell(row[n], cells[n], columns[n], x, height);
                x += columns[n].WidthMm;
            }

            y += height;
            Page.Line(Margin, y, Margin + columns.Sum(column => column.WidthMm), y, 0.1);
        }

        y += 3;
        return this;
    }

    /// <summary>Photos in rows of four, each with its words beneath; a frame stands for one that is missing.</summary>
    internal Flow Pictures(IEnumerable<(byte[]? Jpeg, string Words)> pictures)
    {
        const int Across = 4;
        const double Gap = 4;
        var wide = (Width - ((Across - 1) * Gap)) / Across;
        var high = wide * 3 / 4;
        foreach (var row in pictures.Chunk(Across))
        {
            Need(high + Small.Line + 3);
            for (var n = 0; n < row.Length; n++)
            {
                var x = Margin + (n * (wide + Gap));
                if (row[n].Jpeg is { } file && SmallPicture.Of(file) is { } small)
                {
                    Page.Picture(small, x, y, wide, high);
                }
                else
                {
                    Page.Frame(x, y, wide, high);
                    Page.Text("file not found", x + 2, y + 1, Small);
                }

                Page.Text(row[n].Words, x, y + high + 0.6, Small);
            }

            y += high + Small.Line + 3;
        }

        return this;
    }

    /// <summary>Begins a new page.</summary>
    internal Flow Turned()
    {
        Turn();
        return this;
    }

    /// <summary>Puts the foot on every page and closes them.</summary>
    internal Printed Finished()
    {
        var lacking = paper.Replaced.Count > 0 ? " · □ stands for a sign that this font lacks" : "";
        for (var n = 0; n < pages.Count; n++)
        {
            var foot = size.HeightMm - Margin;
            pages[n].Line(Margin, foot - 5, size.WidthMm - Margin, foot - 5, 0.1);
            pages[n].Text($"{name} · printed {Shell.DateText.Of(paper.Today)}{lacking}", Margin, foot - 4, new Letters(8.5, Grey: true));
            pages[n].EndingAt($"page {n + 1} of {pages.Count}", size.WidthMm - Margin, foot - 4, new Letters(8.5, Grey: true));
            pages[n].Dispose();
        }

        return Printed.From(paper);
    }

    private List<(string Text, Letters Letters)> Lines(FlowCell cell, double width)
    {
        var first = Small with { Bold = cell.Bold };
        var inner = width - (cell.Box ? 5 : 0);
        return
        [
            .. Page.Broken(cell.Text, inner, first).Select(line => (line, first)),
            .. cell.Second is null ? [] : Page.Broken(cell.Second, inner, Small).Select(line => (line, Small)),
        ];
    }

    private void Cell(FlowCell cell, List<(string Text, Letters Letters)> lines, FlowColumn column, double x, double height)
    {
        var top = y + 0.9;
        var left = x + 1;
        if (cell.Box)
        {
            Page.Frame(left, top + 0.2, 3.4, 3.4);
            left += 5;
        }

        foreach (var (text, letters) in lines)
        {
            if (column.Right)
                Page.EndingAt(text, x + column.WidthMm - RightInset, top, letters);
            else
                Page.Text(text, left, top, letters);
            top += letters.Line;
        }

        for (var n = 0; n < cell.Marks?.Count; n++)
            Page.Text(cell.Marks[n], x + 1 + (n * (column.WidthMm - 2) / cell.Marks.Count), y + 2.2, new Letters(12));

        if (cell.Blank)
            Page.Line(x + 1, y + height - 1.4, x + column.WidthMm - 1.5, y + height - 1.4, 0.15);
    }

    private void Heads(IReadOnlyList<FlowColumn> columns)
    {
        var letters = Small with { Bold = true };
        var heads = columns.Select(column => Page.Broken(column.Head, column.WidthMm - 1.5, letters)).ToArray();
        var height = (heads.Max(lines => lines.Count) * letters.Line) + 1.2;
        Need(height + (3 * Small.Line));
        var x = Margin;
        for (var n = 0; n < columns.Count; n++)
        {
            var top = y + height - 1.2 - (heads[n].Count * letters.Line);
            foreach (var line in heads[n])
            {
                if (columns[n].Right)
                    Page.EndingAt(line, x + columns[n].WidthMm - RightInset, top, letters);
                else
                    Page.Text(line, x + 1, top, letters);
                top += letters.Line;
            }

            x += columns[n].WidthMm;
        }

        y += height;
        Page.Line(Margin, y, x, y, 0.35);
    }

    private void Put(string line, Letters letters, double indent = 0)
    {
        Need(letters.Line);
        Page.Text(line, Margin + indent, y, letters);
        y += letters.Line;
    }

    private void Need(double height)
    {
        if (y + height > Foot)
            Turn();
    }

    private void Turn()
    {
        pages.Add(paper.Add(size));
        y = Margin;
    }
}
