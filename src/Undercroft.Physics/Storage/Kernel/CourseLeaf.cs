using Undercroft.Physics.Leaf;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>The isotherms of a course, sorted out once: one GAB shape, one or several curves that all draws share, or a curve for each.</summary>
internal sealed class CourseLeaf
{
    private readonly IReadOnlyList<Isotherm> leaves;
    private readonly double[][] coefficients;
    private readonly LeafUnit[]? units;

    public CourseLeaf(IReadOnlyList<Isotherm> leaves)
    {
        this.leaves = leaves;
        coefficients = new double[leaves.Count][];
        for (var draw = 0; draw < leaves.Count; draw++)
        {
            var parts = LeafUnit.Of(leaves[draw]);
            coefficients[draw] = [.. parts.Select(part => part.Coefficient)];
            if (draw == 0)
                units = [.. parts.Select(part => part.Unit)];
            else if (units is not null && !units.SequenceEqual(parts.Select(part => part.Unit)))
                units = null;
        }
    }

    /// <summary>The isotherm of a draw.</summary>
    public Isotherm this[int draw] => leaves[leaves.Count == 1 ? 0 : draw];

    /// <summary>True where draws differ by how much of one curve they hold, if at all.</summary>
    public bool IsOneShape => units is not null && (units.Length == 1 || leaves.Count == 1);

    /// <summary>How much of that curve a draw holds.</summary>
    public double ScaleOf(int draw) => coefficients[leaves.Count == 1 ? 0 : draw][0];

    /// <summary>Of a group.</summary>
    public GroupLeaf Of(DrawGroup group)
    {
        if (units is null)
            return Each(group);
        if (units is [{ Shape: GabIsotherm gab }])
            return new GroupLeaf.Gab(gab.C, gab.K, Coefficients(group, 0));
        return new GroupLeaf.Sum([.. units.Select(LeafPieces.Of)], [.. Enumerable.Range(0, units.Length).SelectMany(unit => Coefficients(group, unit))], group.Slots);
    }

    private float[] Coefficients(DrawGroup group, int unit) =>
        [.. Enumerable.Range(0, group.Slots).Select(slot => (float)coefficients[coefficients.Length == 1 ? 0 : group.DrawOf(slot)][unit])];

    private GroupLeaf.Table Each(DrawGroup group)
    {
        LeafTable[] tables = [.. group.Draws.Select(draw => LeafTable.Of(new(leaves[draw] with { SorptionHeat = 0 })))];
        return new(
            [.. tables.SelectMany(table => table.Slopes)], [.. tables.SelectMany(table => table.Moistures)],
            [.. Enumerable.Range(0, group.Slots).Select(slot => (float)LeafTable.Intervals * Math.Min(slot, tables.Length - 1))]);
    }
}

/// <summary>The isotherms of a group of draws.</summary>
internal abstract record GroupLeaf
{
    private GroupLeaf()
    {
    }

    /// <summary>One GAB shape.</summary>
    public sealed record Gab(double C, double K, float[] Monolayers) : GroupLeaf;

    /// <summary>A tabulated curve for each draw, end to end.</summary>
    public sealed record Table(float[] Slopes, float[] Moistures, float[] Begins) : GroupLeaf;

    /// <summary>A sum of curves, how much of each being a draw's own.</summary>
    public sealed record Sum(LeafPieces[] Curves, float[] Coefficients, int Stride) : GroupLeaf;
}
