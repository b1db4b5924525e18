using System.Globalization;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Forecasts.Due;

/// <summary>A package with what speaks for looking at it.</summary>
/// <param name="Package">Which.</param>
/// <param name="Kind">What it is packed in, or most likely is.</param>
/// <param name="Stake">Over two years.</param>
/// <param name="Amiss">A look whose finding was not settled.</param>
/// <param name="DueOn">Its next look by habit.</param>
/// <param name="Today">The present.</param>
internal sealed record Candidate(
    Package Package, ContainerKind Kind, Stake Stake, Timed<Fact.PackageLooked>? Amiss, LookDue DueOn, DateOnly Today, (double Money, string Currency)? PricePerGram)
{
    private PackageForecast? forecast;

    private const double UnlinedYears = 5; // unlined or paper-walled tins are emptied within five years: common practice, no source
    private const double UnlinedNoticeYears = 0.5;

    /// <summary>The candidate of a package.</summary>
    internal static Candidate Of(Cellar cellar, Package package, ForecastAsk ask, PackageMemory? memory = null)
    {
        var container = ContainerBelief.Of(cellar, package.Container);
        var kind = container.Kinds[0];
        var lot = cellar.Lots[package.Lot];
        var grams = lot.Packages.Sum(id => cellar.Packages[id].Net.Mid?.Grams ?? 0);
        (double, string)? price = lot.Paid is { } paid && grams > 0 ? ((double)paid.Mid / grams, paid.Currency) : null;
        return new(package, kind, StakeOf(), Findings.Unmended(package), Habit.Due(package, kind, ask.Today), ask.Today, price) { UnlinedRuleOff = cellar.RulesOff.Contains(PracticeRules.UnlinedOut), NobodySaidInWhat = container.IsUnknown };

        Stake StakeOf() => memory is null ? Forecaster.StakeOf(cellar, package.Id, ask) : memory.Of(cellar, package, ask.Today, $"stake {ask.Seed}", () => Forecaster.StakeOf(cellar, package.Id, ask));
    }

    /// <summary>What spreads first, then what may burst, then what was seen and not settled, then everything by its stake.</summary>
    internal int Urgency => Spreads ? 3 : Has(Finding.Bulge) ? 2 : Amiss is not null ? 1 : 0;

    private bool Spreads => Has(Finding.MouldSuspected) || Has(Finding.Insects);

    /// <summary>Grams that may be lost within a year and can still be saved. What spreads puts all of it at stake.</summary>
    internal double Grams => Spreads ? Stake.Grams : Stake.GramsAtRisk;

    /// <summary>By its own price, else by the mean one, else by grams.</summary>
    internal double MoneyOr(double? meanPrice) => Grams * (PricePerGram?.Money ?? meanPrice ?? 1);

    /// <summary>A person looked, decided, and set a later day. What spreads does not wait for it.</summary>
    private bool Waits => !Spreads && Habit.SetFor(Package)?.Fact.LookAgain > Today;

    internal bool IsDue => !Waits && IsDueByItself;

    private bool IsDueByItself => Amiss is not null || DueOn.On <= Today || Stake.LossWithinYear >= DueList.WorthALook || UnlinedSince is not null;

    /// <summary>True where the keeper has switched the rule of unlined tins off.</summary>
    private bool UnlinedRuleOff { get; init; }

    /// <summary>True where not even the sort of the container is known.</summary>
    private bool NobodySaidInWhat { get; init; }

    /// <summary>Age of an unlined or paper-walled tin near or over its five years; null for others.</summary>
    private double? UnlinedSince
    {
        get
        {
            var years = (Today.DayNumber - Package.Timeline[0].Day.DayNumber) / Grid.DaysPerYear;
            return !UnlinedRuleOff && Kind.Code is "tin-unlined" or "tin-paper" && years > UnlinedYears - UnlinedNoticeYears ? years : null;
        }
    }

    /// <summary>Its whole forecast: only those that are chosen need one.</summary>
    private PackageForecast Forecast => forecast ?? throw new InvalidOperationException("Asked before its time.");

    internal DueItem ToItem(Cellar cellar, ForecastAsk ask, double share, int rank, PackageMemory? memory = null)
    {
        forecast ??= memory is null ? Forecaster.Of(cellar, Package.Id, ask) : memory.Of(cellar, Package, ask.Today, $"due {ask.Seed} {ask.Draws}", () => Forecaster.Of(cellar, Package.Id, ask));
        return Item(cellar, share, rank);
    }

    private DueItem Item(Cellar cellar, double share, int rank)
    {
        var due = DueDay();
        return new(
            Package.Id.ToString(),
            cellar.BlendOf(Package).Name,
            cellar.PathOf(Package.Place),
            Reason(),
            Check(),
            BadIf(),
            share,
            rank,
            due.On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            CodeWords.Of(due.KnownTo),
            DueWords(due),
            Grams,
            PricePerGram is { } price ? Grams * price.Money : null,
            PricePerGram?.Currency,
            Forecast.Verdict);
    }

    private LookDue DueDay()
    {
        var day = (Amiss is not null || Stake.LossWithinYear >= DueList.WorthALook) && Forecast.Next.On < DueOn.On ? new(Forecast.Next.On, KnownTo.Day) : DueOn;
        return Package.IsOpen && day.On < Opened.On ? Opened : day; // whoever opened it saw it
    }

    /// <summary>The reason says it already where nothing else speaks for a look.</summary>
    private string DueWords(LookDue due) => due.Said(Today) is var said && said == Reason() ? "due now" : said;

    private string Reason()
    {
        if (Amiss is { } look)
        {
            var seen = look.Fact.Findings.First(Rules.IsAmiss);
            return $"{CodeWords.Of(seen).Replace('-', ' ')} seen {look.Entry.InWords}, not settled";
        }

        if (UnlinedSince is { } years)
            return string.Create(CultureInfo.InvariantCulture, $"unlined tin, {years:0.#} years old");
        if (Package.IsOpen)
            return OpenDays() < 1 ? "opened today" : $"open for {TimePhrase.Of(OpenDays())}";
        if (Kind.Code == "bag-bulk")
            return $"bulk bag, {TimePhrase.Of(Age())} old";
        return Forecast.Condition switch
        {
            Condition.Dry => "probably dry already",
            Condition.Moist => "too moist to store long",
            Condition.Drying when Forecast.DryDay.P50 is { } dry => $"dry in about {TimePhrase.Of(dry)}",
            _ when Stake.MayBeTooMoist => "may be too moist to keep long",
            _ when Stake.FailedNow > 2.0 / 3 => "closure is probably bad",
            _ when Stake.FailedNow >= DueList.WorthALook => $"closure may be bad: 1 in {1 / Stake.FailedNow:0}",
            _ => LastSeen() is { } sight ? $"last seen {sight.InWords}" : "never looked at",
        };
    }

    private string Check() => Has(Finding.Bulge) ? "measure the dome at the same place and temperature; do not open indoors"
        : Has(Finding.MouldSuspected) ? "keep it closed and apart; look with a torch, do not sniff close"
        : UnlinedSince is not null ? "look for rust and damp; pack it into glass"
        : Package.IsOpen ? "feel it, weigh it; finish it or close it in a smaller jar"
        : NobodySaidInWhat ? "see what it is packed in and write it down; feel it, weigh it"
        : Kind.Habit.Check;

    private string BadIf() => Has(Finding.Bulge) ? "the dome has grown"
        : Has(Finding.MouldSuspected) ? "fuzz, threads, musty: treat as mould, do not smoke"
        : Package.IsOpen ? "strands break, weight down"
        : NobodySaidInWhat ? "it is only a bag or a tin with a loose lid, or the leaf feels dry"
        : Kind.Habit.BadIf;

    private double Age() => Today.DayNumber - Package.Timeline[0].Day.DayNumber;

    private LookDue Opened => Package.Openings.LastOrDefault().Entry is { } entry ? LookDue.After(entry.Day, entry.Happened, 0) : new(Package.Since, KnownTo.Day);

    private double OpenDays() => Today.DayNumber - Opened.On.DayNumber;

    private TimelineEntry? LastSeen() => Package.Timeline.LastOrDefault(entry => entry.Fact is Fact.PackageLooked or Fact.PackageWeighed or Fact.HumidityRead);

    private bool Has(Finding finding) => Amiss is { } look && look.Fact.Findings.Contains(finding);
}
