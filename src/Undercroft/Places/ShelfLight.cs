using System.Globalization;
using System.Text.Json.Nodes;
using Spectre.Console;
using Undercroft.Ledger;
using Undercroft.Physics.Climate.Exposures;

namespace Undercroft.Places;

/// <summary>Light on a shelf over a year, and what a cover leaves of its ultraviolet and blue.</summary>
/// <param name="LuxHoursPerYear">lx·h a year, bare.</param>
internal sealed record ShelfLight(double LuxHoursPerYear)
{
    private const double DimDose = 150_000; // lx·h a year: limit of CIE 157:2004 for things of medium sensitivity, from memory

    internal static ShelfLight Of(double lux, double hoursPerDay) => lux >= 0 && double.IsFinite(lux) && hoursPerDay is >= 0 and <= 24
        ? new(LightDose.LuxHours(lux, 365 * hoursPerDay))
        : throw new Refusal("Light is not below 0 lx, and a day has 24 hours. Write for example --lux 200 --lit-hours 2.");

    internal string Means => LuxHoursPerYear > DimDose
        ? "More than museums allow for things as sensitive as dyed paper: bare glass there fades leaf and labels. A closed box, tin or cupboard ends it; tinted glass takes nine tenths of ultraviolet and blue."
        : "Within what museums allow for things as sensitive as dyed paper; a closed box is still better over decades.";

    internal JsonObject ToJson() => new()
    {
        ["luxHoursPerYear"] = Shell.JsonText.Rounded(LuxHoursPerYear),
        ["mostBlueClearGlass"] = Shell.JsonText.Rounded(LightDose.MostBlue(LightCover.ClearGlass)),
        ["mostBlueTintedGlass"] = LightDose.MostBlue(LightCover.TintedGlass),
        ["mostBlueClosedBox"] = LightDose.MostBlue(LightCover.ClosedBox),
        ["means"] = Means,
    };

    internal void Print(IAnsiConsole page) => page.Write(new Text(string.Create(CultureInfo.InvariantCulture,
        $"Light: {LuxHoursPerYear:0} lx·h a year. {Means} (Of ultraviolet and blue at most {100 * LightDose.MostBlue(LightCover.ClearGlass):0} % passes clear glass, 10 % tinted glass, none a closed box; limit from memory.)\n")));
}
