using System.Globalization;
using Undercroft.Forecasts;
using Undercroft.Forecasts.Comparing;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Comparing;

/// <summary>One container kind of a comparison as programs read it.</summary>
/// <param name="Kind">Code.</param>
/// <param name="Name">For people.</param>
/// <param name="Containers">How many the lot fills.</param>
/// <param name="EachG">Leaf in one of them.</param>
/// <param name="MoistureWetBasisPct">At the horizon.</param>
/// <param name="WaterActivity">At the horizon.</param>
/// <param name="OxygenKPa">Inside at the horizon.</param>
/// <param name="OxygenMlPerGYear">At most, with none left inside; middle of the draws.</param>
/// <param name="OxygenRangeMlPerGYear">The same with its band.</param>
/// <param name="OxygenShutInMlPerG">Closed in with the leaf.</param>
/// <param name="WaterRangeMgPerGYear">Driven out by 20 points of humidity more inside.</param>
/// <param name="InRange">Probability of staying above the dry line and free of mould risk over the horizon.</param>
/// <param name="DryProbability">Probability of falling below the dry line.</param>
/// <param name="MouldRisk">Probability of 30 days running above the line for long storage.</param>
/// <param name="KeptYears">Until dry, cut off at the horizon, mean.</param>
/// <param name="CostPerYear">Dollars or euros, for a kind of one's own the currency that was stated; null where packing costs nothing that is known.</param>
/// <param name="Litres">Of shelf, for all of them.</param>
/// <param name="LookInside">One can see the leaf without opening.</param>
/// <param name="PressesCut">Sealing presses the leaf.</param>
/// <param name="FactoryPackSurvives">A factory package is kept whole.</param>
/// <param name="FactorySealed">Comes closed from the maker; cannot be closed so at home.</param>
/// <param name="Verdict">First line of its forecast.</param>
public sealed record CompareLine(
    string Kind, string Name, int Containers, double EachG, Spot MoistureWetBasisPct, Spot WaterActivity, Spot OxygenKPa, double OxygenMlPerGYear, Spot OxygenRangeMlPerGYear,
    double OxygenShutInMlPerG, Spot WaterRangeMgPerGYear, double InRange, double DryProbability, double MouldRisk, double KeptYears, double? CostPerYear, double Litres, bool LookInside,
    bool PressesCut, bool FactoryPackSurvives, bool FactorySealed, string Verdict)
{
    /// <summary>Of an outcome.</summary>
    public static CompareLine Of(KindOutcome outcome)
    {
        ArgumentNullException.ThrowIfNull(outcome);
        var kind = outcome.Kind;
        return new(
            kind.Code, kind.Name, outcome.Containers, outcome.Each.Grams, outcome.Moisture, outcome.Activity, outcome.Oxygen, outcome.OxygenMlPerGYear.P50, outcome.OxygenMlPerGYear,
            outcome.OxygenShutInMlPerG, outcome.WaterMgPerGYear, outcome.Forecast.InRange, outcome.Forecast.DryDay.Probability, outcome.Forecast.MouldRisk, outcome.YearsKept,
            outcome.CostPerYear, outcome.Litres, kind.SeeThrough, kind.PressesLeaf, kind.KeepsFactoryPack, kind.FactorySealed, outcome.Forecast.Verdict);
    }
}

/// <summary>A rule of practice beside physics.</summary>
/// <param name="Rule">Code.</param>
/// <param name="Says">The rule.</param>
/// <param name="Provenance">Common practice, no source.</param>
/// <param name="PhysicsAgrees">Null where physics has no say.</param>
/// <param name="Physics">In a sentence.</param>
public sealed record RuleVerdict(string Rule, string Says, string Provenance, bool? PhysicsAgrees, string Physics);

/// <summary>A comparison as programs read it.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="Reasons">The two strongest.</param>
/// <param name="NextStep">What to do, by when.</param>
/// <param name="NarrowedBy">The one measurement that would narrow it most.</param>
/// <param name="Place">In words.</param>
/// <param name="Kinds">In the order asked.</param>
/// <param name="WhyOneNumberMisleads">Three sentences.</param>
/// <param name="Practice">Rules of practice that are switched on, and whether physics agrees here.</param>
public sealed record CompareAnswer(
    string Verdict, IReadOnlyList<string> Reasons, object NextStep, Narrowing? NarrowedBy, string Place, IReadOnlyList<CompareLine> Kinds, IReadOnlyList<string> WhyOneNumberMisleads,
    IReadOnlyList<RuleVerdict> Practice)
{
    /// <summary>Of a comparison.</summary>
    public static CompareAnswer Of(Comparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        return new(
            comparison.Verdict, comparison.Reasons, new { on = comparison.Next.On.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), what = comparison.Next.What }, comparison.NarrowedBy,
            comparison.Where, [.. comparison.Outcomes.Select(CompareLine.Of)], comparison.WhyOneNumberMisleads,
            [.. comparison.Practice.Select(found => new RuleVerdict(found.Rule.Code, found.Rule.Says, found.Rule.Evidence.Tag, found.Agrees, found.Physics))]);
    }

    /// <summary>What the cost and the shelf rest on.</summary>
    public static IReadOnlyList<(string What, Evidence Evidence)> RestsOn { get; } =
    [
        ("cost", PackingCost.Rough),
        ("shelf", ShelfSpace.Evidence),
        ("oxygen per gram and year", new(Provenance.Derived, "", "what all ways in pass at most, with no oxygen left inside; how fast leaf takes it up nobody has published")),
    ];
}
