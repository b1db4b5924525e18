using System.Runtime.CompilerServices;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>What a span of time makes of three amounts of gas: oxygen and nitrogen each by itself, carbon dioxide fed by the oxygen taken up.</summary>
internal struct GasMap<T>
    where T : struct, ILane<T>
{
    /// <summary>n ↦ keep n + add; carbon dioxide gets <see cref="Fed"/> times the oxygen besides.</summary>
    public T OxygenKeep, OxygenAdd, CarbonKeep, CarbonAdd, Fed, NitrogenKeep, NitrogenAdd;

    /// <summary>Numbers in a map.</summary>
    public const int Width = 7;

    /// <summary>The map that changes nothing.</summary>
    public static GasMap<T> Nothing => new() { OxygenKeep = T.Of(1), CarbonKeep = T.Of(1), NitrogenKeep = T.Of(1), OxygenAdd = T.Of(0), CarbonAdd = T.Of(0), Fed = T.Of(0), NitrogenAdd = T.Of(0) };

    /// <summary>First this, then <paramref name="next"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly GasMap<T> Then(in GasMap<T> next) => new()
    {
        OxygenKeep = next.OxygenKeep * OxygenKeep,
        OxygenAdd = T.MulAdd(next.OxygenKeep, OxygenAdd, next.OxygenAdd),
        CarbonKeep = next.CarbonKeep * CarbonKeep,
        CarbonAdd = T.MulAdd(next.CarbonKeep, CarbonAdd, T.MulAdd(next.Fed, OxygenAdd, next.CarbonAdd)),
        Fed = T.MulAdd(next.CarbonKeep, Fed, next.Fed * OxygenKeep),
        NitrogenKeep = next.NitrogenKeep * NitrogenKeep,
        NitrogenAdd = T.MulAdd(next.NitrogenKeep, NitrogenAdd, next.NitrogenAdd),
    };

    /// <summary>Applies it to the amounts from a slot on.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void To(double[][] moles, int at, double[] oxygen, double[] carbonDioxide, double[] nitrogen, int to)
    {
        var fed = T.At(moles[0], at);
        T.MulAdd(CarbonKeep, T.At(moles[1], at), T.MulAdd(Fed, fed, CarbonAdd)).Put(carbonDioxide, to);
        T.MulAdd(OxygenKeep, fed, OxygenAdd).Put(oxygen, to);
        T.MulAdd(NitrogenKeep, T.At(moles[2], at), NitrogenAdd).Put(nitrogen, to);
    }

    /// <summary>Writes it to rows of <paramref name="slots"/> doubles.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Store(double[] rows, int slots, int at)
    {
        OxygenKeep.Put(rows, at);
        OxygenAdd.Put(rows, (slots + at));
        CarbonKeep.Put(rows, ((2 * slots) + at));
        CarbonAdd.Put(rows, ((3 * slots) + at));
        Fed.Put(rows, ((4 * slots) + at));
        NitrogenKeep.Put(rows, ((5 * slots) + at));
        NitrogenAdd.Put(rows, ((6 * slots) + at));
    }

    /// <summary>Reads it back.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static GasMap<T> Load(double[] rows, int slots, int at) => new()
    {
        OxygenKeep = T.At(rows, at),
        OxygenAdd = T.At(rows, (slots + at)),
        CarbonKeep = T.At(rows, ((2 * slots) + at)),
        CarbonAdd = T.At(rows, ((3 * slots) + at)),
        Fed = T.At(rows, ((4 * slots) + at)),
        NitrogenKeep = T.At(rows, ((5 * slots) + at)),
        NitrogenAdd = T.At(rows, ((6 * slots) + at)),
    };
}
