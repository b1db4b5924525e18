using System.CommandLine;
using System.Globalization;
using Undercroft.Forecasts.Places;
using Undercroft.Ledger;
using Undercroft.Places.Logging;
using Undercroft.Places.Showing;
using Undercroft.Places.Stating;
using Undercroft.Places.Weather;
using Undercroft.Shell;

namespace Undercroft.Places;

/// <summary><c>place show</c>, <c>compare</c>, <c>climate</c>, <c>spell</c>, <c>freeze</c>: what a place does to leaf, and what is said of it.</summary>
public static class PlaceCommands
{
    /// <summary>The commands below <c>place</c>.</summary>
    public static Command[] In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return [Show(line), Compare(line), Climate(line), Spell(line), FreezeCommand.In(line)];
    }

    private static Command Show(CommandLine line)
    {
        var name = Name();
        var lux = new Option<double?>("--lux") { Description = "Light on the shelf while it is lit, lx: adds the light of a year.", HelpName = "N" };
        var lit = new Option<double>("--lit-hours") { Description = "Hours a day in which it is lit.", HelpName = "N", DefaultValueFactory = _ => 2 };
        var all = new Option<bool>("--sources") { Description = "Say behind each measure how it is known." };
        var views = new ViewOptions();
        return line.Command("show", "Show a place: for how long it is good enough, its year, what that does to leaf and tins, what would help.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var answer = PlaceAnswer.Of(cellar, cellar.FindPlace(call.Value(name)!).Id, today);
            var shown = await PlaceShown.Of(cellars, cellar, answer, today, Sensors.NowOf(views.Of(call), call.Present(cellar)));
            var light = call.Value(lux) is { } lx ? ShelfLight.Of(lx, call.Value(lit)) : null;
            if (light is not null)
                shown.Exposure["light"] = light.ToJson();
            return new Answer(shown, page =>
            {
                PlaceText.Print(page, answer, shown, call.Value(all));
                light?.Print(page);
            });
        }, name, lux, lit, all, views.AsOf, views.KnownOn);
    }

    private static Command Compare(CommandLine line)
    {
        var names = new Argument<string[]>("name") { Description = "Two places or more: names, paths or IDs.", Arity = ArgumentArity.OneOrMore };
        var views = new ViewOptions();
        return line.Command("compare", "Compare places: which for thirty years, which for this year, and what would change that.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var found = PlaceComparison.Of(cellar, [.. call.Value(names)!.Select(name => cellar.FindPlace(name).Id)], today);
            return new Answer(
                new
                {
                    verdict = found.Verdict,
                    reasons = found.Reasons,
                    nextStep = new { on = PlaceText.Day(found.Next.On), what = found.Next.What },
                    narrowedBy = found.NarrowedBy,
                    closeCall = found.AgreeWithin,
                    forThirtyYears = found.ForThirtyYears?.Place.Id.ToString(),
                    forThisYear = found.ForThisYear?.Place.Id.ToString(),
                    places = found.Places.Select(place => PlaceShown.Of(cellar, place, today)).ToArray(),
                },
                page => PlaceText.Print(page, found));
        }, names, views.AsOf, views.KnownOn);
    }

    private static Command Climate(CommandLine line)
    {
        var name = Name();
        var temperature = Text("--temperature", "Band over the year inside, such as 16C..22C.", "BAND");
        var humidity = Text("--humidity", "Band over the year inside, such as 40%..60%.", "BAND");
        var monthly = Text("--monthly", "Twelve monthly means outdoors, January first: 1,2,5,9,14,17,19,18,15,10,5,2C.", "LIST");
        var monthlyHumidity = Text("--monthly-humidity", "Twelve monthly means of humidity outdoors: 86,82,77,72,71,72,73,74,79,83,87,88%.", "LIST");
        var weather = Text("--weather", "The year outdoors from an EPW weather file.", "FILE");
        var altitude = Text("--altitude", "Above sea level, such as 500m.", "LENGTH");
        return line.Command("climate", "Say what the year is like inside a place, or outdoors around it, and how high it lies.", async call =>
        {
            using var cellars = call.Cellars();
            var file = call.Value(weather) is { } path ? await Read(call.Terminal.FullPath(path)) : null;
            var stated = await StatePlace.Of(
                cellars, call.Value(name)!,
                new(call.Value(temperature), call.Value(humidity), call.Value(monthly), call.Value(monthlyHumidity), call.Value(altitude), file), call.Present);
            var lines = stated.Change.Events.Select(one => new { type = one.Fact.Type, id = one.Version.ToString(CultureInfo.InvariantCulture) }).ToArray();
            var today = call.Present(stated.Change.After).Today;
            return new Answer(
                new { @event = lines[^1], events = lines, verdict = stated.Answer.Verdict, climate = PlaceClimate.Of(stated.Answer, today), station = file?.Station, hoursRead = file?.Rows, hoursMissing = file?.Missing },
                page =>
                {
                    page.Write(new Spectre.Console.Text($"{stated.Answer.Path}: {stated.Answer.Verdict}\n"));
                    if (file is not null)
                        page.Write(new Spectre.Console.Text(string.Create(CultureInfo.InvariantCulture, $"Read {file.Rows} hours of {file.Station}, {file.Missing} without a temperature.\n")));
                    foreach (var one in lines)
                        page.Write(new Spectre.Console.Text($"Written as line {one.id}; take it back with: undercroft undo {one.id}\n"));
                });
        }, name, temperature, humidity, monthly, monthlyHumidity, weather, altitude);
    }

    private static Command Spell(CommandLine line)
    {
        var name = Name();
        var from = new Option<DateOnly?>("--from") { Description = "First day, YYYY-MM-DD.", HelpName = "DATE", Required = true };
        var to = new Option<DateOnly?>("--to") { Description = "Last day (else the first).", HelpName = "DATE" };
        var seed = new Option<ulong>("--seed") { Description = "Of the draws.", HelpName = "N", DefaultValueFactory = _ => 1 };
        var views = new ViewOptions();
        return line.Command("spell", "Say what a heat wave, a frost or a power cut did there, package by package, and what to check in which order.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var first = call.Value(from)!.Value;
            var spell = PlaceSpell.Of(cellar, cellar.FindPlace(call.Value(name)!).Id, first, call.Value(to) ?? first, today, call.Value(seed));
            return new Answer(
                new
                {
                    verdict = spell.Verdict,
                    from = PlaceText.Day(spell.From),
                    to = PlaceText.Day(spell.To),
                    meanC = spell.Seen.MeanC,
                    usualC = spell.Usual,
                    lowestC = spell.LowestC,
                    highestC = spell.HighestC,
                    reasons = spell.Reasons,
                    nextStep = new { on = PlaceText.Day(spell.Next.On), what = spell.Next.What },
                    narrowedBy = spell.NarrowedBy,
                    packages = spell.Effects.Select(effect => new
                    {
                        effect.Id, effect.Rank, waterPct = new { p5 = effect.WaterPoints.P5, p50 = effect.WaterPoints.P50, p95 = effect.WaterPoints.P95 }, effect.PeakGaugeKPa, effect.OxygenMl,
                        effect.AgeingDays, reason = effect.Why, effect.Check, effect.Gone,
                    }).ToArray(),
                },
                page => PlaceText.Print(page, spell));
        }, name, from, to, seed, views.AsOf, views.KnownOn);
    }

    private static async Task<WeatherFile> Read(string path)
    {
        var about = new FileInfo(path);
        if (!about.Exists)
            throw new Refusal($"There is no file {path}. Check the path.");
        await using var stream = about.OpenRead();
        return await WeatherFile.ReadAsync(stream, about.Length, about.Name);
    }

    private static Argument<string> Name() => new("name") { Description = "The place: a name, a path such as house/shelf, or an ID." };

    private static Option<string?> Text(string name, string description, string help) => new(name) { Description = description, HelpName = help };
}
