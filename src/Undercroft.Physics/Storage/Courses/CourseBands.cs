using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Kernel;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>Quantiles of one quantity: by probability, then by output day.</summary>
/// <param name="Quantiles">Not a number where no draw is in range.</param>
public sealed record CourseBand(double[][] Quantiles);

/// <summary>What became of a package in an ensemble, told by its bands only: no draw outlives the day for which it is sorted.</summary>
public sealed class CourseBands
{
    private readonly double[] probabilities;
    private readonly double[] found;

    internal CourseBands(Course course, IReadOnlyList<double> probabilities)
        : this(course.Draws, course.OutputDays, course.Limits.Count, probabilities)
    {
    }

    private CourseBands(int draws, IReadOnlyList<int> days, int limits, IReadOnlyList<double> probabilities)
    {
        (Draws, Days, this.probabilities, found) = (draws, days, [.. probabilities], new double[probabilities.Count]);
        CourseBand Field() => new([.. probabilities.Select(_ => new double[days.Count])]);
        (MoistureWetBasis, Activity, Oxygen, CarbonDioxide, Total) = (Field(), Field(), Field(), Field(), Field());
        FirstDay = [.. Enumerable.Range(0, limits).Select(_ => new double[draws])];
        LongestDaysOfMould = new double[draws];
    }

    /// <summary>How many draws.</summary>
    public int Draws { get; }

    /// <summary>Output days.</summary>
    public IReadOnlyList<int> Days { get; }

    /// <summary>Fraction.</summary>
    public CourseBand MoistureWetBasis { get; }

    /// <summary>At the mean temperature of the day.</summary>
    public CourseBand Activity { get; }

    /// <summary>Pa.</summary>
    public CourseBand Oxygen { get; }

    /// <summary>Pa.</summary>
    public CourseBand CarbonDioxide { get; }

    /// <summary>Pa, absolute.</summary>
    public CourseBand Total { get; }

    /// <summary>For each limit and draw the first day beyond it, NaN where it is never passed.</summary>
    public double[][] FirstDay { get; }

    /// <summary>For each draw, days on end above <see cref="Course.MouldActivity"/>.</summary>
    public double[] LongestDaysOfMould { get; }

    /// <summary>How many draws left the range in which the model holds.</summary>
    public int LeftRangeCount { get; private set; }

    internal static CourseBands Of(EnsembleCourse course, IReadOnlyList<double> probabilities)
    {
        CourseBands bands = new(course.Draws, course.Days, course.FirstDay.Length, probabilities) { LeftRangeCount = course.LeftRangeCount };
        for (var row = 0; row < course.Days.Count; row++)
        {
            foreach (var (from, to) in new[]
            {
                (course.MoistureWetBasis, bands.MoistureWetBasis), (course.Activity, bands.Activity), (course.Oxygen, bands.Oxygen),
                (course.CarbonDioxide, bands.CarbonDioxide), (course.Total, bands.Total),
            })
            {
                bands.Sort([.. from[row]], to, row);
            }
        }

        course.FirstDay.CopyTo(bands.FirstDay, 0);
        course.LongestDaysOfMould.CopyTo(bands.LongestDaysOfMould, 0);
        return bands;
    }

    internal void Close(DrawGroup group, LimitBook book)
    {
        for (var i = 0; i < group.Draws.Length; i++)
        {
            var draw = group.Draws[i];
            LeftRangeCount += double.IsFinite(group.Activity[i] + group.Moles[0][i] + group.Moles[1][i] + group.Moles[2][i]) ? 0 : 1;
            LongestDaysOfMould[draw] = book.LongestSpell[i];
            for (var limit = 0; limit < FirstDay.Length; limit++)
                FirstDay[limit][draw] = book.FirstDay[limit][i];
        }
    }

    internal static void Put(CourseBand band, int row, ReadOnlySpan<double> quantiles)
    {
        for (var p = 0; p < quantiles.Length; p++)
            band.Quantiles[p][row] = quantiles[p];
    }

    private void Sort(Span<double> each, CourseBand band, int row)
    {
        Quantile.Of(each, probabilities, found);
        Put(band, row, found);
    }
}
