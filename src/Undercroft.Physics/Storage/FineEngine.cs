using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage;

/// <summary>A package followed closely: what faster engines are judged by.</summary>
/// <param name="Status">How the integration ended; anything but <see cref="SolverStatus.Running"/> means the rows stop early.</param>
/// <param name="Rows">At the asked days that were reached.</param>
/// <param name="WaterLost">Water of the leaf at the start minus at the end.</param>
/// <param name="WaterThroughPaths">The same integrated apart, path by path, over the dense output; null where it was not asked for.</param>
/// <param name="Steps">Taken and rejected.</param>
public sealed record FineCourse(
    SolverStatus Status, IReadOnlyList<StorageRow> Rows, Mass WaterLost, IReadOnlyList<Mass>? WaterThroughPaths, (int Taken, int Rejected) Steps);

/// <summary>The reference engine: the storage model by an error-controlled stiff integrator, the day's swing resolved.</summary>
public static class FineEngine
{
    /// <summary>Relative error allowed per step where nothing else is asked.</summary>
    public const double UsualTolerance = 1e-6;

    private static readonly double[] Nodes = [-0.7745966692414834, 0, 0.7745966692414834];
    private static readonly double[] Weights = [5 / 18.0, 8 / 18.0, 5 / 18.0];

    /// <summary>Runs a package through its place.</summary>
    /// <param name="model">The package.</param>
    /// <param name="start">At day <paramref name="from"/>.</param>
    /// <param name="climate">The place.</param>
    /// <param name="days">Days to report, rising, after <paramref name="from"/>.</param>
    /// <param name="from">First day.</param>
    /// <param name="tolerance">Relative error per step.</param>
    /// <param name="followPaths">Whether to integrate the flow through each path too.</param>
    /// <exception cref="ArgumentOutOfRangeException">An impossible package, or days that do not rise.</exception>
    public static FineCourse Run(
        PackageModel model,
        PackageState start,
        IPlaceClimate climate,
        IReadOnlyList<double> days,
        double from = 0,
        double tolerance = UsualTolerance,
        bool followPaths = false)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(climate);
        ArgumentNullException.ThrowIfNull(days);
        var exchange = new Exchange(model, climate);
        var first = climate.At(from);
        start = start.Settled(model, first);
        var moles = Math.Max(start.GasMoles, first.Pascals * Smallest(model) / (PhysicalConstants.GasConstant * first.Kelvin));
        SolverTolerance close = new(
            tolerance, [tolerance * 1e-2 * model.DryMass.Kilograms, tolerance * 1e-2 * moles, tolerance * 1e-2 * moles, tolerance * 1e-2 * moles]);
        Rodas run = new(
            exchange, from, [start.Water.Kilograms, start.OxygenMoles, start.CarbonDioxideMoles, start.NitrogenMoles], close, 1e-4);
        List<StorageRow> rows = new(days.Count);
        var through = followPaths ? new double[model.Paths.Count] : null;
        var flow = new double[model.Paths.Count];
        var between = new double[4];
        var status = SolverStatus.Running;
        foreach (var day in days)
        {
            if (!(day >= run.Time))
                throw new ArgumentOutOfRangeException(nameof(days), day, "Days to report rise from the first day on.");
            while (run.Time < day && status == SolverStatus.Running)
            {
                status = run.Advance(day);
                if (status == SolverStatus.Running && through is not null)
                    AddFlow(run, exchange, between, flow, through);
            }

            if (status != SolverStatus.Running)
                break;
            rows.Add(exchange.RowAt(day, run.State));
        }

        return new(
            status, rows, new(start.Water.Kilograms - run.State[0]), through?.Select(each => new Mass(each)).ToList(), run.Steps);
    }

    private static double Smallest(PackageModel model) => model.Headspace switch
    {
        Headspace.Rigid rigid => rigid.Volume.CubicMetres,
        Headspace.Flexible flexible => flexible.Minimum.CubicMetres,
        _ => throw new InvalidOperationException($"No headspace {model.Headspace}."),
    };

    /// <summary>Gauss's three points over the last step.</summary>
    private static void AddFlow(Rodas run, Exchange exchange, double[] between, double[] flow, double[] through)
    {
        var h = run.Time - run.TimeBefore;
        for (var k = 0; k < Nodes.Length; k++)
        {
            var time = run.TimeBefore + (h * 0.5 * (1 + Nodes[k]));
            run.At(time, between);
            exchange.WaterThroughPaths(time, between, flow);
            for (var i = 0; i < through.Length; i++)
                through[i] += h * Weights[k] * flow[i];
        }
    }
}
