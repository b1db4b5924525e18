using Undercroft.Physics.Climate;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage;

/// <summary>One rigid package by the production kernel, told as instants: long steps between the asked days, short ones just before each.</summary>
/// <remarks>
/// <para><b>Equation</b> as the kernel's; over the last days before a row the climate is followed in cells of half an hour.</para>
/// <para><b>Source</b> derived.</para>
/// <para><b>Valid</b> rigid packages without viscous flow; others by <see cref="FineEngine"/>.</para>
/// <para><b>Error</b> measured against <see cref="FineEngine"/> and an independent solver in the tests.</para>
/// </remarks>
public static class FastEngine
{
    /// <summary>Days before each row over which the day's swing is followed.</summary>
    private const double ResolvedDays = 3;

    private const int CellsPerDay = 48;

    /// <summary>Instantaneous rows at the asked days, which rise from day 0; NaN from where the leaf leaves the range of its isotherm.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A flexible package, viscous flow, or days that do not rise.</exception>
    public static IReadOnlyList<StorageRow> Run(PackageModel model, PackageState start, IPlaceClimate climate, IReadOnlyList<double> days)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(climate);
        ArgumentNullException.ThrowIfNull(days);
        model.Checked();
        if (model.Headspace is not Headspace.Rigid rigid || model.Viscous > 0)
            throw new ArgumentOutOfRangeException(nameof(model), "Instants by the fast engine are for rigid packages without viscous flow.");
        List<double> edges = [0];
        List<bool> resolved = [];
        List<int> cells = [0];
        List<PlannedRow> rows = [];
        foreach (var day in days)
        {
            if (!(day > edges[^1]))
                throw new ArgumentOutOfRangeException(nameof(days), day, "Days to report rise from day 0 on.");
            AddSteps(edges, resolved, cells, day);
            rows.Add(new(rows.Count, cells.Count - 1, -1));
        }

        Stay stay = new(
            0,
            (int)Math.Ceiling(days[^1]),
            ClimateTable.Of(climate, [.. edges], [.. resolved]),
            new HeadspaceDraws.Rigid(rigid.Volume.CubicMetres),
            [.. model.Paths.Select(path => PathDraws.Of(path, 1))],
            new(model.Uptake.Rate, model.Uptake.ReferenceKelvin, model.Uptake.Q10, model.Uptake.RespiratoryQuotient, model.Uptake.Basis, PerKilogram: false),
            model.Air,
            [new CourseEvent.Filled(start.OxygenMoles, start.CarbonDioxideMoles, start.NitrogenMoles)]);
        Course course = new(
            1, model.DryMass.Kilograms, [model.Leaf], start.Water.Kilograms / model.DryMass.Kilograms, [stay], [.. rows.Select(row => row.Row)], []);
        var told = new StorageRow[days.Count];
        PerDraw heat = model.Leaf.SorptionHeat;
        CourseRun<Lane1> run = new(
            course, [new(stay, heat, [.. cells], rows)], heat, null, 0, (row, _, values) => told[row] = new(
                days[row], new(values.MoistureDryBasis), new(values.Activity), new(values.Oxygen), new(values.CarbonDioxide), new(values.Nitrogen), new(values.Total)));
        run.Run();
        return told;
    }

    /// <summary>Whole days in growing steps, then half-hours up to the row; the very first days are followed closely too.</summary>
    private static void AddSteps(List<double> edges, List<bool> resolved, List<int> cells, double day)
    {
        if (edges.Count == 1)
            Follow(edges, resolved, cells, Math.Min(day, ResolvedDays));
        var whole = Math.Floor(day - edges[^1] - ResolvedDays);
        var step = 1;
        for (var done = 0; done < whole;)
        {
            var taken = (int)Math.Min(Math.Min(step, EnsembleEngine.LongestStep), whole - done);
            for (var i = 0; i < taken; i++)
            {
                edges.Add(edges[^1] + 1);
                resolved.Add(false);
            }

            cells.Add(edges.Count - 1);
            done += taken;
            step++;
        }

        Follow(edges, resolved, cells, day);
    }

    private static void Follow(List<double> edges, List<bool> resolved, List<int> cells, double day)
    {
        var from = edges[^1];
        if (!(day > from))
            return;
        var count = (int)Math.Ceiling((day - from) * CellsPerDay);
        for (var i = 1; i <= count; i++)
        {
            edges.Add(i == count ? day : from + ((day - from) * i / count));
            resolved.Add(true);
            cells.Add(edges.Count - 1);
        }
    }
}
