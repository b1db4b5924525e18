using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>Sorts each row while it is still at hand, from the order of the same season a year before.</summary>
internal sealed class BandTaker(CourseBands bands, double[] probabilities, bool withActivity) : IRowTaker
{
    private const int Year = 365;
    private const int Fields = 5;

    private readonly QuantileTrack?[] tracks = new QuantileTrack?[SeasonPlan.Seasons * Fields];
    private readonly double[] found = new double[probabilities.Length];

    /// <inheritdoc/>
    public void Take(RowBuffer row, IReadOnlyList<DrawGroup> order)
    {
        // All groups but the last are whole, so that the draws stand at the front.
        var first = bands.Days[row.Row] % Year * SeasonPlan.Seasons / Year * Fields;
        Sort(first, row.WetBasis, bands.MoistureWetBasis, row.Row);
        if (withActivity)
            Sort(first + 1, row.Activity, bands.Activity, row.Row);
        if (!order[0].WithGas)
            return;
        Sort(first + 2, row.Oxygen, bands.Oxygen, row.Row);
        Sort(first + 3, row.CarbonDioxide, bands.CarbonDioxide, row.Row);
        Sort(first + 4, row.Total, bands.Total, row.Row);
    }

    private void Sort(int track, double[] values, CourseBand band, int row)
    {
        (tracks[track] ??= new(probabilities, bands.Draws, tracks[(track + tracks.Length - Fields) % tracks.Length])).Of(values, found);
        CourseBands.Put(band, row, found);
    }
}
