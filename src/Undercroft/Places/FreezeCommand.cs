using System.CommandLine;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Places;
using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Climate.Exposures;
using Undercroft.Physics.Quantities;
using Undercroft.Places.Showing;
using Undercroft.Shell;

namespace Undercroft.Places;

/// <summary><c>place freeze</c>: a treatment against insects in a freezer, as dates.</summary>
public static class FreezeCommand
{
    private const double UsualHeightShare = 1.5; // height over diameter of a jar; assumption

    /// <summary>The command.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var package = Text("--package", "A package of the cellar: its mass and container.", "ID");
        var container = Text("--container", "Container kind, for its size.", "KIND");
        var mass = Text("--mass", "Leaf in it, such as 500g.", "MASS");
        var across = Text("--across", "Diameter, or the shorter side, such as 80mm.", "LENGTH");
        var deep = Text("--deep", "The other side, for a block.", "LENGTH");
        var high = Text("--high", "Height or thickness, such as 160mm.", "LENGTH");
        var moisture = Text("--moisture", "Of the leaf, wet basis.", "PERCENT");
        var room = Text("--room", "Temperature it comes from.", "TEMPERATURE");
        var freezer = Text("--freezer", "Temperature of the freezer.", "TEMPERATURE");
        var start = new Option<DateOnly?>("--start") { Description = "First day (else today).", HelpName = "DATE" };
        return line.Command("freeze", "Plan a treatment against insects in a freezer: dates for cold, hold and closed thaw.", async call =>
        {
            var cellar = Cellar.Empty;
            if (call.Value(package) is not null)
            {
                using var cellars = call.Cellars();
                cellar = await cellars.ReadAsync();
            }

            var (shape, glass) = ShapeOf(call, cellar, call.Value(package), call.Value(container), call.Value(mass), call.Value(across), call.Value(deep), call.Value(high), call.Value(moisture));
            var plan = FreezePlan.Of(
                shape, new(Si(QuantityText.OfTemperature, call.Value(room) ?? "20C")), new(Si(QuantityText.OfTemperature, call.Value(freezer) ?? "-18C")),
                call.Value(start) ?? call.Present(cellar).Today, glass);
            return new Answer(
                new
                {
                    verdict = plan.Verdict,
                    coolingHours = plan.CoolingHours.Computed,
                    coolingPlannedHours = plan.CoolingHours.Planned,
                    holdDays = plan.HoldDays,
                    thawHours = plan.ThawHours,
                    steps = plan.Days.Select(day => new { on = PlaceText.Day(day.On), what = day.What }).ToArray(),
                    reasons = plan.Reasons,
                    cautions = plan.Cautions,
                    narrowedBy = plan.NarrowedBy,
                    rests = plan.Rests,
                },
                page => PlaceText.Print(page, plan));
        }, package, container, mass, across, deep, high, moisture, room, freezer, start);
    }

    private static (PackShape Shape, bool Glass) ShapeOf(Call call, Cellar cellar, string? id, string? code, string? mass, string? across, string? deep, string? high, string? moisture)
    {
        ArgumentNullException.ThrowIfNull(call);
        var found = id is null ? null : cellar.FindPackage(id);
        var kind = (code ?? found?.Container.Kind) is { } named
            ? KnownKinds.Get(cellar, named)
            : null;
        var leaf = mass is not null ? new Mass(Si(QuantityText.OfMass, mass)) : found?.Net.Mid ?? throw new Refusal("How much leaf is it? Give --mass, such as 500g, or --package with a mass on record.");
        var wet = moisture is null ? 0.14 : Si(QuantityText.OfPercent, moisture);
        if (!(wet is >= 0 and < 0.6))
            throw new Refusal("Moisture of leaf lies from 0 to 60 % of its whole mass. Write for example 14%.");
        var glass = kind?.Vessel == Vessel.Jar;
        if (across is not null)
        {
            var width = new Length(Si(QuantityText.OfLength, across));
            var height = high is null ? throw new Refusal("Give --high beside --across, such as 160mm.") : new Length(Si(QuantityText.OfLength, high));
            return (new(width, deep is null ? null : new Length(Si(QuantityText.OfLength, deep)), height, leaf, wet), glass);
        }

        var volume = found?.Container.Capacity.Mid ?? kind?.Capacity ?? throw new Refusal("How big is it? Give --across and --high, or --container, such as jar-473.");
        var diameter = Math.Cbrt(volume.CubicMetres * 4 / (Math.PI * UsualHeightShare));
        return (new(new Length(diameter), null, new Length(UsualHeightShare * diameter), leaf, wet), glass);
    }

    private static double Si(QuantityText units, string text) => units.TryRead(text, out var why) ?? throw new Refusal(why);

    private static Option<string?> Text(string name, string description, string help) => new(name) { Description = description, HelpName = help };
}
