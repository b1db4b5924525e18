using System.Runtime.CompilerServices;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>The isotherms of a group of draws, for lanes.</summary>
internal interface ILeafLanes<T>
    where T : struct, ILane<T>
{
    /// <summary>1/(dX/da) of the draws from a place in the group on.</summary>
    T PerSlope(T activity, int at);

    /// <summary>X, kg/kg.</summary>
    T Moisture(T activity, int at);
}

/// <summary>One GAB shape for all draws, each with its own monolayer.</summary>
internal readonly struct GabLanes<T>(double c, double k, double[] monolayers) : ILeafLanes<T>
    where T : struct, ILane<T>
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T PerSlope(T activity, int at)
    {
        GabIsotherm.SlopeOf(activity, T.At(monolayers, at), T.Of(c), T.Of(k), T.Of(1), out var above, out var below);
        return below / above;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Moisture(T activity, int at)
    {
        GabIsotherm.MoistureOf(activity, T.At(monolayers, at), T.Of(c), T.Of(k), T.Of(1), out var above, out var below);
        return above / below;
    }
}

/// <summary>One tabulated curve, shared or one for each draw.</summary>
internal readonly struct TableLanes<T>(double[] slopes, double[] moistures, double[] coefficients, double[] begins) : ILeafLanes<T>
    where T : struct, ILane<T>
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T PerSlope(T activity, int at)
    {
        var dryness = T.Of(1) - activity;
        return dryness * dryness / (T.At(coefficients, at) * LeafTable.SlopeAt(slopes, activity, T.At(begins, at)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Moisture(T activity, int at) =>
        T.At(coefficients, at) * LeafTable.MoistureAt(moistures, activity, T.At(begins, at)) / (T.Of(1) - activity);
}

/// <summary>A mixture of tabulated curves that all draws share, each draw with its own coefficients, curve after curve.</summary>
internal readonly struct MixedLanes<T>(LeafTable[] tables, double[] coefficients, int stride) : ILeafLanes<T>
    where T : struct, ILane<T>
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T PerSlope(T activity, int at)
    {
        var sum = T.Of(0);
        for (var i = 0; i < tables.Length; i++)
            sum += T.At(coefficients, (i * stride) + at) * LeafTable.SlopeAt(tables[i].Slopes, activity, T.Of(0));
        var dryness = T.Of(1) - activity;
        return dryness * dryness / sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T Moisture(T activity, int at)
    {
        var sum = T.Of(0);
        for (var i = 0; i < tables.Length; i++)
            sum += T.At(coefficients, (i * stride) + at) * LeafTable.MoistureAt(tables[i].Moistures, activity, T.Of(0));
        return sum / (T.Of(1) - activity);
    }
}
