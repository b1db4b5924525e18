using System.Globalization;
using Undercroft.Forecasts.Due;
using Undercroft.Printing.Drawing;

namespace Undercroft.Printing;

/// <summary>The round on paper: what to look at, in the order of the shelves, with boxes and lines for a pencil. It is typed back in from one form.</summary>
internal static class RoundSheet
{
    private static readonly (string Letter, string Meaning)[] Signs =
    [
        ("L", "lid loose or lifted"), ("F", "film slack or split"), ("R", "rust"), ("M", "fuzz, musty or wet: treat as mould"), ("C", "crystals"), ("W", "drops inside"), ("D", "darker"),
    ];

    /// <summary>The sheet.</summary>
    internal static Printed Of(DueAnswer due, PaperSize size, DateOnly today)
    {
        using var paper = new Paper("Round", today);
        var flow = new Flow(paper, size.Lying, string.Create(CultureInfo.InvariantCulture, $"Round of {due.Minutes:0} minutes"), "Round");
        flow.Say($"{due.Verdict} Date: ____________   Scale: ____________");
        if (due.Items.Count == 0)
            return flow.Finished();
        flow.Say("Tick the first box where all is well. Else ring what you see: " + string.Join(" · ", Signs.Select(sign => $"{sign.Letter} {sign.Meaning}")) + ". A dome: write its height in mm over the rim.", quiet: true);
        flow.Caution("If it may be mould, do not smoke, taste, bake or give it away; people with asthma or a weak immune system leave it to someone else. A domed lid or tin may be under pressure: turn it away from faces, do not pierce it, open it outdoors if at all. Chipped glass: throw jar and leaf away.");
        string[] signs = [.. Signs.Select(sign => sign.Letter)];
        var note = flow.Width - (18 + 58 + 68 + 22 + 18 + 16 + 46);
        FlowColumn[] columns = [new("All well", 18), new("Package", 58), new("Check, and what is bad", 68), new("Whole, g", 22), new("Inside, %", 18), new("Dome, mm", 16), new("Seen", 46), new("Note", note)];
        foreach (var place in due.Items.GroupBy(item => item.Place ?? "Place not known"))
        {
            flow.Heading(place.Key);
            flow.Table(columns, [.. place.Select(item => (FlowCell[])
            [
                new(Box: true),
                new(item.Id, Bold: true, Second: $"{item.Blend ?? "blend not known"}: {item.Reason}"),
                new($"{item.Check}.", Second: $"Bad: {item.BadIf}."),
                new(Blank: true), new(Blank: true), new(Blank: true),
                new(Marks: signs),
                new(Blank: true),
            ])], 12);
        }

        return flow.Finished();
    }
}
