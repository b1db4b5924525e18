using System.Runtime.CompilerServices;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>The isotherms of a group of draws, for lanes.</summary>
internal interface ILeafLanes<T>
    where T : struct, ISingleLane<T>
{
    /// <summary>1/(dX/da) of the draws from a place in the group on.</summary>
    T PerSlope(T activity, int at);

    /// <summary>X, kg/kg, as what stands above and below the line of a fraction.</summary>
    void Moisture(T activity, int at, out T above, out T below);
}

/// <summary>One GAB shape for all draws, each with its own monolayer.</summary>
internal readonly struct GabLanes<T>(double c, double k, float[] monolayers) : ILeafLanes<T>
    where T : struct, ISingleLane<T>
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T PerSlope(T activity, int at)
    {
        GabIsotherm.SlopeOf(activity, T.At(monolayers, at), T.Of(c), T.Of(k), T.Of(1f), out var above, out var below);
        return below / above;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Moisture(T activity, int at, out T above, out T below) =>
        GabIsotherm.MoistureOf(activity, T.At(monolayers, at), T.Of(c), T.Of(k), T.Of(1f), out above, out below);
}

/// <summary>A tabulated curve for each draw.</summary>
internal readonly struct TableLanes<T>(float[] slopes, float[] moistures, float[] begins) : ILeafLanes<T>
    where T : struct, ISingleLane<T>
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T PerSlope(T activity, int at)
    {
        var dryness = T.Of(1f) - activity;
        return dryness * dryness / LeafTable.SlopeAt(slopes, activity, T.At(begins, at));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Moisture(T activity, int at, out T above, out T below)
    {
        above = LeafTable.MoistureAt(moistures, activity, T.At(begins, at));
        below = T.Of(1f) - activity;
    }
}

/// <summary>Curves that all draws share, each draw with its own coefficients, curve after curve.</summary>
internal readonly struct SumLanes<T>(LeafPieces[] curves, float[] coefficients, int stride) : ILeafLanes<T>
    where T : struct, ISingleLane<T>
{
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T PerSlope(T activity, int at)
    {
        var (sum, dryness) = (T.Of(0f), T.Of(1f) - activity);
        for (var i = 0; i < curves.Length; i++)
            sum = T.MulAdd(T.At(coefficients, (i * stride) + at), curves[i].SlopeAt(activity, dryness), sum);
        return dryness * dryness / sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Moisture(T activity, int at, out T above, out T below)
    {
        (above, below) = (T.Of(0f), T.Of(1f) - activity);
        for (var i = 0; i < curves.Length; i++)
            above = T.MulAdd(T.At(coefficients, (i * stride) + at), curves[i].MoistureAt(activity, below), above);
    }
}
