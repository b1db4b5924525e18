using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage;

namespace Undercroft.Solving;

/// <summary>Which integrator answers.</summary>
public enum SolvingEngine
{
    /// <summary>The kernel behind every forecast.</summary>
    Fast,

    /// <summary>The error-controlled reference.</summary>
    Fine,
}

/// <summary>One output day of a solved case, names as in <c>--json</c>.</summary>
public sealed record SolvedRow(double Day, double MoistureDryBasis, double WaterActivity, double O2Pa, double Co2Pa, double N2Pa, double TotalPa);

/// <summary>The answer to one case.</summary>
public sealed record SolvedCase(string Name, IReadOnlyList<SolvedRow> Rows);

/// <summary>Solves a model case: the storage model with bare numbers, for scripts and checks.</summary>
public static class SolveCase
{
    /// <summary>Instantaneous rows at the case's days.</summary>
    /// <exception cref="Refusal">The leaf leaves the range of its isotherm, or the integrator cannot follow.</exception>
    public static SolvedCase Run(ModelCase asked, SolvingEngine engine)
    {
        ArgumentNullException.ThrowIfNull(asked);
        var rows = engine switch
        {
            SolvingEngine.Fast => Fast(asked),
            SolvingEngine.Fine => Fine(asked),
            _ => throw new InvalidOperationException($"No engine {engine}."),
        };
        return new(asked.Name, [.. rows.Select(row => new SolvedRow(
            row.Day, row.Moisture.DryBasis, row.Activity.Fraction, row.Oxygen.Pascals, row.CarbonDioxide.Pascals, row.Nitrogen.Pascals, row.Total.Pascals))]);
    }

    private static IReadOnlyList<StorageRow> Fine(ModelCase asked)
    {
        var course = FineEngine.Run(asked.Model, asked.Start, asked.Climate, asked.Days);
        return course.Status == SolverStatus.Running ? course.Rows : throw Lost(asked, course.Rows.Count);
    }

    private static IReadOnlyList<StorageRow> Fast(ModelCase asked)
    {
        var rows = FastEngine.Run(asked.Model, asked.Start, asked.Climate, asked.Days);
        var lost = rows.TakeWhile(row => double.IsFinite(row.Total.Pascals)).Count();
        return lost == rows.Count ? rows : throw Lost(asked, lost);
    }

    private static Refusal Lost(ModelCase asked, int rows) => new(
        $"{asked.Name} is not solved: between day {Day(rows == 0 ? 0 : asked.Days[rows - 1])} and day {Day(asked.Days[rows])} the leaf leaves the range " +
        "of its isotherm or the course cannot be followed. Look at humidities near 1, conductances and constants of the isotherm.");

    private static string Day(double day) => day.ToString("0.##", CultureInfo.InvariantCulture);
}
