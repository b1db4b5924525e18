using System.Globalization;
using Spectre.Console;
using Undercroft.Forecasts.Places;
using Undercroft.Physics.Quantities;
using Undercroft.Places.Logging;
using Undercroft.Shell.Web;

namespace Undercroft.Places.Showing;

/// <summary>Places for people, on the terminal: verdict first.</summary>
internal static class PlaceText
{
    /// <summary>One place in full.</summary>
    internal static void Print(IAnsiConsole page, PlaceAnswer answer, PlaceShown shown, bool all)
    {
        Say(page, 0, $"{shown.Path}: {answer.Verdict}");
        foreach (var reason in answer.Reasons)
            Say(page, 2, $"because {reason}");
        Say(page, 0, $"Next, by {Day(answer.Next.On)}: {answer.Next.What}");
        Say(page, 0, string.Create(CultureInfo.InvariantCulture, $"What would narrow it most: {answer.NarrowedBy.What} (mean known to ±{answer.NarrowedBy.NowK:0.0} K now, to about ±{answer.NarrowedBy.AfterK:0.0} K then)."));
        page.WriteLine();
        Say(page, 0, Rests(shown));
        foreach (var left in shown.Climate.LeftOut)
            Say(page, 2, left);
        foreach (var sensor in shown.Sensors)
            Say(page, 2, SensorLine(sensor));
        var climate = shown.Climate;
        Say(page, 2, string.Create(CultureInfo.InvariantCulture, $"mean {climate.MeanC:0.#} °C (two in three within {climate.MeanSdC:0.0}), summer and winter {Math.Abs(climate.AnnualSwingC):0.#} K either way (± {climate.AnnualSwingSdC:0.0}), the day {climate.DailySwingC:0.#} K, weather {climate.ScatterC:0.#} K about that"));
        Say(page, 2, string.Create(CultureInfo.InvariantCulture, $"warmest about {climate.WarmestDay[2..]} (± {climate.WarmestDaySdDays:0} days)"));
        Say(page, 2, string.Create(CultureInfo.InvariantCulture, $"humidity {climate.MeanHumidityPct:0} % (two in three within {climate.MeanHumiditySdPct:0}), over the year {Math.Abs(climate.HumiditySwingPct):0} points either way, {(climate.HumiditySwingPct >= 0 ? "moister in summer" : "moister in winter")}"));
        Say(page, 2, string.Create(CultureInfo.InvariantCulture, $"air pressure outside {climate.PressureKPa:0.0} kPa"));
        if (climate.FollowsHours is { } hours)
            Say(page, 2, string.Create(CultureInfo.InvariantCulture, $"it follows the place around it with a lag of {hours:0.#} h ({answer.Fitted.Follows!.LowHours:0.#} to {answer.Fitted.Follows.HighHours:0.#})"));
        Say(page, 2, $"[{climate.Provenance}{(climate.Source is { } source ? " " + source : "")}: {climate.Remark}]");
        page.WriteLine();
        Say(page, 0, answer.Logged is null ? "What a typical year there does (computed, no log):" : "What its log lived through, over its last year:");
        foreach (var measure in Meaning.Of(answer.Logged ?? answer.Typical))
        {
            Say(page, 2, $"{measure.Name}: {measure.Value}");
            Say(page, 4, measure.Means + (all ? $" [{measure.Provenance}]" : ""));
        }

        page.WriteLine();
        Say(page, 0, "What would change, in a typical year:");
        foreach (var change in answer.Changes)
            Say(page, 2, $"{change.Change}: {Change(change)}");
        Say(page, 0, Stock(shown));
    }

    /// <summary>Several, side by side.</summary>
    internal static void Print(IAnsiConsole page, PlaceComparison found)
    {
        Say(page, 0, found.Verdict);
        foreach (var reason in found.Reasons)
            Say(page, 2, $"because {reason}");
        Say(page, 0, $"Next, by {Day(found.Next.On)}: {found.Next.What}");
        Say(page, 0, $"What would narrow it most: {found.NarrowedBy}.");
        page.WriteLine();
        foreach (var place in found.Places)
        {
            Say(page, 0, $"{place.Path}: good enough {PlaceAnswer.Words(place.Fitness)}".Replace("good enough not for leaf", "not for leaf", StringComparison.Ordinal));
            Say(page, 2, string.Create(CultureInfo.InvariantCulture,
                $"acts like {place.MeanKinetic.P50:0.0} °C ({place.MeanKinetic.P5:0.0}–{place.MeanKinetic.P95:0.0}), humidity {place.Belief.MeanHumidity:0} %, a day swings {place.Typical.DailySwingK ?? 0:0.0} K, {place.Typical.HoursAbove25CPerYear:0} h a year above 25 °C, ageing {place.Typical.AgeingRate:0.0} times 20 °C, tins wet T{place.Typical.WetnessClass}, mould index {place.Typical.MouldIndex:0.0} (wood)"));
            Say(page, 2, $"rests on: {Rests(place)}");
            foreach (var change in place.Changes)
                Say(page, 4, $"{change.Change}: {Change(change)}");
        }
    }

    /// <summary>A spell.</summary>
    internal static void Print(IAnsiConsole page, PlaceSpell spell)
    {
        Say(page, 0, $"{Day(spell.From)} to {Day(spell.To)}: {spell.Verdict}");
        foreach (var reason in spell.Reasons)
            Say(page, 2, $"because {reason}");
        Say(page, 0, $"Next, by {Day(spell.Next.On)}: {spell.Next.What}");
        Say(page, 0, $"What would narrow it most: {spell.NarrowedBy}.");
        foreach (var effect in spell.Effects)
        {
            Say(page, 2, $"{effect.Rank}. {effect.Id}: {effect.Why}");
            Say(page, 5, string.Create(CultureInfo.InvariantCulture, $"water {effect.WaterPoints.P50:+0.00;-0.00;0.00} points ({effect.WaterPoints.P5:0.00;-0.00;0.00} to {effect.WaterPoints.P95:0.00;-0.00;0.00}), up to {effect.PeakGaugeKPa:0.0} kPa over the room, oxygen {effect.OxygenMl:+0.0;-0.0;0.0} ml"));
            Say(page, 5, $"{effect.Check}.");
        }
    }

    /// <summary>A freezer treatment.</summary>
    internal static void Print(IAnsiConsole page, FreezePlan plan)
    {
        Say(page, 0, plan.Verdict);
        foreach (var reason in plan.Reasons)
            Say(page, 2, $"because {reason}");
        foreach (var day in plan.Days)
            Say(page, 0, $"{Day(day.On)}  {day.What}");
        foreach (var caution in plan.Cautions)
            Say(page, 0, $"Take care: {caution}");
        Say(page, 0, $"What would narrow it most: {plan.NarrowedBy}.");
        foreach (var rest in plan.Rests)
            Say(page, 2, $"[{rest}]");
    }

    /// <summary>What a place's page says it rests on, and how old that is.</summary>
    internal static string Rests(PlaceShown shown)
    {
        var climate = shown.Climate;
        if (climate.LastReading is { } last)
        {
            return string.Create(CultureInfo.InvariantCulture,
                $"Rests on {climate.Readings} readings from {climate.WeeksOfYear} of 52 weeks of the year, worth about {Math.Max(1, climate.EffectiveDays):0} independent days; the last is of {last[..10]}, {Ago(climate.AgeDays ?? 0)}.");
        }

        return climate.Basis switch
        {
            "log-around" => $"Rests on the log of {climate.AroundPlace}; its last reading is of {Ago(climate.AroundAgeDays ?? 0)}. No logger has been read here itself.",
            "stated" => "Rests on somebody's word. No logger has been read here.",
            "outdoors" => $"Rests on the stated year outdoors and the room kind{(shown.Room is { } room ? $" {room}" : "")}. No logger has been read here.",
            _ => shown.Room is { } kind ? $"Rests on the room kind {kind} alone, widely. No logger has been read here." : "Rests on nothing but that it is indoors: naming the room kind narrows it. No logger has been read here.",
        } + (climate.Follows is { } follows ? " " + follows : "");
    }

    /// <summary>How a sensor stands, in a line.</summary>
    internal static string SensorLine(SensorState sensor) =>
        $"Sensor {(sensor.Sensor is { } name ? $"{name} " : "")}of {sensor.Place}: {char.ToLowerInvariant(sensor.Verdict[0])}{sensor.Verdict[1..]}{(sensor.CorrectedSince is { } day ? $" Humidity corrected since {day}." : "")}";

    internal static string Rests(PlaceAnswer place) => place.Fitted.Log is { } log
        ? string.Create(CultureInfo.InvariantCulture, $"its own log, {place.Fitted.Year.WeeksOfYear} of 52 weeks, last {log.Last:yyyy-MM-dd}")
        : place.Fitted.Basis switch
        {
            YearBasis.LogAround => "the log of the place around it",
            YearBasis.Stated => "somebody's word",
            YearBasis.Outdoors => "the stated year outdoors and its room kind",
            YearBasis.RoomKind => "its room kind alone",
            _ => throw new InvalidOperationException($"No words for {place.Fitted.Basis}."),
        };

    internal static string Change(WhatIf change) => string.Create(CultureInfo.InvariantCulture,
        $"{change.MeanKineticTemperatureC:0.0} °C kinetic, a day swings {change.DailySwingK ?? 0:0.0} K, ageing {change.AgeingRate:0.0} times 20 °C, then {PlaceAnswer.Words(change.Fitness)} ({change.Rests})");

    internal static string Stock(PlaceShown place) => string.Create(CultureInfo.InvariantCulture,
        $"{place.Packages} {(place.Packages == 1 ? "package" : "packages")}, {PackageWords.Range(Mass.FromGrams(place.LowG), Mass.FromGrams(place.HighG))} on record{(place.UnknownPackages > 0 ? $"; {place.UnknownPackages} of unknown weight" : "")}.");

    internal static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Ago(int days) => days switch { < 0 => "ahead of today", 0 => "today", 1 => "yesterday", _ => string.Create(CultureInfo.InvariantCulture, $"{days} days ago") };

    private static void Say(IAnsiConsole page, int indent, string text)
    {
        if (indent == 0)
            page.Write(new Text(text + "\n"));
        else
            page.Write(new Padder(new Text(text)).Padding(indent, 0, 0, 0));
    }
}
