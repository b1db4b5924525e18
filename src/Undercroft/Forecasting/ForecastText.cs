using System.Globalization;
using Spectre.Console;
using Undercroft.Forecasts;
using Undercroft.Ledger;

namespace Undercroft.Forecasting;

/// <summary>Forecasts for people, on the terminal.</summary>
public static class ForecastText
{
    private static readonly int[] Shown = [0, 365, 2 * 365, 5 * 365, 10 * 365, 20 * 365, 30 * 365];

    /// <summary>One package in full; several as a line each.</summary>
    public static void Print(IAnsiConsole page, Cellar cellar, IReadOnlyList<PackageForecast> forecasts, IReadOnlyList<InputShare>? shares = null)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(forecasts);
        if (forecasts.Count == 1)
        {
            InFull(page, forecasts[0]);
            if (shares is not null)
                Shares(page, shares);
            return;
        }

        foreach (var forecast in forecasts)
            page.Write(new Text($"{forecast.Id}  {cellar.BlendOf(cellar.Packages[forecast.Id!.Value]).Name ?? "blend unknown"}: {forecast.Verdict}\n"));
        if (forecasts.Count == 0)
            page.WriteLine("Nothing stands here yet.");
    }

    private static void Shares(IAnsiConsole page, IReadOnlyList<InputShare> shares)
    {
        page.WriteLine();
        page.WriteLine("Where the doubt of the moisture at the horizon comes from, before any measurement:");
        foreach (var share in shares)
            page.Write(new Padder(new Text(string.Create(CultureInfo.InvariantCulture, $"{100 * Math.Max(0, share.Total):0} % {share.Input} ({100 * Math.Max(0, share.First):0} % by itself)"))).Padding(2, 0, 0, 0));
        page.WriteLine("Shares overlap where two things matter only together. They explain; what to measure is said above.");
    }

    private static void InFull(IAnsiConsole page, PackageForecast forecast)
    {
        page.Write(new Text((forecast.Id is { } id ? $"{id}: " : "") + forecast.Verdict + "\n"));
        foreach (var reason in forecast.Reasons)
            page.Write(new Padder(new Text($"because {reason}")).Padding(2, 0, 0, 0));
        page.Write(new Text($"Next, by {forecast.Next.On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}: {forecast.Next.What}\n"));
        page.Write(new Text(Narrowed(forecast.NarrowedBy) + "\n"));
        if (forecast is { Id: { } it, NarrowedBy.Measurement: Candidates.MeasureContainer })
            page.Write(new Text($"Write it down with: undercroft measure {it} --empty MASS --full MASS\n"));
        if (forecast.Id is { } one && Candidates.IsToName(forecast.NarrowedBy?.Measurement))
            page.Write(new Text($"Write it down with: undercroft measure {one} --container KIND\n"));
        page.WriteLine();
        var table = new Table().Border(TableBorder.None).AddColumn("In").AddColumn("Moisture %").AddColumn("Activity").AddColumn("Oxygen kPa").AddColumn("Pressure kPa");
        foreach (var n in Rows(forecast))
        {
            table.AddRow(
                n == 0 ? "now" : TimePhrase.Of(forecast.Days[n]), Range(forecast.Moisture, n, "0.0"), Range(forecast.Activity, n, "0.00"), Range(forecast.Oxygen, n, "0.0"),
                Range(forecast.Pressure, n, "0"));
        }

        page.Write(table);
        page.Write(new Text(string.Create(CultureInfo.InvariantCulture, $"Middle (5–95 %). Chance of activity over 0.70 for a month on end: {100 * forecast.MouldRisk:0} %.\n")));
        page.WriteLine();
        page.WriteLine("Rests on:");
        foreach (var used in forecast.Assumptions)
            page.Write(new Padder(new Text($"{used.What}: {used.Value} [{used.Evidence.Tag}{(used.Evidence.Source.Length > 0 ? " " + used.Evidence.Source : "")}]")).Padding(2, 0, 0, 0));
        foreach (var remark in forecast.Remarks)
            page.Write(new Text(remark + "\n"));
    }

    /// <summary>The one measurement, or that there is none.</summary>
    public static string Narrowed(Narrowing? narrowing) => narrowing is null
        ? string.Create(CultureInfo.InvariantCulture, $"What would narrow it most: nothing that can be measured at home narrows it by more than {100 * Narrowing.WorthWhile:0} %.")
        : string.Create(
            CultureInfo.InvariantCulture, $"What would narrow it most: {narrowing.Measurement} (from {narrowing.SpreadNow:0.0} to about {narrowing.SpreadAfter:0.0} points of moisture).");

    private static IEnumerable<int> Rows(PackageForecast forecast) =>
        Shown.Select(day => Array.FindIndex(forecast.Days, each => each >= day)).Where(n => n >= 0).Append(forecast.Days.Length - 1).Distinct();

    private static string Range(Band band, int n, string format) => string.Create(CultureInfo.InvariantCulture,
        $"{band.P50[n].ToString(format, CultureInfo.InvariantCulture)} ({band.P5[n].ToString(format, CultureInfo.InvariantCulture)}–{band.P95[n].ToString(format, CultureInfo.InvariantCulture)})");
}
