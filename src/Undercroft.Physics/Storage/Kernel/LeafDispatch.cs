using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>From the isotherms of a group to the code made for their kind.</summary>
internal static class LeafDispatch<T>
    where T : struct, ISingleLane<T>
{
    public static void Begin(DrawGroup group)
    {
        switch (group.Leaf)
        {
            case GroupLeaf.Gab gab:
                WaterSteps<T, GabLanes<T>>.Begin(group, Of(gab));
                break;
            case GroupLeaf.Table table:
                WaterSteps<T, TableLanes<T>>.Begin(group, Of(table));
                break;
            case GroupLeaf.Sum sum:
                WaterSteps<T, SumLanes<T>>.Begin(group, Of(sum));
                break;
            default:
                throw new InvalidOperationException($"No lanes for {group.Leaf}.");
        }
    }

    public static bool Advance(DrawGroup group, StayWeights weights, ReadOnlySpan<float> sums, double change, LimitBook? book) => group.Leaf switch
    {
        GroupLeaf.Gab gab => WaterSteps<T, GabLanes<T>>.Advance(group, Of(gab), weights, sums, change, book),
        GroupLeaf.Table table => WaterSteps<T, TableLanes<T>>.Advance(group, Of(table), weights, sums, change, book),
        GroupLeaf.Sum sum => WaterSteps<T, SumLanes<T>>.Advance(group, Of(sum), weights, sums, change, book),
        _ => throw new InvalidOperationException($"No lanes for {group.Leaf}."),
    };

    public static void Tell(DrawGroup group, StayWeights weights, ReadOnlySpan<float> day, bool ahead, RowBuffer row, int place)
    {
        switch (group.Leaf)
        {
            case GroupLeaf.Gab gab:
                WaterSteps<T, GabLanes<T>>.Tell(group, Of(gab), weights, day, ahead, row, place);
                break;
            case GroupLeaf.Table table:
                WaterSteps<T, TableLanes<T>>.Tell(group, Of(table), weights, day, ahead, row, place);
                break;
            case GroupLeaf.Sum sum:
                WaterSteps<T, SumLanes<T>>.Tell(group, Of(sum), weights, day, ahead, row, place);
                break;
            default:
                throw new InvalidOperationException($"No lanes for {group.Leaf}.");
        }
    }

    public static void Complete(DrawGroup group, double vapour, RowBuffer row, int place)
    {
        switch (group.Leaf)
        {
            case GroupLeaf.Gab gab:
                WaterSteps<T, GabLanes<T>>.Complete(group, Of(gab), vapour, row, place);
                break;
            case GroupLeaf.Table table:
                WaterSteps<T, TableLanes<T>>.Complete(group, Of(table), vapour, row, place);
                break;
            case GroupLeaf.Sum sum:
                WaterSteps<T, SumLanes<T>>.Complete(group, Of(sum), vapour, row, place);
                break;
            default:
                throw new InvalidOperationException($"No lanes for {group.Leaf}.");
        }
    }

    private static GabLanes<T> Of(GroupLeaf.Gab gab) => new(gab.C, gab.K, gab.Monolayers);

    private static TableLanes<T> Of(GroupLeaf.Table table) => new(table.Slopes, table.Moistures, table.Begins);

    private static SumLanes<T> Of(GroupLeaf.Sum sum) => new(sum.Curves, sum.Coefficients, sum.Stride);
}
