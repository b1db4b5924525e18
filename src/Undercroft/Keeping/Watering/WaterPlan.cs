using System.Globalization;
using Undercroft.Forecasts;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Keeping.Measuring;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Keeping.Watering;

/// <summary>What is asked of a plan; what is left out is taken from the ledger and the forecast.</summary>
/// <param name="To">Target moisture, wet basis, such as <c>14%</c>.</param>
/// <param name="ToHumidity">Or the humidity that the closed package should come to, such as <c>60%</c>.</param>
/// <param name="From">Moisture now.</param>
/// <param name="Net">Leaf in it now.</param>
public sealed record WaterAsk(string? To = null, string? ToHumidity = null, string? From = null, string? Net = null);

/// <summary>Least, middle and most that is likely.</summary>
public sealed record Three(double Low, double Mid, double High);

/// <summary>By when to do what.</summary>
/// <param name="On">ISO day.</param>
/// <param name="What">In words.</param>
public sealed record WaterStep(string On, string What);

/// <summary>How to bring leaf to another moisture by weight.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="Id">The package.</param>
/// <param name="Act">add, dry, leave, or measure where not even the direction is known.</param>
/// <param name="FromMoisturePct">Moisture now, wet basis.</param>
/// <param name="ToMoisturePct">Target, wet basis.</param>
/// <param name="ToHumidityPct">What a closed package of this leaf would then come to, from its curve; a curve is good to a few points.</param>
/// <param name="LeafG">Leaf now.</param>
/// <param name="WaterG">To add (+) or lose (−).</param>
/// <param name="FirstG">The first, careful step.</param>
/// <param name="StopFirstAtG">What the scale shows at the end of the first step, the whole package or the leaf as it was last weighed; null where it was not weighed.</param>
/// <param name="Reasons">The two strongest.</param>
/// <param name="How">Step by step.</param>
/// <param name="StopWhen">Whichever comes first.</param>
/// <param name="WeighAgain">Days.</param>
/// <param name="Cautions">Where it can hurt.</param>
/// <param name="NarrowedBy">The one measurement that would narrow it most.</param>
public sealed record WaterPlan(
    string Verdict, string Id, string Act, Three FromMoisturePct, double ToMoisturePct, double ToHumidityPct, Three LeafG, Three WaterG, double FirstG, double? StopFirstAtG,
    IReadOnlyList<string> Reasons, IReadOnlyList<string> How, IReadOnlyList<string> StopWhen, IReadOnlyList<WaterStep> WeighAgain, IReadOnlyList<string> Cautions, string NarrowedBy)
{
    /// <summary>Humidity that a closed package should come to unless another target is given: in the middle of 55 to 65 % (common practice, no source).</summary>
    public const double UsualTargetHumidity = 0.60;

    /// <summary>Closer than this to the target, leaf is left alone, in points of moisture: a finger is good to three, a weighed half gram to one (assumption).</summary>
    public const double CloseEnoughPoints = 0.5;

    /// <summary>A stated moisture is good to so many points either way (common practice for a finger's guess).</summary>
    private const double StatedPoints = 1;

    private const double LongStorageActivity = 0.65; // slow growth was seen after more than two years at 0.65: Snow 1944, published

    // Days after a change of water on which practice looks again; no source.
    private static readonly int[] LooksAfterDays = [1, 3, 7, 14];

    /// <summary>The plan for a package.</summary>
    /// <exception cref="Refusal">Leaf mass not known and not given, or a target that cannot be.</exception>
    public static WaterPlan Of(Cellar cellar, Package package, WaterAsk ask, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(package);
        ArgumentNullException.ThrowIfNull(ask);
        if (!package.IsHere)
            throw new Refusal($"{package.Id} has left the cellar.");
        var leaf = LeafBelief.Of(cellar.BlendOf(package));
        var target = Target(ask, leaf);
        var from = From(cellar, package, ask, today);
        var net = ask.Net is null ? package.BookNet : StatedMass.Parse(ask.Net, SaidBy.Weighed);
        if (net is not { Low: { Kilograms: > 0 } low, Mid: { } mid, High: { } high })
            throw new Refusal($"How much leaf is in {package.Id} is not known, and water goes by weight. Weigh it and say so: --net 50g.");
        var mass = new Three(low.Grams, mid.Grams, high.Grams);
        // Most water where the leaf is driest and there is most of it; the other way round where it is to dry.
        double Water(double moisture, double grams) => WaterToAdd.Of(Mass.FromGrams(grams), Moisture.FromWetBasisPercent(moisture), target).Grams;
        double[] ends = [Water(from.Low, mass.Low), Water(from.Low, mass.High), Water(from.High, mass.Low), Water(from.High, mass.High)];
        var water = new Three(ends.Min(), Water(from.Mid, mass.Mid), ends.Max());
        var humidity = 100 * leaf.Isotherm.ActivityAt(target).Fraction;
        return new Writing(package, leaf, target, humidity, from, mass, water, today).Plan();
    }

    private static Moisture Target(WaterAsk ask, LeafBelief leaf)
    {
        if (ask.To is not null && ask.ToHumidity is not null)
            throw new Refusal("Give one target: a moisture, or a humidity that the closed package should come to.");
        if (ask.To is not null)
        {
            var part = Measure.Fraction(ask.To).Fraction;
            return part is > 0 and < 0.4 ? Moisture.FromWetBasis(part) : throw new Refusal($"A moisture of {ask.To} is no target for leaf: give one between 8% and 25%, of the whole mass.");
        }

        var humidity = ask.ToHumidity is null ? UsualTargetHumidity : Measure.Fraction(ask.ToHumidity).Fraction;
        return humidity is > 0.2 and < 0.8 ? leaf.Isotherm.MoistureAt(new WaterActivity(humidity)) : throw new Refusal($"A humidity of {ask.ToHumidity} is no target for leaf: give one between 50% and 70%.");
    }

    private static Three From(Cellar cellar, Package package, WaterAsk ask, DateOnly today)
    {
        if (ask.From is not null)
        {
            var stated = StatedFraction.Parse(ask.From);
            if (stated is not { Low: { } low, Mid: { } mid, High: { } high } || mid is not (> 0 and < 0.6) || high >= 0.6)
                throw new Refusal($"A moisture of {ask.From} is not that of leaf. Give it of the whole mass, such as 11% or 8%..12%.");
            var wide = stated.Si.Evenness == Evenness.Exact ? StatedPoints : 0; // a range says itself how well it is known
            return new(Math.Max(0.5, (100 * low) - wide), 100 * mid, (100 * high) + wide);
        }

        var forecast = Forecaster.Of(cellar, package.Id, new ForecastAsk(today, 1) { WithNarrowing = false, WaterOnly = true });
        return new(forecast.Moisture.P5[0], forecast.Moisture.P50[0], forecast.Moisture.P95[0]);
    }

    private sealed class Writing(Package package, LeafBelief leaf, Moisture target, double humidity, Three from, Three mass, Three water, DateOnly today)
    {
        private readonly string act = water is { Low: < 0, High: > 0 } && Math.Abs(from.Mid - target.WetBasisPercent) < 3 ? Math.Max(from.High - target.WetBasisPercent, target.WetBasisPercent - from.Low) <= CloseEnoughPoints ? "leave" : "measure"
            : Math.Abs(from.Mid - target.WetBasisPercent) <= CloseEnoughPoints ? "leave" : water.Mid > 0 ? "add" : "dry";

        private double First => act switch
        {
            "add" => water.Low > 0 ? Math.Min(water.Low, water.Mid / 2) : water.Mid / 2,
            "dry" => water.High < 0 ? Math.Max(water.High, water.Mid / 2) : water.Mid / 2,
            _ => 0,
        };

        internal WaterPlan Plan()
        {
            var weighed = package.Weighings.LastOrDefault();
            double? stop = weighed.Fact is null || act is "leave" or "measure" ? null : weighed.Fact.Mass.Grams + First;
            return new(
                Verdict(), package.Id.ToString(), act, from, target.WetBasisPercent, humidity, mass, water, First, stop,
                [
                    $"Moisture now {N(from.Low)} to {N(from.High)} %, middle {N(from.Mid)}; wanted {N(target.WetBasisPercent)} % of the whole mass.",
                    $"Leaf {(mass.Low == mass.High ? N(mass.Mid) : $"{N(mass.Low)} to {N(mass.High)}")} g. Closed in, leaf like this ({leaf.Name}) would then come to about {humidity.ToString("0", CultureInfo.InvariantCulture)} % humidity, a few points either way.",
                ],
                How(stop, weighed.Fact?.Net), StopWhen(), Days(), Cautions(),
                act == "leave" ? "a humidity read in the closed package" : "a humidity read in the closed package after half a day or more: it tells more than any guess of moisture");
        }

        private string Verdict() => act switch
        {
            "add" => $"Add about {N(water.Mid)} g of water ({Range()}); give {N(First)} g first and weigh.",
            "dry" => $"Let it lose about {N(-water.Mid)} g ({Range()}); stop after {N(-First)} g first and let it rest.",
            "leave" => "It is about where you want it: leave it alone.",
            "measure" => "Not even whether it wants water or drying can be told: measure first.",
            _ => throw new InvalidOperationException($"No verdict for {act}."),
        };

        private string Range()
        {
            var (least, most) = (Math.Min(Math.Abs(water.Low), Math.Abs(water.High)), Math.Max(Math.Abs(water.Low), Math.Abs(water.High)));
            return water.Low * water.High < 0 ? $"nothing to {N(most)} g" : $"{N(least)} to {N(most)} g";
        }

        private string[] How(double? stop, bool? net) => act switch
        {
            "add" =>
            [
                stop is { } whole ? $"Weigh {(net == true ? "the leaf" : "it whole")} now. If it shows {OnScale(whole - First)} g as last time, this step ends at {OnScale(whole)} g; else add {N(First)} g to what it shows." : $"Weigh it now and write it down; this step ends {N(First)} g above that.",
                "Spread the leaf in a bowl. Distilled or boiled and cooled water, as a fine mist in two or three passes, turning the leaf between them; or a damp, not dripping, cloth over the bowl that does not touch the leaf, looked at every few hours.",
                "Close it in and leave it a day: water goes slowly into pressed leaf and plugs, for which several days are better.",
                "Mix, weigh, read the humidity inside, and only then give the rest in steps as small.",
                "No fruit or vegetable slices, no dripping water, no heat.",
            ],
            "dry" =>
            [
                stop is { } whole ? $"Weigh {(net == true ? "the leaf" : "it whole")} now. If it shows {OnScale(whole - First)} g as last time, this step ends at {OnScale(whole)} g; else take {N(-First)} g off what it shows." : $"Weigh it now and write it down; this step ends {N(-First)} g below that.",
                "Spread it thin on clean paper in a dry room, no sun, no stove, no fan. Ribbon takes minutes to an hour, flake and plug hours.",
                "Weigh after twenty minutes, then as often as its pace asks for. Stop by weight, not by the clock.",
                "Close it in for a day or two so that it evens out, then weigh, read the humidity inside, and go on if need be.",
            ],
            "leave" => ["Close it and look at it when it is due."],
            "measure" => ["Close a hygrometer that was checked in with the leaf for half a day or longer, in a room of steady temperature.", "Write the reading down, then ask again."],
            _ => throw new InvalidOperationException($"No way for {act}."),
        };

        private string[] StopWhen() => act switch
        {
            "add" => ["the scale shows the weight of this step", "the hygrometer inside shows 65 % or more: not for long storage; at 70 % or more take water out again", "a pressed ball stays pressed, or drops show inside the glass"],
            "dry" => ["the scale shows the weight of this step", "strands at the edge turn crisp", "the hygrometer inside shows under 55 %"],
            _ => [],
        };

        private WaterStep[] Days() => act is "add" or "dry"
            ? [.. LooksAfterDays.Select((days, n) => new WaterStep(DateText.Of(today.AddDays(days)), n == 0 ? "mix, weigh, read the humidity inside; give the rest if it is still wanted" : n < 3 ? "look for drops and smell; read the humidity inside" : "weigh and read a last time: what it shows then is its new start"))]
            : act == "measure" ? [new WaterStep(DateText.Of(today.AddDays(1)), "read the hygrometer inside")] : [];

        private string[] Cautions()
        {
            List<string> cautions = [];
            if (act == "add")
                cautions.Add("Wetted leaf can mould within days. Fuzz, musty smell, wetness: do not smoke, taste, bake or give it away; bag it, bin it, wash the jar, replace the lid. People with asthma or a weak immune system leave it to someone else.");
            if (humidity > 100 * LongStorageActivity)
                cautions.Add($"At {N(target.WetBasisPercent)} % this leaf stands near {humidity.ToString("0", CultureInfo.InvariantCulture)} % humidity, above 65 %: mould was seen after years at 65 % and after months at 70 %. Good for soon, not for long storage.");
            if (package.Looks.LastOrDefault().Fact?.Findings.Contains(Finding.MouldSuspected) == true)
                cautions.Add("Mould was suspected at its last look. Do not handle it further.");
            if (act is "add" or "dry")
                cautions.Add("Leaf on the table is a poison to children and pets. What was lost of its aroma does not come back with water; before long storage rather leave fresh leaf as it is.");
            return [.. cautions];
        }

        /// <summary>As a kitchen scale shows it: a tenth of a gram counts in a step of half a gram, also on a heavy jar.</summary>
        private static string OnScale(double grams) => grams.ToString("0.0", CultureInfo.InvariantCulture);

        private static string N(double value) => value.ToString(Math.Abs(value) < 20 ? "0.0" : "0", CultureInfo.InvariantCulture);
    }
}
