using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Climate.Years;

namespace Undercroft.Forecasts.Places;

/// <summary>For how long a place is good enough, by practice's limits.</summary>
public enum Fitness
{
    /// <summary>Not for leaf.</summary>
    NotForLeaf,

    /// <summary>For what is used this year.</summary>
    ThisYear,

    /// <summary>For some years.</summary>
    SomeYears,

    /// <summary>For thirty.</summary>
    ThirtyYears,
}

/// <summary>A change that would help, and what it would come to.</summary>
/// <param name="Change">In words.</param>
/// <param name="MeanKineticTemperatureC">After it.</param>
/// <param name="DailySwingK">After it; null where not known.</param>
/// <param name="AgeingRate">Relative to 20 °C.</param>
/// <param name="Fitness">After it.</param>
/// <param name="Rests">What the figures rest on.</param>
public sealed record WhatIf(string Change, double MeanKineticTemperatureC, double? DailySwingK, double AgeingRate, Fitness Fitness, string Rests);

/// <summary>One place, judged.</summary>
public sealed record PlaceAnswer
{
    private const int Fortnight = 14;

    // Limits by which places are told apart: common practice where it exists (15–21 °C, steady, below 65–70 %), else assumptions.
    private const double CoolForThirty = 18.5;
    private const double WarmForYears = 22.5;
    private const double SteadyForThirty = 3;
    private const double SteadyForYears = 6;

    /// <summary>Which.</summary>
    public required Place Place { get; init; }

    /// <summary>From the outermost place inwards.</summary>
    public required string Path { get; init; }

    /// <summary>As the forecasts take it.</summary>
    public required PlaceBelief Belief { get; init; }

    /// <summary>The fitted year.</summary>
    public required PlaceYear Fitted { get; init; }

    /// <summary>What its log lived through over the last year of it; null where there is none.</summary>
    public required Exposure? Logged { get; init; }

    /// <summary>What a typical year does.</summary>
    public required Exposure Typical { get; init; }

    /// <summary>Mean kinetic temperature of the typical year, °C: 5, 50 and 95 % of what is believed.</summary>
    public required Interval MeanKinetic { get; init; }

    /// <summary>For how long it is good enough.</summary>
    public required Fitness Fitness { get; init; }

    /// <summary>First line.</summary>
    public required string Verdict { get; init; }

    /// <summary>The two strongest reasons.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>What to do, by when.</summary>
    public required NextStep Next { get; init; }

    /// <summary>What would narrow the mean temperature most, in words, with half-widths of 90 % now and after.</summary>
    public required (string What, double NowK, double AfterK) NarrowedBy { get; init; }

    /// <summary>What a change would come to.</summary>
    public required IReadOnlyList<WhatIf> Changes { get; init; }

    /// <summary>Of a place.</summary>
    /// <param name="cellar">As read, its logs fetched.</param>
    /// <param name="place">Which.</param>
    /// <param name="today">The present.</param>
    public static PlaceAnswer Of(Cellar cellar, PlaceId place, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var belief = PlaceBelief.Of(cellar, place);
        var fitted = PlaceYear.Of(cellar, place);
        var pascals = belief.Pressure.Pascals;
        var typical = Exposure.Of(TypicalYear.Of(fitted.Year, pascals), belief.Pressure)!;
        var half = 1.645 * belief.MeanCelsiusSd;
        var (fitness, reasons) = Judged(typical, belief.MeanCelsiusSd);
        var last = fitted.Log is { } log ? log.Air.Between(log.Last.ToUnixTimeSeconds() - (366 * 86400.0), double.PositiveInfinity) : null;
        var narrowing = Narrowing(fitted, belief);
        return new()
        {
            Place = cellar.Places[place], Path = cellar.PathOf(place)!, Belief = belief, Fitted = fitted, Typical = typical, Fitness = fitness,
            Logged = last is null ? null : Exposure.Of(last, belief.Pressure),
            MeanKinetic = new(typical.MeanKineticTemperatureC - half, typical.MeanKineticTemperatureC, typical.MeanKineticTemperatureC + half),
            Verdict = VerdictOf(fitness, typical, belief, half), Reasons = reasons, Next = NextOf(fitness, fitted, typical, today), NarrowedBy = narrowing,
            Changes = ChangesOf(fitted, belief, typical),
        };
    }

    /// <summary>How a fitness is said.</summary>
    public static string Words(Fitness fitness) => fitness switch
    {
        Fitness.NotForLeaf => "not for leaf",
        Fitness.ThisYear => "for this year's leaf",
        Fitness.SomeYears => "for some years",
        Fitness.ThirtyYears => "for thirty years",
        _ => throw new InvalidOperationException($"No words for {fitness}."),
    };

    private static string VerdictOf(Fitness fitness, Exposure typical, PlaceBelief belief, double half) => FormattableString.Invariant(
        $"Good enough {Words(fitness)}: acts like a steady {typical.MeanKineticTemperatureC:0.0} °C ({typical.MeanKineticTemperatureC - half:0.0} to {typical.MeanKineticTemperatureC + half:0.0}), about {belief.MeanHumidity:0} % humidity.")
        .Replace("Good enough not for leaf", "Not for leaf", StringComparison.Ordinal);

    private static (Fitness Fitness, IReadOnlyList<string> Reasons) Judged(Exposure seen, double sd)
    {
        List<(Fitness Cap, double Weight, string Reason)> faults = [];
        void Fault(Fitness cap, double excess, string reason) => faults.Add((cap, excess, reason));
        string N(double value, string format = "0.#") => Meaning.N(value, format);
        var mkt = seen.MeanKineticTemperatureC;
        if (mkt > WarmForYears)
            Fault(mkt > 27 ? Fitness.NotForLeaf : Fitness.ThisYear, mkt - WarmForYears, $"it is warm: slow changes run {N(seen.AgeingRate)} times as fast as at 20 °C");
        else if (mkt > CoolForThirty)
            Fault(Fitness.SomeYears, mkt - CoolForThirty, $"its warmth lets leaf age at {N(seen.AgeingRate)} times the pace of 20 °C; for decades 15 to 18 °C is better");
        if (seen.HoursAbove30CPerYear > 150)
            Fault(seen.HoursAbove30CPerYear > 700 ? Fitness.NotForLeaf : Fitness.ThisYear, seen.HoursAbove30CPerYear / 150, $"{N(seen.HoursAbove30CPerYear, "0")} hours a year are above 30 °C");
        if (seen.DailySwingK is { } daily && daily > SteadyForThirty)
            Fault(daily > SteadyForYears ? Fitness.ThisYear : Fitness.SomeYears, daily - SteadyForThirty, $"it swings by {N(daily)} K a day, which works lids");
        if (seen.MouldIndex >= 1)
            Fault(seen.MouldIndex >= 3 ? Fitness.NotForLeaf : Fitness.ThisYear, seen.MouldIndex!.Value, $"it is damp enough for mould on wood (index {N(seen.MouldIndex.Value)})");
        if (seen.WetnessClass >= 3)
            Fault(Fitness.ThisYear, seen.WetnessHoursPerYear!.Value / 250, $"bare steel is wet {N(seen.WetnessHoursPerYear.Value, "0")} hours a year: tins rust");
        if (seen.MeanHumidityPct < 40)
            Fault(Fitness.SomeYears, (40 - seen.MeanHumidityPct.Value) / 5, $"its air is dry ({N(seen.MeanHumidityPct.Value, "0")} %), so whatever breathes dries");
        if (faults.Count == 0)
        {
            return (Fitness.ThirtyYears,
            [
                $"it acts like {N(mkt)} °C, at which leaf ages at {N(seen.AgeingRate)} times the pace of 20 °C",
                seen.DailySwingK is { } calm ? $"it swings by only {N(calm)} K a day" : $"its mean is known to {N(1.645 * sd)} K",
            ]);
        }

        var ranked = faults.OrderBy(fault => fault.Cap).ThenByDescending(fault => fault.Weight).ToArray();
        IReadOnlyList<string> reasons = ranked.Length > 1 ? [.. ranked.Take(2).Select(fault => fault.Reason)]
            : [ranked[0].Reason, seen.HoursAbove30CPerYear < 24 ? "heat above 30 °C is rare" : $"{N(seen.HoursAbove25CPerYear, "0")} hours a year are above 25 °C"];
        return (ranked[0].Cap, reasons);
    }

    private static NextStep NextOf(Fitness fitness, PlaceYear fitted, Exposure typical, DateOnly today)
    {
        if (fitness == Fitness.NotForLeaf)
            return new(today.AddDays(14), typical.MouldIndex >= 3 || typical.WetnessClass >= 4 ? "Move leaf and tins out, to somewhere drier; look under lids and along seams while doing so." : "Move leaf out before the next warm spell, to somewhere lower, darker and cooler.");
        if (fitted.Log is null)
            return new(today.AddDays(14), "Put a thermometer-hygrometer with a memory on the shelf itself, leave it for a fortnight at least, then bring its file in: undercroft import logger.");
        var age = today.DayNumber - DateOnly.FromDateTime(fitted.Log.Last.UtcDateTime).DayNumber;
        if (age > 120)
            return new(today.AddDays(14), "Read the logger out again: its last reading is older than a season.");
        return fitted.Year.WeeksOfYear < 40
            ? new(today.AddDays(90), "Leave the logger where it is and read it out again in the next season: a year is known only when each season was seen.")
            : new(today.AddDays(182), "Read the logger out, check it against salt once a year, and look again after the next summer.");
    }

    /// <summary>What the longer log would bring: the same fit with days added at the middle of what is believed; how wide it ends does not depend on what they show.</summary>
    private static (string What, double NowK, double AfterK) Narrowing(PlaceYear fitted, PlaceBelief belief)
    {
        if (fitted.Log is { } seen && fitted.Year.WeeksOfYear >= 50)
        {
            return ("check the logger against a second thermometer, or its hygrometer against salt: its own error is now the larger part",
                1.645 * belief.MeanCelsiusSd, 1.645 * Math.Sqrt((belief.MeanCelsiusSd * belief.MeanCelsiusSd) - (PlaceBelief.LoggerKelvin * PlaceBelief.LoggerKelvin * 0.75)));
        }

        var known = fitted.Log?.Days.Temperature ?? [];
        var (from, count) = known.Count == 0 ? (0.5, Fortnight) : (known[^1].Day + 91, 90);
        var year = fitted.Year.Year();
        DailyFigure At(double day) => new(day, year.Celsius.At(Math.Tau * day / 365.25, 0) - year.Celsius.DayCosine, year.Celsius.DayCosine, year.Celsius.DaySine, true);
        DailyAir longer = new([.. known, .. Enumerable.Range(0, count).Select(n => At(from + n))], [], 0, 0);
        var after = YearFit.Of(longer, fitted.Year.Prior).MeanCelsius.Sd;
        after = Math.Sqrt((after * after) + (PlaceBelief.LoggerKelvin * PlaceBelief.LoggerKelvin));
        return (known.Count == 0 ? "a logger on this shelf for a fortnight" : "the logger left there for another season", 1.645 * belief.MeanCelsiusSd, 1.645 * Math.Min(after, belief.MeanCelsiusSd));
    }

    private static List<WhatIf> ChangesOf(PlaceYear fitted, PlaceBelief belief, Exposure now)
    {
        const double BoxHours = 12; // of a closed box with its contents; common practice, no source
        const double ShelfKelvin = 0.35 * 1.0; // a shelf of 0.35 m in a room 1 K warmer by each metre of height; common practice, no source
        List<WhatIf> changes = [];
        void Add(string change, double warmer, double damping, string rests)
        {
            var seen = Exposure.Of(TypicalYear.Of(fitted.Year, belief.Pressure.Pascals, warmer, damping), belief.Pressure)!;
            changes.Add(new(change, seen.MeanKineticTemperatureC, seen.DailySwingK, seen.AgeingRate, Judged(seen, 0).Fitness, rests));
        }

        Add("a closed box here", 0, RoomLag.Gain(BoxHours, 24), "a time constant of 12 h, common practice; keeps light out too");
        Add("two shelves further down", -2 * ShelfKelvin, 1, "1 K a metre of height, common practice: none in a cellar, more under a warm ceiling");
        var cabinet = Physics.Catalogue.RoomKinds.Find("cooled-cabinet")!;
        var cooled = Exposure.Of(TypicalYear.Of(YearFit.Of(DailyAir.Nothing, YearPrior.Of(cabinet)), belief.Pressure.Pascals), belief.Pressure)!;
        if (cooled.MeanKineticTemperatureC < now.MeanKineticTemperatureC)
            changes.Add(new("a cooled cabinet", cooled.MeanKineticTemperatureC, cooled.DailySwingK, cooled.AgeingRate, Judged(cooled, 0).Fitness, "set to 15 °C; assumption. Packages that come out of it warm up closed"));
        return changes;
    }
}
