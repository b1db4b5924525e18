using System.Globalization;
using Undercroft.Forecasts.Due;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Printing.Drawing;
using Undercroft.Shell.Web;

namespace Undercroft.Printing;

/// <summary>Papers for a browser: the same as the commands print.</summary>
internal static class PrintFiles
{
    /// <summary>All addresses.</summary>
    internal static IReadOnlyList<Shell.Web.Endpoint> All { get; } =
    [
        Of("labels", (cellar, _, today, asked) => Labels.Of(
            cellar,
            Named(cellar, asked),
            new LabelAsk(LabelSheet.Of(asked("Sheet") ?? LabelSheet.All[0].Code), Whole(asked("Start")), Shift(asked("Right")), Shift(asked("Down")), CodeWords.Find<LabelParts>(asked("Parts") ?? "both") ?? LabelParts.Both),
            today)),
        Of("round", (cellar, size, today, asked) => RoundSheet.Of(DueList.Of(cellar, today, double.TryParse(asked("Minutes"), NumberStyles.Float, CultureInfo.InvariantCulture, out var minutes) ? minutes : 15), size, today)),
        Of("packing", (cellar, size, today, asked) => PackingSheet.Of(cellar, asked("Ids") is null ? PackingSheet.Waiting(cellar) : Named(cellar, asked), size, today)),
        Of("handover", (cellar, size, today, asked) => HandOver.Of(cellar, size, new HandOverAsk(asked("Decides"), asked("Ask"), Money.Parse(asked("Again"))), today)),
        OfFolder("claim", (folder, cellar, size, today, asked) => ClaimList.Of(cellar, Named(cellar, asked), size, Money.Parse(asked("Again")), today, folder.Photo)),
        Of("provenance", (cellar, size, today, asked) => Provenance.Of(cellar, asked("Ids") is null ? throw new Refusal("Name the packages whose story is to be printed.") : Named(cellar, asked), size, today)),
    ];

    private static Shell.Web.Endpoint Of(string paper, Func<Cellar, PaperSize, DateOnly, Func<string, string?>, Printed> print) =>
        OfFolder(paper, (_, cellar, size, today, asked) => print(cellar, size, today, asked));

    private static Shell.Web.Endpoint OfFolder(string paper, Func<DataFolder, Cellar, PaperSize, DateOnly, Func<string, string?>, Printed> print) =>
        new("GET", $"/print/{paper}.pdf", Scope.Read, $"The {paper} paper as PDF.", SentFile.Of("application/pdf", $"{paper}.pdf", async context =>
        {
            var desk = context.RequestServices.GetRequiredService<Desk>();
            var cellar = await desk.Cellar(context.RequestAborted);
            string? Asked(string name) => context.Request.Query[name].ToString().Trim() is { Length: > 0 } text ? text : null;
            return print(context.RequestServices.GetRequiredService<DataFolder>(), cellar, PaperSize.Of(Asked("Paper") ?? "a4"), desk.Present(cellar).Today, Asked).Bytes;
        }));

    private static IReadOnlyList<Package> Named(Cellar cellar, Func<string, string?> asked) =>
        Chosen.Of(cellar, (asked("Ids") ?? "").Split((char[])[' ', ',', ';'], StringSplitOptions.RemoveEmptyEntries), asked("Place"));

    private static int Whole(string? text) => text is null ? 1 : int.TryParse(text, NumberStyles.Integer, CultureInfo.InvariantCulture, out var number) ? number : throw new Refusal($"'{text}' is not a whole number.");

    private static double Shift(string? text) => text is null ? 0
        : double.TryParse(text.Replace(',', '.').Replace("mm", "", StringComparison.OrdinalIgnoreCase).Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out var millimetres) ? millimetres
        : throw new Refusal($"'{text}' is not a number of millimetres.");
}
