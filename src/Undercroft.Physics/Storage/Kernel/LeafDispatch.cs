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
            case GroupLeaf.Mixed mixed:
                WaterSteps<T, MixedLanes<T>>.Begin(group, Of(mixed));
                break;
            default:
                throw new InvalidOperationException($"No lanes for {group.Leaf}.");
        }
    }

    public static bool Advance(DrawGroup group, StayWeights weights, ReadOnlySpan<float> sums, double change, LimitBook? book) => group.Leaf switch
    {
        GroupLeaf.Gab gab => WaterSteps<T, GabLanes<T>>.Advance(group, Of(gab), weights, sums, change, book),
        GroupLeaf.Table table => WaterSteps<T, TableLanes<T>>.Advance(group, Of(table), weights, sums, change, book),
        GroupLeaf.Mixed mixed => WaterSteps<T, MixedLanes<T>>.Advance(group, Of(mixed), weights, sums, change, book),
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
            case GroupLeaf.Mixed mixed:
                WaterSteps<T, MixedLanes<T>>.Tell(group, Of(mixed), weights, day, ahead, row, place);
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
            case GroupLeaf.Mixed mixed:
                WaterSteps<T, MixedLanes<T>>.Complete(group, Of(mixed), vapour, row, place);
                break;
            default:
                throw new InvalidOperationException($"No lanes for {group.Leaf}.");
        }
    }

    private static GabLanes<T> Of(GroupLeaf.Gab gab) => new(gab.C, gab.K, gab.Monolayers);

    private static TableLanes<T> Of(GroupLeaf.Table table) => new(table.Slopes, table.Moistures, table.Coefficients, table.Begins);

    private static MixedLanes<T> Of(GroupLeaf.Mixed mixed) => new(mixed.Tables, mixed.Coefficients, mixed.Stride);
}
