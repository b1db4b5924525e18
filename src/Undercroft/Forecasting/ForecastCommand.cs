using System.CommandLine;
using Undercroft.Forecasts;
using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Forecasting;

/// <summary><c>forecast</c>: what will become of packages; <c>ask</c>: of one that nobody has entered.</summary>
public static class ForecastCommand
{
    /// <summary>The commands.</summary>
    public static Command[] In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return [Forecast(line), Ask(line)];
    }

    private static Command Forecast(CommandLine line)
    {
        var ids = new Argument<string[]>("id") { Description = "Packages; else all that are here.", Arity = ArgumentArity.ZeroOrMore };
        var (years, draws, seed) = Common();
        var kind = new Option<string?>("--in") { Description = "As if packed today into this container kind.", HelpName = "KIND" };
        var place = new Option<string?>("--place") { Description = "As if moved today to this place.", HelpName = "PLACE" };
        var opening = new Option<string?>("--opening") { Description = "As if from today on in-use, left-alone, or opened monthly.", HelpName = "HOW" };
        var sensitivity = new Option<bool>("--sensitivity") { Description = "Also say, for one package, which unknown carries how much of the doubt." };
        var views = new ViewOptions();
        return line.Command("forecast", "Say what will become of packages: moisture, activity, oxygen, pressure, with their doubt.", async call =>
        {
            using var cellars = call.Cellars();
            var (cellar, today) = await views.ReadAsync(call, cellars);
            var ask = new ForecastAsk(today, call.Value(years), call.Value(draws), call.Value(seed), call.Value(kind), call.Value(place)) { Opening = OpeningWords.Read(call.Value(opening)) };
            var typed = call.Value(ids) ?? [];
            PackageId[] wanted = typed.Length > 0 ? [.. typed.Select(id => Here(cellar, id))] : [.. cellar.Here.OrderBy(package => package.Id.ToString(), StringComparer.Ordinal).Select(package => package.Id)];
            if (call.Value(sensitivity) && wanted.Length != 1)
                throw new Refusal($"Sensitivity is told of one package at a time; {wanted.Length} were asked. Name one: undercroft forecast ID --sensitivity.");
            var shares = call.Value(sensitivity) ? Sensitivity.Of(cellar, wanted[0], ask) : null;
            var forecasts = wanted.AsParallel().AsOrdered().Select(id => Forecaster.Of(cellar, id, ask)).ToArray();
            return new Answer(new { packages = forecasts.Select(forecast => ForecastLine.Of(forecast) with { Sensitivity = shares }).ToArray() }, page => ForecastText.Print(page, cellar, forecasts, shares));
        }, ids, years, draws, seed, kind, place, opening, sensitivity, views.AsOf, views.KnownOn);
    }

    private static Command Ask(CommandLine line)
    {
        var container = new Option<string>("--in") { Description = "What it is packed in.", HelpName = "KIND", Required = true };
        var leaf = new Option<string?>("--leaf") { Description = "Leaf kind.", HelpName = "KIND" };
        var mass = new Option<string?>("--mass") { Description = "How much, such as 50g.", HelpName = "MASS" };
        var moisture = new Option<string?>("--moisture") { Description = "Wet basis now, such as 16%.", HelpName = "PERCENT" };
        var room = new Option<string?>("--room") { Description = "Kind of room, such as cupboard.", HelpName = "KIND" };
        var (years, draws, seed) = Common();
        return line.Command("ask", "If I leave this in that, there, when is it too dry? Needs no records.", async call =>
        {
            // Own kinds are in the cellar; for one of the catalogue no cellar is asked.
            var kinds = ContainerKinds.Find(call.Value(container)!) is null && File.Exists(Path.Combine(call.DataFolder, "ledger.sqlite")) ? await OwnKinds(call) : Cellar.Empty;
            var question = new ShelfQuestion(
                call.Value(container)!, call.Value(leaf), call.Value(mass) is { } text ? new Mass(Read(QuantityText.OfMass, text)) : null,
                call.Value(moisture) is { } percent ? Read(QuantityText.OfPercent, percent) : null, call.Value(room));
            var forecast = Forecaster.Of(question, new ForecastAsk(call.Present(Cellar.Empty).Today, call.Value(years), call.Value(draws), call.Value(seed)), kinds);
            return new Answer(ForecastLine.Of(forecast), page => ForecastText.Print(page, kinds, [forecast]));
        }, container, leaf, mass, moisture, room, years, draws, seed);
    }

    private static async ValueTask<Cellar> OwnKinds(Call call)
    {
        using var cellars = call.Cellars();
        return await cellars.ReadAsync();
    }

    private static PackageId Here(Cellar cellar, string typed)
    {
        var package = cellar.FindPackage(typed);
        return package.IsHere ? package.Id : throw new Refusal($"{package.Id} left the cellar: {CodeWords.Of(package.Removed!.Value.Fact.As)}. There is nothing to forecast.");
    }

    private static (Option<double> Years, Option<int> Draws, Option<ulong> Seed) Common() =>
    (
        new("--years") { Description = "Horizon.", HelpName = "N", DefaultValueFactory = _ => 30 },
        new("--draws") { Description = "Size of the ensemble.", HelpName = "N", DefaultValueFactory = _ => 256 },
        new("--seed") { Description = "The same seed gives the same answer.", HelpName = "N", DefaultValueFactory = _ => 1 }
    );

    private static double Read(QuantityText units, string text) => units.TryRead(text, out var why) ?? throw new Refusal(why);
}
