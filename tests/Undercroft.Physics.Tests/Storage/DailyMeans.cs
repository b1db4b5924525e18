using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>The production engine and the fine engine on one package, both told as means of the day.</summary>
public static class DailyMeans
{
    private const int PerDay = 24;

    /// <summary>The fine engine's rows over each day from its beginning, averaged.</summary>
    public static StorageRow[] Fine(PackageModel model, PackageState start, IPlaceClimate climate, IReadOnlyList<int> days, double from = 0)
    {
        var times = days.SelectMany(day => Enumerable.Range(0, PerDay).Select(hour => day + ((hour + 0.5) / PerDay))).ToArray();
        var course = FineEngine.Run(model, start, climate, times, from);
        Assert.Equal(SolverStatus.Running, course.Status);
        return [.. course.Rows.Chunk(PerDay).Select((rows, i) => new StorageRow(
            days[i],
            new(rows.Average(row => row.Moisture.DryBasis)),
            new(rows.Average(row => row.Activity.Fraction)),
            new(rows.Average(row => row.Oxygen.Pascals)),
            new(rows.Average(row => row.CarbonDioxide.Pascals)),
            new(rows.Average(row => row.Nitrogen.Pascals)),
            new(rows.Average(row => row.Total.Pascals))))];
    }

    /// <summary>The production engine with a single draw.</summary>
    public static StorageRow[] Fast(PackageModel model, PackageState start, ClimateTable place, IReadOnlyList<int> days)
    {
        var result = EnsembleEngine.Run(CourseOf(model, start, place, days));
        Assert.Equal(0, result.LeftRangeCount);
        return [.. days.Select((day, i) => new StorageRow(
            day,
            new(result.MoistureWetBasis[i][0] / (1 - result.MoistureWetBasis[i][0])),
            new(result.Activity[i][0]),
            new(result.Oxygen[i][0]),
            new(result.CarbonDioxide[i][0]),
            new(result.Nitrogen[i][0]),
            new(result.Total[i][0])))];
    }

    public static Course CourseOf(PackageModel model, PackageState start, ClimateTable place, IReadOnlyList<int> days, params Limit[] limits)
    {
        HeadspaceDraws headspace = model.Headspace switch
        {
            Headspace.Rigid rigid => new HeadspaceDraws.Rigid(rigid.Volume.CubicMetres),
            Headspace.Flexible flexible => new HeadspaceDraws.Flexible(flexible.Minimum.CubicMetres, flexible.Maximum.CubicMetres),
            _ => throw new InvalidOperationException(),
        };
        Stay stay = new(
            0, days[^1], place, headspace, [.. model.Paths.Select(path => PathDraws.Of(path, 1))],
            new(model.Uptake.Rate, model.Uptake.ReferenceKelvin, model.Uptake.Q10, model.Uptake.RespiratoryQuotient, model.Uptake.Basis, PerKilogram: false),
            model.Air, [new CourseEvent.Filled(start.OxygenMoles, start.CarbonDioxideMoles, start.NitrogenMoles)]);
        return new(1, model.DryMass.Kilograms, [model.Leaf], start.Water.Kilograms / model.DryMass.Kilograms, [stay], days, limits);
    }
}
