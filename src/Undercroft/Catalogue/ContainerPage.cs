using System.Globalization;
using Undercroft.Physics.Air;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Catalogue;

/// <summary>Everything that the catalogue says of a container kind.</summary>
internal static class ContainerPage
{
    private const double SecondsPerDay = 86400;
    private const double HumidityDifference = 0.20;
    private static readonly Temperature Room = Temperature.FromCelsius(20);
    private static readonly Evidence NoneRecorded = new(Provenance.Assumption, "", "nobody has recorded where this figure comes from");

    public static KindPage Of(ContainerKind kind) => new(
        KindList.Containers, kind.Code, kind.Name, kind.Horizon, kind.Habit.Check, kind.Habit.BadIf, kind.Caution,
        [.. Body(kind), .. kind.Paths.SelectMany(path => Path(path, path.Median.Name)), .. Failure(kind.Failure), .. Habit(kind.Habit)]);

    private static IEnumerable<KindValue> Body(ContainerKind kind)
    {
        yield return KindValue.Of("capacity", kind.Capacity.Millilitres, "ml", null, kind.CapacityEvidence);
        if (kind is { TypicalTare: { } tare, TareEvidence: { } weighed })
            yield return KindValue.Of("empty, with its closure", tare.Grams, "g", null, weighed);
        if (kind.UsualContents is { } usual)
            yield return KindValue.Of("usual contents", usual.Grams, "g", null, NoneRecorded);
        if (kind.ResidualPressure is { } left)
            yield return KindValue.Of("pressure left inside by sealing", left.Kilopascals, "kPa absolute", null, NoneRecorded);
        if (kind.Cost is { } cost)
        {
            yield return KindValue.Of("cost of packing one, cheap", (double)cost.Low, cost.Unit, null, cost.Evidence);
            yield return KindValue.Of("cost of packing one, dear", (double)cost.High, cost.Unit, null, cost.Evidence);
        }

        yield return KindValue.Of(
            "water out of a sound middle specimen", MilligramsPerDay(kind), "mg a day at 20 °C and 20 points of humidity more inside", null,
            new Evidence(Provenance.Derived, "", "from the ways out below"));
    }

    /// <summary>Water out of a sound middle specimen at 20 °C and 20 points of humidity more inside.</summary>
    internal static double MilligramsPerDay(ContainerKind kind) => kind.Paths.Sum(path => MilligramsPerDay(path.Median));

    private static double MilligramsPerDay(ExchangePath path) =>
        ArrheniusFactor.At(Room, path.Water) * HumidityDifference * SaturationPressure.OverWater(Room).Pascals * PhysicalConstants.MolarMassOfWater * 1e6 * SecondsPerDay;

    private static IEnumerable<KindValue> Path(PathKind path, string name)
    {
        var spread = Factors(path);
        (string Gas, Conductance Way)[] gases =
            [("water", path.Median.Water), ("oxygen", path.Median.Oxygen), ("carbon dioxide", path.Median.CarbonDioxide), ("nitrogen", path.Median.Nitrogen)];
        foreach (var (gas, way) in gases)
            yield return KindValue.Of($"{name}, {gas}", way.AtReference, "mol/(s·Pa) at 23 °C", spread, path.Evidence);
        foreach (var (gas, way) in gases)
            yield return KindValue.Of($"{name}, {gas}, activation energy", way.ActivationEnergy / 1e3, "kJ/mol", null, path.Evidence);
        if (path.Median.Viscous > 0)
            yield return KindValue.Of($"{name}, whole gas under pressure", path.Median.Viscous, "mol/(s·Pa)", spread, path.Evidence);
    }

    private static IEnumerable<KindValue> Failure(ClosureFailure failure) =>
    [
        KindValue.Of("never closed", 100 * failure.DefectiveAtSealing, "% of specimens", null, failure.Evidence),
        KindValue.Of("sound ones that fail later", 100 * failure.HazardPerYear, "% a year", null, failure.Evidence),
        .. Path(failure.WhenFailed, $"when failed: {failure.WhenFailed.Median.Name}"),
    ];

    private static IEnumerable<KindValue> Habit(InspectionHabit habit) =>
    [
        KindValue.Of("first look after", habit.FirstAfterDays, "days", null, habit.Evidence),
        KindValue.Of("then every", habit.ThenEveryDays, "days", null, habit.Evidence),
    ];

    private static string? Factors(PathKind path) => path is { LogSd: 0, SharedLogSd: 0 } ? null : string.Create(CultureInfo.InvariantCulture,
        $"factor {Math.Exp(path.LogSd):0.0} own, {Math.Exp(path.SharedLogSd):0.0} shared");
}
