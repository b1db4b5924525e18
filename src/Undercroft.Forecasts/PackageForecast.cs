using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Forecasts;

/// <summary>What is asked of a forecast.</summary>
/// <param name="Today">Its first day.</param>
/// <param name="Years">How far.</param>
/// <param name="Draws">Size of the ensemble.</param>
/// <param name="Seed">The same seed gives the same answer.</param>
/// <param name="InKind">As if it were packed today into this container kind; null for as it is.</param>
/// <param name="InPlace">As if it were moved today to this place; null for where it is.</param>
public sealed record ForecastAsk(DateOnly Today, double Years = 30, int Draws = ForecastAsk.UsualDraws, ulong Seed = 1, string? InKind = null, string? InPlace = null)
{
    /// <summary>Draws of an answer that is read closely.</summary>
    public const int UsualDraws = 256;

    /// <summary>The lines that the forecast is judged against.</summary>
    public Limits Limits { get; init; } = new();

    /// <summary>As if it were opened or closed so from today on; null for as it is.</summary>
    public Opening? Opening { get; init; }

    /// <summary>False spares the search for the measurement that would narrow the answer.</summary>
    public bool WithNarrowing { get; init; } = true;

    /// <summary>
    /// True where only water is asked for, as in a due list: no gas is followed.
    /// </summary>
    public bool WaterOnly { get; init; }

    /// <summary>The names of drawn numbers that are drawn anew, as by another seed, for telling what each of them does; null for none.</summary>
    internal Func<string, bool>? Swapped { get; init; }
}

/// <summary>Quantiles of one quantity over the days of a forecast.</summary>
/// <param name="P5">One draw in twenty lies below.</param>
/// <param name="P50">The middle.</param>
/// <param name="P95">One draw in twenty lies above.</param>
public sealed record Band(double[] P5, double[] P50, double[] P95);

/// <summary>When a package falls below the dry line, days from today.</summary>
/// <param name="P5">Early; null where it lies beyond the horizon.</param>
/// <param name="P50">Middle; null beyond the horizon.</param>
/// <param name="P95">Late; null beyond the horizon.</param>
/// <param name="Probability">Share of draws that fall below it within the horizon.</param>
public sealed record DryDay(double? P5, double? P50, double? P95, double Probability);

/// <summary>How a package stands.</summary>
public enum Condition
{
    /// <summary>Stays in range over the horizon, as likely as can be said.</summary>
    Keeps,

    /// <summary>Leaves its range within the horizon.</summary>
    Drying,

    /// <summary>Is dry already, more likely than not.</summary>
    Dry,

    /// <summary>Too moist to store long.</summary>
    Moist,

    /// <summary>So little is known that no verdict would be honest.</summary>
    Unknown,
}

/// <summary>What to do next.</summary>
/// <param name="On">By when.</param>
/// <param name="What">In words.</param>
public sealed record NextStep(DateOnly On, string What);

/// <summary>A number that the answer rests on.</summary>
/// <param name="What">Of what.</param>
/// <param name="Value">With its unit and spread, in words.</param>
/// <param name="Evidence">How it is known.</param>
public sealed record UsedAssumption(string What, string Value, Evidence Evidence);

/// <summary>Grams that a look can still save.</summary>
/// <param name="Grams">Net leaf, middle of what is known.</param>
/// <param name="LossWithinYear">Probability that it leaves its range within a year and has not left it yet.</param>
/// <param name="FailedNow">Probability that the closure is bad today.</param>
/// <param name="DryNow">Probability that the leaf is dry already.</param>
/// <param name="MoistNow">Probability that activity is at or above the line for long storage.</param>
public sealed record Stake(double Grams, double LossWithinYear, double FailedNow, double DryNow, double MoistNow)
{
    /// <summary>True where a look long after it was closed found all well: moist leaf would have moulded by then.</summary>
    public bool Lasted { get; init; }

    /// <summary>True where it may well be too moist to keep long, and nothing that was seen speaks against it.</summary>
    public bool MayBeTooMoist => MoistNow >= MayBeMoist && !Lasted;

    /// <summary>A chance to be too moist from which on it is worth a look (assumption).</summary>
    private const double MayBeMoist = 0.2;

    /// <summary>Grams times the chance to lose them and still be able to save them.</summary>
    public double GramsAtRisk => Grams * LossWithinYear;
}

/// <summary>The forecast of one package.</summary>
public sealed record PackageForecast
{
    /// <summary>Which; null for a question about a package that nobody has.</summary>
    public PackageId? Id { get; init; }

    /// <summary>The first line of the answer.</summary>
    public required string Verdict { get; init; }

    /// <summary>How it stands.</summary>
    public required Condition Condition { get; init; }

    /// <summary>Days from today at which the bands are given.</summary>
    public required double[] Days { get; init; }

    /// <summary>Moisture, wet basis, percent.</summary>
    public required Band Moisture { get; init; }

    /// <summary>Water activity.</summary>
    public required Band Activity { get; init; }

    /// <summary>Partial pressure of oxygen, kPa.</summary>
    public required Band Oxygen { get; init; }

    /// <summary>Absolute pressure, kPa.</summary>
    public required Band Pressure { get; init; }

    /// <summary>When it gets dry.</summary>
    public required DryDay DryDay { get; init; }

    /// <summary>Probability of activity above the line for long storage for 30 days running, within the horizon.</summary>
    public required double MouldRisk { get; init; }

    /// <summary>Probability of staying above the dry line and free of that risk over the whole horizon.</summary>
    public required double InRange { get; init; }

    /// <summary>Days until it is dry, cut off at the horizon, mean over the draws.</summary>
    public required double MeanDaysUntilDry { get; init; }

    /// <summary>The one measurement that would narrow the answer most; null where none would.</summary>
    public Narrowing? NarrowedBy { get; init; }

    /// <summary>The two strongest reasons.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }

    /// <summary>What to do, by when.</summary>
    public required NextStep Next { get; init; }

    /// <summary>What can still be saved.</summary>
    public required Stake Stake { get; init; }

    /// <summary>What the numbers rest on.</summary>
    public required IReadOnlyList<UsedAssumption> Assumptions { get; init; }

    /// <summary>What a person should know of the forecast itself: draws that left the valid range, measurements that fit badly.</summary>
    public required IReadOnlyList<string> Remarks { get; init; }
}
