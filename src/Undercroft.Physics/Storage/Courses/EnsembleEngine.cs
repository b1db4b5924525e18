using System.Runtime.Intrinsics;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Kernel;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>The production engine: an ensemble of draws of one package through its course, daily means out.</summary>
/// <remarks>Packages do not touch each other: the same course gives the same numbers bit for bit, however many threads run packages side by side.</remarks>
public static class EnsembleEngine
{
    /// <summary>The longest step, days.</summary>
    public const int LongestStep = 10;

    private const long DrawDaysOfShortWork = 1_000_000_000;

    private static long asked;
    private static readonly int[] FirstSteps = [1, 1, 1, 2, 2, 3, 4, 5, 7];

    /// <summary>Runs a course.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Stays with gaps, days out of order, or values that do not match the number of draws.</exception>
    public static EnsembleCourse Run(Course course)
    {
        ArgumentNullException.ThrowIfNull(course);
        if (Vector512.IsHardwareAccelerated && IsLongWork(course))
            return RunWith<Single16>(course);
        return Vector256.IsHardwareAccelerated ? RunWith<Single8>(course) : RunWith<Single1>(course);
    }

    /// <summary>Runs a course and keeps of each row no more than its bands.</summary>
    /// <param name="course">The package.</param>
    /// <param name="probabilities">Rising, each from 0 to 1.</param>
    /// <param name="withActivity">False to leave the bands of activity empty.</param>
    /// <exception cref="ArgumentOutOfRangeException">As <see cref="Run"/>, or probabilities that do not rise from 0 to 1.</exception>
    public static CourseBands Bands(Course course, IReadOnlyList<double> probabilities, bool withActivity = true)
    {
        ArgumentNullException.ThrowIfNull(course);
        ArgumentNullException.ThrowIfNull(probabilities);
        if (Vector512.IsHardwareAccelerated && IsLongWork(course))
            return BandsWith<Single16>(course, probabilities, withActivity);
        return Vector256.IsHardwareAccelerated ? BandsWith<Single8>(course, probabilities, withActivity) : BandsWith<Single1>(course, probabilities, withActivity);
    }

    /// <summary>Runs a course with lanes of one width: all widths give the same bits.</summary>
    /// <param name="course">The package.</param>
    /// <param name="mayReadOff">False to step the leaf of every draw, whatever they have in common.</param>
    internal static EnsembleCourse RunWith<T>(Course course, bool mayReadOff = true)
        where T : struct, ISingleLane<T>
    {
        CourseChecks.Check(course);
        if (course.Stays.All(QuietRun<T>.Takes))
            return Quiet<T>(course, mayReadOff);
        var parts = CourseParts.Of(course);
        if (parts.Quiet.Length == 0)
            return AsWide<T>(course, parts.Vented);
        EnsembleCourse result = new(course.Draws, course.OutputDays, course.Limits.Count);
        result.Put(Quiet<T>(CourseParts.WithoutGaps(course.At(parts.Quiet)), mayReadOff), parts.Quiet);
        if (parts.Vented.Length > 0)
            result.Put(AsWide<T>(course.At(parts.Vented), [.. Enumerable.Range(0, parts.Vented.Length)]), parts.Vented);
        return result;
    }

    /// <summary>Step by step in lanes of double precision as wide as those of the kernel.</summary>
    private static EnsembleCourse AsWide<T>(Course course, int[] order)
        where T : struct, ISingleLane<T> => T.Count switch
        {
            16 => SideBySide<Lane8>(course, order),
            8 => SideBySide<Lane4>(course, order),
            _ => SideBySide<Lane1>(course, order),
        };

    /// <summary>Rigid packages through which no air flows.</summary>
    private static EnsembleCourse Quiet<T>(Course course, bool mayReadOff)
        where T : struct, ISingleLane<T>
    {
        EnsembleCourse result = new(course.Draws, course.OutputDays, course.Limits.Count);
        QuietRun<T> run = new(course, result, mayReadOff);
        if (!run.Run())
        {
            run = new(course, result, mayReadOff: false);
            run.Run();
        }

        for (var g = 0; g < run.Groups.Count; g++)
            result.Close(run.Groups[g], run.Books[g]);
        return result;
    }

    /// <summary>Runs a course step by step, whatever it is, each draw by itself.</summary>
    internal static EnsembleCourse RunAlone(Course course)
    {
        CourseChecks.Check(course);
        return SideBySide<Lane1>(course, [.. Enumerable.Range(0, course.Draws)]);
    }

    /// <summary>
    /// True once so much was asked of this process that the widest lanes, for which code is made on the spot, win over the narrower ones, whose code stands ready.
    /// All widths give the same bits, so that nobody but a clock can tell.
    /// </summary>
    private static bool IsLongWork(Course course) =>
        Interlocked.Add(ref asked, (long)course.Draws * (course.Stays[^1].ToDay - course.Stays[0].FromDay)) > DrawDaysOfShortWork;

    private static CourseBands BandsWith<T>(Course course, IReadOnlyList<double> probabilities, bool withActivity)
        where T : struct, ISingleLane<T>
    {
        if (!course.Stays.All(QuietRun<T>.Takes))
            return CourseBands.Of(Run(course), probabilities);
        CourseChecks.Check(course);
        CourseBands bands = new(course, probabilities);
        QuietRun<T> run = new(course, new BandTaker<T>(bands, [.. probabilities], withActivity), mayReadOff: true);
        if (!run.Run())
        {
            run = new(course, new BandTaker<T>(bands, [.. probabilities], withActivity), mayReadOff: false);
            run.Run();
        }

        for (var g = 0; g < run.Groups.Count; g++)
            bands.Close(run.Groups[g], run.Books[g]);
        return bands;
    }

    /// <summary>Step by step, as many draws side by side as a lane holds.</summary>
    /// <param name="course">Which.</param>
    /// <param name="order">All its draws: neighbours stand side by side.</param>
    private static EnsembleCourse SideBySide<T>(Course course, int[] order)
        where T : struct, ILane<T>
    {
        EnsembleCourse result = new(course.Draws, course.OutputDays, course.Limits.Count);
        var ordered = course.At(order);
        var heat = HeatOf(ordered);
        var plans = Plans(ordered, heat);
        var shared = course.Leaf.Count == 1 ? CourseRun<T>.TableOf(course.Leaf) : null;
        var kept = new CourseRow[course.OutputDays.Count * T.Count];
        for (var first = 0; first < course.Draws; first += T.Count)
        {
            CourseRun<T> run = new(ordered, plans, heat, shared, first, kept, (row, draw, values) => Write(result, row, order[draw], values));
            run.Run();
            for (var i = 0; i < T.Count && first + i < course.Draws; i++)
            {
                var draw = order[first + i];
                result.LeftRange[draw] = run.LeftRange[i];
                result.LongestDaysOfMould[draw] = run.Watch.LongestSpell[i];
                for (var limit = 0; limit < course.Limits.Count; limit++)
                    result.FirstDay[limit][draw] = run.Watch.FirstDay[limit][i];
            }
        }

        return result;
    }

    private static PerDraw HeatOf(Course course) => course.Leaf.Count == 1
        ? PerDraw.Same(course.Leaf[0].SorptionHeat)
        : PerDraw.Each([.. course.Leaf.Select(each => each.SorptionHeat)]);

    private static List<StayPlan> Plans(Course course, PerDraw heat)
    {
        List<StayPlan> plans = [];
        for (var s = 0; s < course.Stays.Count; s++)
        {
            var stay = course.Stays[s];
            var last = s == course.Stays.Count - 1;
            var outputs = Enumerable.Range(0, course.OutputDays.Count)
                .Where(row => course.OutputDays[row] >= stay.FromDay && (course.OutputDays[row] < stay.ToDay || (last && course.OutputDays[row] == stay.ToDay)))
                .ToList();
            var cells = Cells(stay, [.. outputs.Select(row => course.OutputDays[row])]);
            List<PlannedRow> rows = [];
            foreach (var row in outputs)
            {
                var day = course.OutputDays[row];
                var stored = stay.Place.Periodic || day < stay.Place.Cells;
                rows.Add(new(row, Array.BinarySearch(cells, day), stored ? day : day - 1, stored));
            }

            plans.Add(new(stay, heat, cells, rows));
        }

        return plans;
    }

    /// <summary>Short steps after each beginning, then long ones that never pass an output day.</summary>
    private static int[] Cells(Stay stay, IReadOnlyList<int> outputs)
    {
        List<int> cells = [stay.FromDay];
        var longest = Longest(stay);
        var taken = 0;
        var next = 0;
        while (cells[^1] < stay.ToDay)
        {
            while (next < outputs.Count && outputs[next] <= cells[^1])
                next++;
            var stop = next < outputs.Count ? outputs[next] : stay.ToDay;
            var left = stop - cells[^1];
            var step = Math.Min(longest, taken < FirstSteps.Length ? FirstSteps[taken] : LongestStep);
            if (step < left)
                step = Math.Min(step, (int)Math.Ceiling(left / Math.Ceiling((double)left / step))); // even steps up to the stop
            cells.Add(cells[^1] + Math.Min(step, left));
            taken++;
        }

        return [.. cells];
    }

    private static int Longest(Stay stay) => stay.Headspace is HeadspaceDraws.Rigid && stay.Paths.All(path => path.Median.Viscous == 0) ? LongestStep : stay.Place.Periodic ? 5 : 1;

    private static void Write(EnsembleCourse result, int row, int draw, CourseRow values)
    {
        result.MoistureWetBasis[row][draw] = values.MoistureDryBasis / (1 + values.MoistureDryBasis);
        result.Water[row][draw] = values.MoistureDryBasis * values.DryMass;
        result.DryMass[row][draw] = values.DryMass;
        result.Activity[row][draw] = values.Activity;
        result.Oxygen[row][draw] = values.Oxygen;
        result.CarbonDioxide[row][draw] = values.CarbonDioxide;
        result.Nitrogen[row][draw] = values.Nitrogen;
        result.Total[row][draw] = values.Total;
    }
}
