using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Printing.Drawing;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Printing;

/// <summary>Which labels a package gets.</summary>
public enum LabelParts
{
    /// <summary>For the body, and for the lid.</summary>
    Both,

    /// <summary>For the body alone.</summary>
    Body,

    /// <summary>For the lid alone.</summary>
    Lid,
}

/// <summary>What labels are asked for.</summary>
/// <param name="Sheet">On which sheet.</param>
/// <param name="Start">The first label that is still on it, from 1.</param>
/// <param name="RightMm">All of it shifted to the right; a minus sign shifts left.</param>
/// <param name="DownMm">All of it shifted down; a minus sign shifts up.</param>
/// <param name="Parts">Body, lid or both.</param>
public sealed record LabelAsk(LabelSheet Sheet, int Start = 1, double RightMm = 0, double DownMm = 0, LabelParts Parts = LabelParts.Both);

/// <summary>Labels for packages: a code to read by eye and the same code to scan, and what a hand before the shelf needs.</summary>
internal static class Labels
{
    /// <summary>How far labels may be shifted: more is another sheet, not a printer's slip.</summary>
    internal const double MostShiftMm = 20;

    private const double Gap = 1.4;

    /// <summary>The sheets.</summary>
    /// <exception cref="Refusal">No packages, a start that is not on the sheet, or too large a shift.</exception>
    internal static Printed Of(Cellar cellar, IReadOnlyList<Package> packages, LabelAsk ask, DateOnly today)
    {
        var sheet = ask.Sheet;
        if (packages.Count == 0)
            throw new Refusal("There is no package to print a label for. Add one, or name another.");
        if (ask.Start < 1 || ask.Start > sheet.Count)
            throw new Refusal($"A sheet of this kind has {sheet.Count} labels, so the first to print on is one of 1 to {sheet.Count}, not {ask.Start.ToString(CultureInfo.InvariantCulture)}.");
        if (!(Math.Abs(ask.RightMm) <= MostShiftMm && Math.Abs(ask.DownMm) <= MostShiftMm))
            throw new Refusal($"Labels are shifted by {MostShiftMm} mm at most. Where it is more, another sheet is in the tray: choose with --sheet.");
        using var paper = new Paper("Labels", today);
        PaperPage? page = null;
        var at = ask.Start - 1;
        foreach (var draw in packages.SelectMany(package => Drawings(cellar, package, sheet, ask.Parts)))
        {
            if (at == sheet.Count)
            {
                page!.Dispose();
                (page, at) = (null, 0);
            }

            page ??= paper.Add(sheet.Paper);
            var (x, y) = sheet.Corner(at++);
            draw(page, x + ask.RightMm, y + ask.DownMm);
        }

        page?.Dispose();
        return Printed.From(paper);
    }

    private static IEnumerable<Action<PaperPage, double, double>> Drawings(Cellar cellar, Package package, LabelSheet sheet, LabelParts parts)
    {
        if (parts is LabelParts.Both or LabelParts.Body)
            yield return (page, x, y) => Body(page, cellar, package, sheet, x, y);
        if (parts is LabelParts.Both or LabelParts.Lid)
            yield return (page, x, y) => Lid(page, cellar, package, sheet, x, y);
    }

    private static void Body(PaperPage page, Cellar cellar, Package package, LabelSheet sheet, double x, double y)
    {
        var (pad, code) = (sheet.PaddingMm, package.Id.ToString());
        var inner = sheet.HeightMm - (2 * pad);
        var square = Math.Min(inner, 25);
        page.Code(code, x + pad, y + pad, square);
        var left = x + pad + square + Gap;
        var width = sheet.WidthMm - (2 * pad) - square - Gap;
        var (name, fact, small) = sheet.HeightMm > 30 ? (new Letters(10.5, true), new Letters(9), new Letters(7)) : (new Letters(9.5, true), new Letters(7), new Letters(6.4));
        var big = new Letters(sheet.HeightMm > 30 ? 17 : 14, true);
        page.Text(code, left, y + pad, big);
        const string Caution = "Tobacco, not food. Keep from children and pets.";
        const double Sign = 4.2;
        var caution = page.Broken(Caution, width - Sign - 0.8, small);
        var foot = y + sheet.HeightMm - pad - (caution.Count * small.Line);
        page.Warning(left, foot + 0.3, Sign);
        for (var n = 0; n < caution.Count; n++)
            page.Text(caution[n], left + Sign + 0.8, foot + (n * small.Line), small);

        var top = y + pad + big.Line;
        var facts = Facts(cellar, package).SelectMany(line => page.Broken(line, width, fact)).ToArray();
        var room = foot - top;
        var names = (int)Math.Clamp(Math.Floor((room - (Math.Min(facts.Length, 1) * fact.Line)) / name.Line), 1, 2);
        foreach (var line in page.Broken(PackageWords.Title(cellar, package), width, name, names))
        {
            page.Text(line, left, top, name);
            top += name.Line;
        }

        foreach (var line in facts)
        {
            if (top + fact.Line > foot + 0.2)
                break;
            page.Text(line, left, top, fact);
            top += fact.Line;
        }
    }

    private static void Lid(PaperPage page, Cellar cellar, Package package, LabelSheet sheet, double x, double y)
    {
        var code = package.Id.ToString();
        var ring = Math.Min(sheet.HeightMm - (2 * Math.Max(0.8, sheet.PaddingMm - 1.5)), 40);
        var (middle, centre) = (x + (sheet.WidthMm / 2), y + (sheet.HeightMm / 2));
        var top = centre - (ring / 2);
        page.CuttingRing(middle, centre, ring);
        var square = ring * 0.56;
        page.Code(code, middle - (square / 2), top + (ring * 0.135), square);
        var name = new Letters(ring > 30 ? 7.5 : 6, Grey: false);
        if (page.Broken(PackageWords.Title(cellar, package), ring * 0.56, name, 1) is [var line, ..])
            page.Centred(line, middle, top + (ring * 0.075), name);
        page.Centred(code, middle, top + (ring * 0.69), new Letters(ring > 30 ? 14 : 10.5, true));
    }

    /// <summary>What is known, shortest first; nothing stands for what nobody knows.</summary>
    private static IEnumerable<string> Facts(Cellar cellar, Package package)
    {
        var blend = cellar.BlendOf(package);
        string[] what = [.. new[] { package.NetAtClosing.IsKnown ? PackageWords.Mass(package.NetAtClosing) : null, PackageWords.Cut(blend.Cut) }.OfType<string>()];
        if (what.Length > 0)
            yield return string.Join(", ", what);
        if (package.Sealed.IsKnown)
            yield return "closed " + DateText.Of(package.Sealed);
        if (cellar.Lots[package.Lot].Made is { IsKnown: true } made)
            yield return "made " + DateText.Of(made);
    }
}
