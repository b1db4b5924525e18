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
        OxygenAdd = (next.OxygenKeep * OxygenAdd) + next.OxygenAdd,
        CarbonKeep = next.CarbonKeep * CarbonKeep,
        CarbonAdd = (next.CarbonKeep * CarbonAdd) + (next.Fed * OxygenAdd) + next.CarbonAdd,
        Fed = (next.CarbonKeep * Fed) + (next.Fed * OxygenKeep),
        NitrogenKeep = next.NitrogenKeep * NitrogenKeep,
        NitrogenAdd = (next.NitrogenKeep * NitrogenAdd) + next.NitrogenAdd,
    };

    /// <summary>Applies it to the amounts from a slot on.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void To(double[][] moles, int at, Span<double> oxygen, Span<double> carbonDioxide, Span<double> nitrogen)
    {
        var fed = T.Load(moles[0].AsSpan(at));
        ((CarbonKeep * T.Load(moles[1].AsSpan(at))) + (Fed * fed) + CarbonAdd).Store(carbonDioxide);
        ((OxygenKeep * fed) + OxygenAdd).Store(oxygen);
        ((NitrogenKeep * T.Load(moles[2].AsSpan(at))) + NitrogenAdd).Store(nitrogen);
    }

    /// <summary>Writes it to rows of <paramref name="slots"/> doubles.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Store(Span<double> rows, int slots, int at)
    {
        OxygenKeep.Store(rows[at..]);
        OxygenAdd.Store(rows[(slots + at)..]);
        CarbonKeep.Store(rows[((2 * slots) + at)..]);
        CarbonAdd.Store(rows[((3 * slots) + at)..]);
        Fed.Store(rows[((4 * slots) + at)..]);
        NitrogenKeep.Store(rows[((5 * slots) + at)..]);
        NitrogenAdd.Store(rows[((6 * slots) + at)..]);
    }

    /// <summary>Reads it back.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static GasMap<T> Load(ReadOnlySpan<double> rows, int slots, int at) => new()
    {
        OxygenKeep = T.Load(rows[at..]),
        OxygenAdd = T.Load(rows[(slots + at)..]),
        CarbonKeep = T.Load(rows[((2 * slots) + at)..]),
        CarbonAdd = T.Load(rows[((3 * slots) + at)..]),
        Fed = T.Load(rows[((4 * slots) + at)..]),
        NitrogenKeep = T.Load(rows[((5 * slots) + at)..]),
        NitrogenAdd = T.Load(rows[((6 * slots) + at)..]),
    };
}
