using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>Sorts each row while it is still at hand, from the order of the same season a year before.</summary>
internal sealed class BandTaker<T>(CourseBands bands, double[] probabilities, bool withActivity) : IRowTaker
    where T : struct, ISingleLane<T>
{
    private const int Year = 365;
    private const int Fields = 5;

    private readonly QuantileTrack?[] tracks = new QuantileTrack?[SeasonPlan.Seasons * Fields];
    private QuantileTrack? beside;
    private readonly double[] found = new double[probabilities.Length];
    private readonly Dictionary<int, int> lastOf = [];

    /// <inheritdoc/>
    public void Take(RowBuffer row, IReadOnlyList<DrawGroup> order)
    {
        // All groups but the last are whole, so that the draws stand at the front.
        var first = bands.Days[row.Row] % Year * SeasonPlan.Seasons / Year * Fields;
        var known = lastOf.TryGetValue(row.Date, out var before);
        if (row.SameLeaf && known)
        {
            Repeat(bands.MoistureWetBasis, row.Row, before);
            Repeat(bands.Activity, row.Row, before);
        }
        else
        {
            Sort(first, row.WetBasis, bands.MoistureWetBasis, row.Row);
            if (withActivity)
                Sort(first + 1, row.Activity, bands.Activity, row.Row);
        }

        lastOf[row.Date] = row.Row;
        if (!order[0].WithGas)
            return;
        if (row.SameGas && known)
        {
            Repeat(bands.Oxygen, row.Row, before);
            Repeat(bands.CarbonDioxide, row.Row, before);
        }
        else
        {
            Sort(first + 2, row.Oxygen, bands.Oxygen, row.Row);
            Sort(first + 3, row.CarbonDioxide, bands.CarbonDioxide, row.Row);
        }

        if (row.SameLeaf && row.SameGas && known)
            Repeat(bands.Total, row.Row, before);
        else
            Sort(first + 4, row.Total, bands.Total, row.Row);
    }

    /// <inheritdoc/>
    public void Repeat(int row, int before)
    {
        foreach (var band in new[] { bands.MoistureWetBasis, bands.Activity, bands.Oxygen, bands.CarbonDioxide, bands.Total })
            Repeat(band, row, before);
    }

    private static void Repeat(CourseBand band, int row, int before)
    {
        foreach (var quantile in band.Quantiles)
            quantile[row] = quantile[before];
    }

    private void Sort(int track, float[] values, CourseBand band, int row)
    {
        (tracks[track] ??= new(probabilities, bands.Draws, tracks[(track + tracks.Length - Fields) % tracks.Length], beside)).Of<T>(values, found);
        beside ??= tracks[track];
        CourseBands.Put(band, row, found);
    }
}
