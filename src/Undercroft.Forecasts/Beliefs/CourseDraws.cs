using Undercroft.Forecasts.Drawing;
using Undercroft.Forecasts.Story;
using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Forecasts.Beliefs;

/// <summary>A package's story as model inputs, one value per draw: what is run.</summary>
/// <param name="Stays">One per chapter, on the day count of the climate tables.</param>
/// <param name="Leaf">The leaf.</param>
/// <param name="FailureDay">Day of each draw on which the closure in use today went bad; positive infinity where it is sound.</param>
/// <param name="Capacity">Inner volume of the container in use today, m³.</param>
/// <param name="Assumptions">What containers and places rest on.</param>
public sealed record CourseDraws(IReadOnlyList<Stay> Stays, LeafDraws Leaf, double[] FailureDay, double[] Capacity, IReadOnlyList<UsedAssumption> Assumptions)
{
    private const double SolidDensity = 1450; // kg/m³, dry leaf; from memory
    private const double WaterDensity = 1000;
    private const double PoreShare = 0.6; // of the solid's volume, pressed leaf; assumption within the 0.23–0.6 void of Shimizu 1970
    private const double FilledBagShare = 0.5; // of a bag's taut volume when it is closed by hand; assumption
    private const double LeastHeadspaceShare = 0.03;
    private const double UptakePerKilogram = 5e-12 * 1000 / 86400; // mol/(s·Pa·kg) at 20 °C; assumption of the model
    private const double UptakeLogSd = 1.5;
    private const double Q10LogSd = 0.21; // 1.5 to 3 about 2, read as a 90 % interval: ln(3/1.5)/(2 · 1.645)

    /// <summary>Stays of a story.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="story">What happened.</param>
    /// <param name="ask">Today, seed.</param>
    /// <param name="draws">Where the numbers come from.</param>
    /// <param name="startDay">Index of the first day: a sealing date that is not well known is drawn too.</param>
    /// <param name="endDay">Index of the last day.</param>
    /// <param name="withGas">False where only water is followed: in a rigid space without viscous flow, which carries next to no water.</param>
    public static CourseDraws Of(Cellar cellar, PackageStory story, ForecastAsk ask, SeededDraws draws, int startDay, int endDay, bool withGas)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(story);
        ArgumentNullException.ThrowIfNull(ask);
        const string key = SeededDraws.OnePackage;
        var first = ContainerBelief.Of(cellar, story.Chapters[0].Container);
        var capacity = first.Capacities(draws, $"{key}/vessel/0");
        var leaf = LeafDraws.Of(cellar, story, first, capacity, draws);
        var uptake = Uptake(draws, key);
        List<UsedAssumption> used = [.. leaf.Assumptions];
        List<Stay> stays = [];
        List<CourseEvent> sameDay = []; // of chapters that ended on the day on which they began
        double[] failure = [];
        var epoch = PlaceBelief.TodayIndex - story.Today;
        for (var n = 0; n < story.Chapters.Count; n++)
        {
            var chapter = story.Chapters[n];
            var from = n == 0 ? startDay : Math.Max(startDay, (int)(epoch + chapter.FromDay));
            var to = n + 1 < story.Chapters.Count ? Math.Max(startDay, (int)(epoch + story.Chapters[n + 1].FromDay)) : endDay;
            var last = n == story.Chapters.Count - 1;
            var container = ContainerBelief.Of(cellar, chapter.Container);
            var place = PlaceBelief.Of(cellar, chapter.Place);
            if (chapter.Turn is Turn.Sealed)
                failure = FailureDays(container, draws, $"{key}/failure/{n}", from);
            if (chapter.Turn is Turn.Sealed && n > 0)
                capacity = container.Capacities(draws, $"{key}/vessel/{n}");
            failure = Findings.FailedFrom(story, n, epoch, failure);
            if (last)
                used.AddRange(AssumptionsOf(container, place));

            sameDay.AddRange(EventsOf(chapter, container, capacity, leaf));
            if (to <= from && !last)
                continue;
            var offset = PlaceOffsets(place, draws, chapter.Place?.ToString() ?? "unknown");
            stays.Add(new Stay(
                from, to, place.Table(ask.Today), HeadspaceOf(container, capacity, leaf, withGas), PathsOf(container, chapter.Open, draws, key, failure, withGas, place), uptake,
                RoomAir.Ordinary, sameDay, offset.Warmer, offset.Moister));
            sameDay = [];
        }

        used.Add(new("oxygen uptake", "5e-12 mol/(g·day·Pa), a factor of 12 either way", new Evidence(
            Provenance.Assumption, "", "no rate for stored leaf has been published; decides oxygen, never a date")));
        used.Add(new("how warmth speeds up what passes the walls", $"activation energies ± {100 * DrawnPaths.EnergySd:0} %", new Evidence(
            Provenance.Assumption, "", "one standard deviation, one draw for each way out; no closure's own has been measured")));
        return new(stays, leaf, failure, capacity, used);
    }

    private static UptakeDraws Uptake(SeededDraws draws, string key)
    {
        var rate = Array.ConvertAll(draws.Normal(key + "/uptake"), z => UptakePerKilogram * Math.Exp(UptakeLogSd * z));
        var quotient = Array.ConvertAll(draws.Uniform(key + "/quotient"), u => 0.7 + (0.3 * u));
        var q10 = Array.ConvertAll(draws.Normal(key + "/q10"), z => 2.0 * Math.Exp(Q10LogSd * z));
        return new(rate, 293.15, q10, quotient, UptakeBasis.PerPascal, PerKilogram: true);
    }

    private static double[] FailureDays(ContainerBelief container, SeededDraws draws, string key, int sealedDay)
    {
        var u = draws.Uniform(key);
        var days = new double[u.Length];
        for (var i = 0; i < u.Length; i++)
        {
            var failure = container.Of(i).Failure;
            var later = (u[i] - failure.DefectiveAtSealing) / (1 - failure.DefectiveAtSealing);
            days[i] = later < 0 ? sealedDay
                : failure.HazardPerYear > 0 ? sealedDay + (365.25 * -Math.Log(1 - later) / failure.HazardPerYear)
                : double.PositiveInfinity;
        }

        return days;
    }

    private static (double[] Warmer, double[] Moister) PlaceOffsets(PlaceBelief place, SeededDraws draws, string where) =>
    (
        Array.ConvertAll(draws.Normal($"{where}/warmer"), z => place.MeanCelsiusSd * z),
        Array.ConvertAll(draws.Normal($"{where}/moister"), z => place.MeanHumiditySd / 100 * z)
    );

    private static HeadspaceDraws HeadspaceOf(ContainerBelief container, double[] capacities, LeafDraws leaf, bool withGas)
    {
        var count = capacities.Length;
        var (rigid, least, most) = (new double[count], new double[count], new double[count]);
        for (var i = 0; i < count; i++)
        {
            var solid = (leaf.DryKg[i] / SolidDensity) + (leaf.DryKg[i] * leaf.Moisture[i] / WaterDensity);
            var capacity = capacities[i];
            rigid[i] = Math.Max(capacity - solid, LeastHeadspaceShare * capacity);
            least[i] = PoreShare * solid;
            most[i] = Math.Max(capacity - solid, 1.1 * least[i]);
        }

        return withGas && container.Kinds.All(kind => kind.Flexible) ? new HeadspaceDraws.Flexible(least, most) : new HeadspaceDraws.Rigid(rigid);
    }

    private static List<PathDraws> PathsOf(ContainerBelief container, bool open, SeededDraws draws, string key, double[] failedFrom, bool withGas, PlaceBelief place)
    {
        List<(PathKind Path, ContainerKind Kind, int Nth, PerDraw From)> ways = [];
        for (var k = 0; k < container.Kinds.Count; k++)
        {
            var kind = open ? OpenedAs(container.Kinds[k]) : container.Kinds[k];
            foreach (var path in kind.Paths)
                ways.Add((path, kind, k, double.NegativeInfinity));
            if (!open || ReferenceEquals(kind, container.Kinds[k]))
                ways.Add((kind.Failure.WhenFailed, kind, k, open ? double.NegativeInfinity : failedFrom));
        }

        var drawn = new DrawnPaths(draws, withGas, place.MeanCelsius, withGas && (container.Kinds.All(kind => kind.Flexible) || ways.Any(way => way.Path.Median.Viscous > 0)));
        return [.. ways.Select(way => drawn.Of(way.Kind, way.Path, Factor(way.Path, way.Kind, way.Nth, container, draws, key), way.From))];
    }

    /// <summary>A package in use: a factory tin becomes an opened one; anything else has its lid put back by hand, which closes as badly as a failed one.</summary>
    internal static ContainerKind OpenedAs(ContainerKind kind) => kind is { Vessel: Vessel.Tin, FactorySealed: true } ? ContainerKinds.Find("tin-opened") ?? kind : kind;

    private static double[] Factor(PathKind path, ContainerKind kind, int nth, ContainerBelief container, SeededDraws draws, string key)
    {
        var own = draws.Normal($"{key}/{kind.Code}/{path.Median.Name}");
        var shared = draws.Normal($"kind/{kind.Code}/{path.Median.Name}");
        var factor = new double[own.Length];
        for (var i = 0; i < factor.Length; i++)
            factor[i] = i % container.Kinds.Count == nth ? Math.Exp((path.LogSd * own[i]) + (path.SharedLogSd * shared[i])) : 0;
        return factor;
    }

    private static List<CourseEvent> EventsOf(Chapter chapter, ContainerBelief container, double[] capacities, LeafDraws leaf)
    {
        switch (chapter.Turn)
        {
            case Turn.Stays: return [];
            case Turn.Aired: return [new CourseEvent.Opened(1)];
            case Turn.Taken taken:
                double[] share = [.. leaf.DryKg.Select((dry, i) => Math.Clamp((taken.Mass.Mid?.Kilograms ?? 0) / (dry * (1 + leaf.Moisture[i])), 0, 0.98))];
                return [new CourseEvent.TakenOut(share), new CourseEvent.Opened(1)];
            case Turn.Watered water: return [new CourseEvent.WaterAdded(water.Mass.Mid?.Kilograms ?? 0), new CourseEvent.Opened(1)];
            case Turn.Sealed:
                var flexible = container.Kinds.All(each => each.Flexible);
                var volume = Enumerable.Range(0, capacities.Length).Select(i => flexible && container.Of(i).ResidualPressure is null ? FilledBagShare * capacities[i] : double.NaN).ToArray();
                var pressure = Enumerable.Range(0, capacities.Length).Select(i => container.Of(i).ResidualPressure?.Pascals ?? double.NaN).ToArray();
                return [new CourseEvent.Sealed(pressure, volume, double.NaN)];
            default: throw new InvalidOperationException($"No model event for {chapter.Turn}.");
        }
    }

    private static IEnumerable<UsedAssumption> AssumptionsOf(ContainerBelief container, PlaceBelief place)
    {
        if (!container.IsKnown)
            yield return new("container", $"{container.Family?.Name ?? "not known"}: {string.Join(", ", container.Kinds.Select(kind => kind.Name))}, each as likely", container.Family is null
                ? new Evidence(Provenance.Assumption, "", "say what it is packed in, and the answer narrows at once") : ContainerFamily.Evidence);
        foreach (var kind in container.Kinds)
        {
            foreach (var path in kind.Paths)
                yield return new($"{kind.Name}: {path.Median.Name}", $"a factor of {Math.Exp(1.645 * Math.Sqrt((path.LogSd * path.LogSd) + (path.SharedLogSd * path.SharedLogSd))):0.#} either way (90 %)", path.Evidence);
            yield return new($"{kind.Name}: bad closures", $"{100 * kind.Failure.DefectiveAtSealing:0.#} % at closing, {100 * kind.Failure.HazardPerYear:0.#} % a year", kind.Failure.Evidence);
        }

        yield return new("climate of the place", $"{place.Name}: {place.MeanCelsius:0.#} ± {place.MeanCelsiusSd:0.#} °C, {place.MeanHumidity:0} ± {place.MeanHumiditySd:0} % humidity over the year", place.Evidence);
    }
}
