using System.Globalization;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Story;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;

namespace Undercroft.Forecasts;

/// <summary>A forecast in words: verdict first, the two strongest reasons, the next step with a date.</summary>
/// <param name="cellar">As read.</param>
/// <param name="story">Whose.</param>
/// <param name="ask">Today, horizon, limits.</param>
/// <param name="forecast">The numbers.</param>
/// <param name="massSaid">True where somebody said how much leaf it is.</param>
/// <param name="readings">How many measurements chose among the draws.</param>
/// <param name="lossGramsPerYear">Water that the middle draw loses over the coming year.</param>
internal sealed class Wording(Cellar cellar, PackageStory story, ForecastAsk ask, PackageForecast forecast, bool massSaid, int readings, double lossGramsPerYear)
{
    private const double Likely = 0.5;
    private const double Unlikely = 0.1;
    private const double Doubtful = 1.0 / 3;

    private const double NextToNothing = 0.005; // g a year
    private const double Little = 0.5; // g a year: beside it the moisture at closing decides

    /// <summary>Water through a conductance of 1 mol/(s·Pa) in a year, g, at a difference of 560 Pa: twenty points of humidity at 23 °C. Derived.</summary>
    private const double GramsPerYear = 560 * 18.015 * 365.2425 * 86_400;

    private readonly Chapter last = story.Chapters[^1];
    private readonly Timed<Fact.PackageLooked>? amiss = Findings.Unmended(story.Package);
    private readonly ContainerBelief container = ContainerBelief.Of(cellar, story.Chapters[^1].Container);

    private Band Moisture => forecast.Moisture;

    private Stake Stake => forecast.Stake;

    private DryDay Dry => forecast.DryDay;

    /// <summary>How the package stands.</summary>
    public Condition Condition
    {
        get
        {
            if (Stake.DryNow >= Likely)
                return Condition.Dry;
            if (Stake.MoistNow >= Likely)
                return Condition.Moist;
            if (container.IsUnknown && Dry.Probability is > Unlikely and < 1 - Unlikely)
                return Condition.Unknown;
            return Dry.P50 is not null ? Condition.Drying : Condition.Keeps;
        }
    }

    /// <summary>The first line.</summary>
    public string Verdict()
    {
        if (Seen(Finding.MouldSuspected))
            return $"Set it apart: mould was suspected {amiss!.Value.Entry.InWords}. Do not smoke, taste, heat or trade it.";
        if (Seen(Finding.Insects))
            return $"Set it apart, closed: insects were seen {amiss!.Value.Entry.InWords}. Check what stood beside it.";
        var line = string.Create(CultureInfo.InvariantCulture, $"{ask.Limits.DryBelow:0.#} %");
        return Condition switch
        {
            Condition.Dry => $"Probably dry already: {Span(Moisture)} % moisture.",
            Condition.Moist => $"Too moist to store long: activity {Number(forecast.Activity.P50[0], "0.00")} ({Number(forecast.Activity.P5[0], "0.00")}–{Number(forecast.Activity.P95[0], "0.00")}), {Span(Moisture)} % moisture.",
            Condition.Unknown => $"I cannot say: {(last.Container.Text is { } words ? $"what '{words}' lets through is not known here" : "nobody has told what it is packed in")}. In a bag it {(Dry.P5 is { } soon and > 1 ? $"may be under {line} within {TimePhrase.Of(soon)}" : $"may be under {line} already")}; in a good jar it keeps for decades.",
            Condition.Drying => $"Falls below {line} in {TimePhrase.WithRange(Dry.P5 ?? 0, Dry.P50!.Value, Dry.P95, Years())}.",
            Condition.Keeps when Dry.Probability <= 0.02 => $"Keeps: stays above {line} for {Years()} in {OutOf(1 - Dry.Probability)} draws.",
            Condition.Keeps when Dry.Probability <= Unlikely => $"Keeps, very likely: above {line} for {Years()} in {OutOf(1 - Dry.Probability)} draws.",
            Condition.Keeps when Dry.Probability > Doubtful => $"May keep or not: above {line} for {Years()} in {OutOf(1 - Dry.Probability)} draws{Otherwise()}.",
            Condition.Keeps => $"Probably keeps: above {line} for {Years()} in {OutOf(1 - Dry.Probability)} draws{Otherwise()}.",
            _ => throw new InvalidOperationException($"No verdict for {Condition}."),
        };
    }

    /// <summary>What the unlucky draws say.</summary>
    private string Otherwise() => Dry.P5 switch
    {
        null => "",
        <= 1 when Stake.FailedNow >= 0.02 => "; a bad closure would have dried it already",
        <= 1 => "; it may have been dry when it was closed",
        { } early => $"; with a bad closure dry in as little as {TimePhrase.Of(early)}",
    };

    /// <summary>The two strongest.</summary>
    public IReadOnlyList<string> Reasons()
    {
        List<string> reasons = [];
        if (amiss is { } look)
            reasons.Add($"{string.Join(", ", look.Fact.Findings.Where(Rules.IsAmiss).Select(finding => CodeWords.Of(finding).Replace('-', ' ')))} seen {look.Entry.InWords} and not settled since{Bulge(look.Fact)}");
        else if (last.Open)
            reasons.Add($"it stands open, in use since {story.FirstDay.AddDays((int)story.OpenSince).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}");
        if (container.IsKnown)
            reasons.Add(Ways());
        else if (container.Family is { } family)
            reasons.Add($"it is only known to be a {family.Word}: {string.Join(" or ", family.Members.Select(member => member.Name))}, each as likely");
        if (readings == 0 && !last.Open && !story.Package.Moisture.IsKnown && Math.Abs(lossGramsPerYear) < Little)
            reasons.Add("what was closed in stays in, and nobody said how moist that was: taken as people usually pack it");
        var place = PlaceBelief.Of(cellar, last.Place);
        reasons.Add($"the place is taken at {Number(place.MeanHumidity, "0")} ± {Number(place.MeanHumiditySd, "0")} % humidity, the leaf is in balance with {Number(100 * forecast.Activity.P50[0], "0")} %");
        if (Stake.MayBeTooMoist)
            reasons.Insert(Math.Min(1, reasons.Count), $"in {OutOf(Stake.MoistNow)} draws it is too moist now to keep long");
        if (readings > 0)
            reasons.Insert(Math.Min(1, reasons.Count), $"{readings} {(readings == 1 ? "measurement has" : "measurements have")} a say in it");
        else if (!massSaid)
            reasons.Add("nobody said how much leaf it is");
        if (Stake.FailedNow >= 0.05 && amiss is null)
            reasons.Insert(Math.Min(1, reasons.Count), (Stake.FailedNow > 2.0 / 3 ? "most such closures are bad by this age (assumption)" : $"about 1 in {Number(1 / Stake.FailedNow, "0")} such closures is bad by this age (assumption)"));
        return [.. reasons.Take(2)];
    }

    /// <summary>What to do, by when.</summary>
    public NextStep Next()
    {
        if (Seen(Finding.MouldSuspected))
            return new(ask.Today, "Bag it, keep it away from other leaf, wash the jar, replace the lid. People with asthma or weak immunity should not handle it.");
        if (Seen(Finding.Insects))
            return new(ask.Today, "Keep it closed, look at every unsealed package beside it and from the same lot.");
        if (Seen(Finding.Bulge))
            return new(ask.Today.AddDays(14), "Measure the dome again at the same place and temperature. If it has grown: apart, eyes protected, open slowly outdoors, pointed away, do not taste.");
        if (amiss is not null)
            return new(ask.Today.AddDays(7), "Mend or replace the closure, or pack it anew; weigh it, and say so here.");
        var look = Habit.NextLook(story.Package, container.Kinds[0], ask.Today);
        return Condition switch
        {
            Condition.Dry => new(ask.Today.AddDays(14), "Weigh and feel it. If it is dry, moisten by weight before use and close it tight; lost aroma does not return."),
            Condition.Moist => new(ask.Today.AddDays(7), "Feel it and read the humidity inside. Dry a little by weight, or use it first."),
            Condition.Unknown => new(ask.Today.AddDays(14), last.Container.Text is null ? "See what it is packed in and write it down." : "Say what it is most like: a kind, or only a jar, a tin, a pouch, a bag."),
            Condition.Drying when container.Family is { } family => new(ask.Today.AddDays(14), $"See which {family.Word} it is and write it down: that decides how long it keeps."),
            Condition.Drying when Dry.P5 is not { } early || early < 2 * 365 => new(
                Earlier(ask.Today.AddDays((int)Math.Max(7, 0.7 * (Dry.P5 ?? 30))), look.AddDays(0)), last.Open ? "Use it, or close it tight in a smaller jar." : "Pack it into glass or foil before it dries."),
            Condition.Keeps when Stake.MayBeTooMoist => new(Earlier(look, ask.Today.AddDays(30)), "Read the humidity inside, or feel it: it may be too moist to keep long."),
            _ => new(look, $"Look at it: {container.Kinds[0].Habit.Check}."),
        };
    }

    private bool Seen(Finding finding) => amiss is { } look && look.Fact.Findings.Contains(finding);

    private string Bulge(Fact.PackageLooked look)
    {
        if (!look.Findings.Contains(Finding.Bulge))
            return "";
        var gauge = forecast.Pressure.P50[0] - PlaceBelief.Of(cellar, last.Place).Pressure.Kilopascals;
        return gauge > 2 ? $"; air alone gives about {Number(gauge, "0")} kPa over the room's pressure there" : "; air and altitude alone do not explain it";
    }

    /// <summary>Which way most of the water takes, among sound specimens.</summary>
    private string Ways()
    {
        var kind = last.Open ? CourseDraws.OpenedAs(container.Kinds[0]) : container.Kinds[0];
        var ways = kind.Paths.Select(path => (path.Median.Name, Water: path.Median.Water.AtReference)).OrderByDescending(path => path.Water).ToArray();
        if (ways.Length == 1 || ways[1].Water <= 0)
            return Lost(ways[0].Name);
        var ratio = ways[0].Water / ways.Skip(1).Sum(way => way.Water);
        var most = ways.Sum(way => way.Water) * GramsPerYear;
        if (most > 10 * NextToNothing && Math.Abs(lossGramsPerYear) < 0.05 * most)
            return "its leaf has come into balance with the air around it: as much water enters as leaves";
        return Math.Abs(lossGramsPerYear) < NextToNothing ? Lost(ways[0].Name)
            : ratio >= 1.5 ? $"{Lost(ways[0].Name)}, {Number(ratio, ratio < 10 ? "0.#" : "0")} times what the {ways[1].Name} lets through" : Lost($"{ways[0].Name} and {ways[1].Name}");
    }

    private string Lost(string way) => Math.Abs(lossGramsPerYear) switch
    {
        < NextToNothing => $"hardly any water passes the {way}: under 0.01 g a year",
        var grams => $"about {Number(grams, grams < 0.1 ? "0.00" : grams < 10 ? "0.0" : "0")} g of water a year {(lossGramsPerYear > 0 ? "leaves" : "enters")} by the {way}",
    };

    private static DateOnly Earlier(DateOnly a, DateOnly b) => a < b ? a : b;

    private static string Span(Band band)
    {
        var (low, high) = (Number(band.P5[0], "0"), Number(band.P95[0], "0"));
        return low == high ? low : $"{low}–{high}";
    }

    private static string OutOf(double share) => share >= 0.995 ? "nearly all" : $"{Number(100 * share, "0")} of 100";

    private string Years() => ask.Years < 1 ? TimePhrase.Of(ask.Years * Grid.DaysPerYear) : $"{Number(ask.Years, "0.#")} years";

    private static string Number(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
