using System.Globalization;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Forecasts.Drawing;
using Undercroft.Forecasts.Simulating;
using Undercroft.Forecasts.Story;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Air;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Climate.Exposures;
using Undercroft.Physics.Climate.Years;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Forecasts.Places;

/// <summary>What a spell of weather or a power cut did to one package, against the same days of an ordinary year.</summary>
/// <param name="Id">Which.</param>
/// <param name="Rank">1 for the one to check first.</param>
/// <param name="WaterPoints">Points of moisture more (above zero) or less than in an ordinary year: 5, 50 and 95 %.</param>
/// <param name="PeakGaugeKPa">Over the room's pressure at the warmest moment, where nothing gets out: what glass and seams were strained by.</param>
/// <param name="OxygenMl">Oxygen more inside than in an ordinary year, mL at 20 °C; below zero where less: middle.</param>
/// <param name="AgeingDays">Days of 20 °C by which it aged more than in an ordinary year, temperature alone.</param>
/// <param name="Why">What matters most about it.</param>
/// <param name="Check">What to look at.</param>
/// <param name="Gone">How and when it left the cellar since; null where it is here.</param>
public sealed record SpellEffect(string Id, int Rank, Interval WaterPoints, double PeakGaugeKPa, double OxygenMl, double AgeingDays, string Why, string Check, string? Gone = null);

/// <summary>A spell in a place: what was logged between two days, and what it did.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
/// <param name="Seen">Exposure over the spell.</param>
/// <param name="Usual">Mean temperature of the same days in an ordinary year, °C.</param>
/// <param name="HighestC">Highest temperature logged.</param>
/// <param name="LowestC">Lowest temperature logged.</param>
/// <param name="Effects">Package by package, each as it stood in those days, in the order in which to check; those that have left the cellar since come last and say so.</param>
/// <param name="Reasons">The two strongest.</param>
/// <param name="Next">What to do, by when.</param>
/// <param name="NarrowedBy">What would narrow it most.</param>
public sealed record PlaceSpell(
    string Verdict, DateOnly From, DateOnly To, Exposure Seen, double Usual, double HighestC, double LowestC, IReadOnlyList<SpellEffect> Effects, IReadOnlyList<string> Reasons, NextStep Next, string NarrowedBy)
{
    private const int Draws = 64;
    private const int LongestDays = 400;
    private const int LeadDays = 4; // before the spell, so that a place that follows another has come along with it
    private const double Settling = 3; // days after the spell in which leaf and air come to rest again
    private const double StrainKPa = 8; // over which seals and lids give; assumption
    private const double HotCelsius = 35;
    private const double PointsThatMatter = 0.2;

    /// <summary>Of a place.</summary>
    /// <param name="cellar">As read, its logs fetched.</param>
    /// <param name="place">Which.</param>
    /// <param name="from">First day of the spell.</param>
    /// <param name="to">Last day.</param>
    /// <param name="today">The present.</param>
    /// <param name="seed">Of the draws.</param>
    /// <exception cref="Refusal">Days that run backwards, more than a year, or no log of them.</exception>
    public static PlaceSpell Of(Cellar cellar, PlaceId place, DateOnly from, DateOnly to, DateOnly today, ulong seed = 1)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        if (to < from)
            throw new Refusal("The spell ends before it begins: give --from and --to in their order.");
        var days = to.DayNumber - from.DayNumber + 1;
        if (days > LongestDays)
            throw new Refusal("A spell lasts a year at most: for longer, look at the place as a whole with place show.");
        var fitted = PlaceYear.Of(cellar, place);
        var log = fitted.Log ?? (fitted.Around is { } around ? cellar.LogOf(around) : null)
            ?? throw new Refusal($"{cellar.PathOf(place)} has no log, nor has a place around it: bring one in with undercroft import logger, then ask again.");
        var start = Seconds(from);
        LoggedAir Lived(double lagHours) => fitted.Log is not null ? log.Air.Between(start - 3600, Seconds(to.AddDays(1)) + 3600)
            : log.Air.Between(start - (LeadDays * 86400.0), Seconds(to.AddDays(1)) + 3600).Through(lagHours).Between(start - 3600, Seconds(to.AddDays(1)) + 3600);
        var air = Lived(RoomLag.ShelfHours);
        var belief = PlaceBelief.Of(cellar, place);
        var seen = Exposure.Of(air, belief.Pressure);
        if (seen is null || seen.WatchedDays < 0.5 * days)
            throw new Refusal(FormattableString.Invariant($"The log of {cellar.PathOf(place)} says too little about {from:yyyy-MM-dd} to {to:yyyy-MM-dd}: it runs from {log.First:yyyy-MM-dd} to {log.Last:yyyy-MM-dd}, with gaps. Give days within it."));
        var usual = fitted.Year.Year(belief.Pressure.Pascals).From(from.DayOfYear - 1);
        var usualMean = Enumerable.Range(0, days * 8).Average(n => usual.At(n / 8.0).Kelvin) - Temperature.ZeroCelsius;
        SpellClimate lived = new(air, start, days, usual);
        var (highest, lowest) = (seen.HighestC, seen.LowestC);
        var moreAgeing = days * (seen.AgeingRate - Enumerable.Range(0, days * 8).Average(n => AgeingRate.At(new(usual.At(n / 8.0).Kelvin))));
        var horizon = days + (int)Settling;
        var (livedTable, usualTable) = (ClimateTable.Daily(lived, horizon), ClimateTable.Daily(new UsualDays(usual), horizon));
        var effects = cellar.Packages.Values.Select(package => Stood.Of(cellar, package, place, from, to)).OfType<Stood>()
            .AsParallel().AsOrdered().Select(stood => Effect(cellar, stood, from, horizon, livedTable, usualTable, belief, usualMean, highest, moreAgeing, seed)).ToArray();
        SpellEffect[] ranked = [.. effects.OrderBy(pair => pair.Effect.Gone is null ? 0 : 1).ThenByDescending(pair => pair.Stake).ThenBy(pair => pair.Effect.Id, StringComparer.Ordinal).Select((pair, n) => pair.Effect with { Rank = n + 1 })];
        SpellEffect[] here = [.. ranked.Where(effect => effect.Gone is null)];
        return new(
            VerdictOf(seen, usualMean, highest, lowest, ranked), from, to, seen, usualMean, highest, lowest, ranked,
            [
                FormattableString.Invariant($"{(fitted.Log is null ? By(cellar, fitted, Lived) : "")}it was {seen.MeanC:0.#} °C in the mean, {seen.MeanC - usualMean:+0.#;-0.#;0} K against the same days of an ordinary year, {lowest:0.#} to {highest:0.#} °C"),
                FormattableString.Invariant($"by temperature alone leaf aged {Math.Abs(moreAgeing):0.#} days of 20 °C {(moreAgeing >= 0 ? "more" : "less")} than usual: {(Math.Abs(moreAgeing) < 30 ? "next to nothing over years" : "weeks out of years")}"),
            ],
            new(today.AddDays(here.Any(effect => effect.PeakGaugeKPa >= StrainKPa) ? 3 : 14), here.Length == 0 ? "Nothing that is still here stood there; nothing is to be checked."
                : $"Check {string.Join(", ", here.Take(5).Select(effect => effect.Id))} in this order. Let glass come to room temperature before touching a lid; open what bulges outdoors, pointed away, eyes protected."),
            here.Length == 0 ? "a log of the next spell" : $"weigh {here[0].Id} now, to 0.1 g, and compare with its last weight");
    }

    private static (SpellEffect Effect, double Stake) Effect(
        Cellar cellar, Stood stood, DateOnly from, int horizon, ClimateTable livedTable, ClimateTable usualTable, PlaceBelief belief, double usualMean, double highest, double moreAgeing, ulong seed)
    {
        var (package, start) = (stood.Package, stood.From);
        ForecastAsk ask = new(start, 1, Draws, seed) { WithNarrowing = false, WaterOnly = true };
        var story = PackageStory.Of(cellar, package, start);
        var first = start.DayNumber - from.DayNumber;
        var last = stood.Until is { } left ? Math.Clamp(left.DayNumber - from.DayNumber, first + 1, horizon) : horizon;
        var before = Simulation.Run(cellar, story, ask, Draws, [0, 1]);
        SeededDraws drawn = new(seed, Draws);
        var inputs = CourseDraws.Of(cellar, story, ask, drawn, PlaceBelief.TodayIndex, PlaceBelief.TodayIndex + 1, withGas: true);
        var stay = inputs.Stays[^1];
        double[] wet = [.. before.Moisture[0].Select((value, i) => double.IsNaN(value) ? inputs.Leaf.Moisture[i] / (1 + inputs.Leaf.Moisture[i]) : value)];
        EnsembleCourse In(ClimateTable table) => EnsembleEngine.Run(new Course(
            Draws, inputs.Leaf.DryKg, inputs.Leaf.Leaf, Array.ConvertAll(wet, value => value / (1 - value)), [stay with { FromDay = first, ToDay = last, Place = table, Events = [] }], [last], []));
        var (lived, usual) = (In(livedTable), In(usualTable));
        double[] points = [.. lived.MoistureWetBasis[0].Zip(usual.MoistureWetBasis[0], (a, b) => 100 * (a - b)).Where(double.IsFinite).Order()];
        var water = points.Length == 0 ? default : new Interval(Quantile.Of([.. points], 0.05), Quantile.Of([.. points], 0.5), Quantile.Of([.. points], 0.95));
        double[] oxygen = [.. Enumerable.Range(0, Draws).Select(i => (lived.Oxygen[0][i] - usual.Oxygen[0][i]) / PhysicalConstants.StandardAtmosphere * Headspace(stay.Headspace, i) * 1e6).Where(double.IsFinite).Order()];
        var container = ContainerBelief.Of(cellar, stood.Container);
        var activity = Math.Clamp(usual.Activity[0].Where(double.IsFinite).DefaultIfEmpty(0.6).Average(), 0, 1);
        var tight = !stood.Open && !container.Kinds.All(kind => kind.Flexible);
        var gauge = tight && highest > usualMean
            ? (ClosedVessel.PressureAt(belief.Pressure, Temperature.FromCelsius(usualMean), Temperature.FromCelsius(highest), new WaterActivity(activity)) - belief.Pressure).Kilopascals : 0;
        var swelling = container.Kinds.All(kind => kind.Flexible);
        var moved = Math.Max(Math.Abs(water.P5), Math.Abs(water.P95));
        var grams = 1000 * before.DryKg[0].Where(double.IsFinite).DefaultIfEmpty(0.05).Average();
        var stake = grams * ((Math.Abs(water.P50) / 3) + (moved / 10) + (gauge >= StrainKPa ? 0.3 : gauge / 100) + (swelling && highest > HotCelsius ? 0.2 : 0)) + (stood.Open ? 0.01 * grams : 0);
        var why = moved >= PointsThatMatter && Math.Abs(water.P50) >= PointsThatMatter
            ? FormattableString.Invariant($"its leaf is {Math.Abs(water.P50):0.0} points {(water.P50 < 0 ? "drier" : "moister")} for it ({water.P5:0.0} to {water.P95:0.0})")
            : gauge >= StrainKPa ? FormattableString.Invariant($"up to {gauge:0.#} kPa over the room's pressure pushed at lid and seam")
            : swelling && highest > HotCelsius ? "heat swelled the pouch: seals were strained"
            : "next to nothing: within what an ordinary year does";
        return (new(package.Id.ToString(), 0, water, gauge, oxygen.Length == 0 ? 0 : Quantile.Of(oxygen, 0.5), moreAgeing * (last - first) / horizon, why,
            stood.Gone is { } gone ? $"Nothing: it is gone, {gone}" : stood.Since + CheckOf(package, ContainerBelief.Of(cellar, package.Container).Kinds[0], highest), stood.Gone), stake);
    }

    private static string CheckOf(Package package, ContainerKind kind, double highest) => package.IsOpen
        ? "Feel the leaf; close it tight"
        : kind.Vessel == Vessel.Tin && highest > 30 ? $"Measure a bulge over the rim and look along the seam; {kind.Habit.Check}" : char.ToUpper(kind.Habit.Check[0], CultureInfo.InvariantCulture) + kind.Habit.Check[1..];

    private static double Headspace(HeadspaceDraws space, int draw) => space switch
    {
        HeadspaceDraws.Rigid rigid => rigid.Volume[draw],
        HeadspaceDraws.Flexible flexible => (flexible.Minimum[draw] + flexible.Maximum[draw]) / 2,
        _ => throw new InvalidOperationException($"No volume of {space}."),
    };

    /// <summary>A package as it stood in the place during the spell, by what the ledger tells of those days; what came after changes nothing about what it lived through.</summary>
    /// <param name="Package">As it is today.</param>
    /// <param name="From">First day of the spell on which it stood there.</param>
    /// <param name="Until">Day on which it was carried away while the spell lasted; null where it stayed.</param>
    /// <param name="Container">What it was in then.</param>
    /// <param name="Open">Whether it stood open then.</param>
    /// <param name="Since">What has been done to it since then and bears on looking at it now; empty where nothing.</param>
    private sealed record Stood(Package Package, DateOnly From, DateOnly? Until, Container Container, bool Open, string Since)
    {
        /// <summary>How and when it left the cellar; null where it is here.</summary>
        public string? Gone => Package.Removed is { } removed ? $"{CodeWords.Of(removed.Fact.As)} on {removed.Day:yyyy-MM-dd}" : null;

        /// <summary>Null where it was not there.</summary>
        public static Stood? Of(Cellar cellar, Package package, PlaceId place, DateOnly from, DateOnly to)
        {
            var gone = package.Removed?.Day;
            if (package.Timeline[0].Day > to || gone <= from)
                return null;
            var story = PackageStory.Of(cellar, package, to);
            DateOnly Begins(int chapter) => story.FirstDay.AddDays((int)Math.Floor(story.Chapters[chapter].FromDay));
            bool Inside(Chapter chapter) => cellar.Outwards(chapter.Place).Any(here => here.Id == place);
            for (var n = 0; n < story.Chapters.Count; n++)
            {
                var ends = n + 1 < story.Chapters.Count ? Begins(n + 1) : DateOnly.MaxValue;
                if (!Inside(story.Chapters[n]) || ends <= from)
                    continue;
                var left = Enumerable.Range(n + 1, story.Chapters.Count - n - 1).Where(later => !Inside(story.Chapters[later])).Select(later => (DateOnly?)Begins(later)).FirstOrDefault();
                if (gone <= to && !(left < gone))
                    left = gone;
                var chapter = story.Chapters[n];
                return new(package, Begins(n) > from ? Begins(n) : from, left, chapter.Container, chapter.Open, SinceOf(cellar, package, place, chapter, to));
            }

            return null;
        }

        private static string SinceOf(Cellar cellar, Package package, PlaceId place, Chapter then, DateOnly to)
        {
            List<string> since = [];
            if (!cellar.Outwards(package.Place).Any(here => here.Id == place))
                since.Add(package.Place is { } now ? $"it stands in {cellar.PathOf(now)} now" : "nobody wrote down where it stands now");
            if (package.Timeline.Any(entry => entry.Day > to && entry.Fact is Fact.PackageRepacked))
                since.Add("it was repacked since");
            else if (package.IsOpen != then.Open)
                since.Add(package.IsOpen ? "it was opened since" : "it was closed since");
            return since.Count == 0 ? "" : $"({string.Join(", ", since)}) ";
        }
    }

    private static string VerdictOf(Exposure seen, double usual, double highest, double lowest, SpellEffect[] effects)
    {
        var more = seen.MeanC - usual;
        var what = FormattableString.Invariant($"{Math.Abs(more):0.#} K {(more >= 0 ? "warmer" : "colder")} than usual, {lowest:0} to {highest:0} °C");
        var here = effects.Where(effect => effect.Gone is null).ToArray();
        var hit = here.Count(effect => !effect.Why.StartsWith("next to nothing", StringComparison.Ordinal));
        var gone = effects.Length - here.Length is > 0 and var left ? $"; {left} more stood there then and {(left == 1 ? "is" : "are")} gone since" : "";
        return (here.Length == 0 ? $"{what}; nothing that is still here stood there"
            : hit == 0 ? $"{what}; it did next to nothing to the {here.Length} {(here.Length == 1 ? "package" : "packages")} there"
            : $"{what}; {hit} of {here.Length} {(here.Length == 1 ? "package" : "packages")} felt it, {here[0].Id} most") + gone + ".";
    }

    private static string By(Cellar cellar, PlaceYear fitted, Func<double, LoggedAir> lived)
    {
        double Highest(double hours) => lived(hours).Moments.Where(moment => !double.IsNaN(moment.Kelvin)).Max(moment => moment.Kelvin) - Temperature.ZeroCelsius;
        return FormattableString.Invariant(
            $"by the log of {cellar.PathOf(fitted.Around)}, taken later and damped as for a shelf (time constant {RoomLag.ShelfHours} h, {RoomLag.ShelfLeastHours} to {RoomLag.ShelfMostHours}: common practice, no source; the highest then lies between {Highest(RoomLag.ShelfMostHours):0.#} and {Highest(RoomLag.ShelfLeastHours):0.#} °C), ");
    }

    private static double Seconds(DateOnly day) => new DateTimeOffset(day, TimeOnly.MinValue, TimeSpan.Zero).ToUnixTimeSeconds();

    /// <summary>The logged air, day 0 the first of the spell; where it has gaps, and after it, the ordinary year.</summary>
    private sealed class SpellClimate(LoggedAir air, double start, int days, HarmonicYear usual) : IPlaceClimate
    {
        private readonly LoggedSpan[] spans = [.. air.Spans.Where(span => !double.IsNaN(span.Start.Kelvin + span.End.Kelvin))];

        public int? PeriodDays => null;

        public RoomMoment At(double day)
        {
            var ordinary = usual.At(day);
            var seconds = start + (day * 86400);
            if (day > days || spans.Length == 0)
                return ordinary;
            var (low, high) = (0, spans.Length - 1);
            while (low < high)
            {
                var middle = (low + high + 1) / 2;
                if (spans[middle].Start.Seconds <= seconds)
                    low = middle;
                else
                    high = middle - 1;
            }

            var span = spans[low];
            if (seconds < span.Start.Seconds || seconds > span.End.Seconds)
                return ordinary;
            var share = (seconds - span.Start.Seconds) / (span.End.Seconds - span.Start.Seconds);
            var humidity = span.Start.Humidity + (share * (span.End.Humidity - span.Start.Humidity));
            return new(span.Start.Kelvin + (share * (span.End.Kelvin - span.Start.Kelvin)), double.IsNaN(humidity) ? ordinary.RelativeHumidity : Math.Clamp(humidity, 0.01, 0.99), ordinary.Pascals);
        }
    }

    private sealed class UsualDays(HarmonicYear usual) : IPlaceClimate
    {
        public int? PeriodDays => null;

        public RoomMoment At(double day) => usual.At(day);
    }
}
