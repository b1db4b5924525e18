using System.Runtime.CompilerServices;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>What a span of time makes of three amounts of gas: oxygen and nitrogen each by itself, carbon dioxide fed by the oxygen taken up.</summary>
/// <remarks>What is lost is told, and not what is kept: in single precision a small loss would vanish beside one.</remarks>
internal struct GasMap<T>
    where T : struct, ISingleLane<T>
{
    /// <summary>n ↦ n − lost n + add; carbon dioxide gets <see cref="Fed"/> times the oxygen besides.</summary>
    public T OxygenLost, OxygenAdd, CarbonLost, CarbonAdd, Fed, NitrogenLost, NitrogenAdd;

    /// <summary>Numbers in a map.</summary>
    public const int Width = 7;

    /// <summary>First this, then <paramref name="next"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly GasMap<T> Then(in GasMap<T> next) => new()
    {
        OxygenLost = T.MulFrom(next.OxygenLost, OxygenLost, next.OxygenLost + OxygenLost),
        OxygenAdd = T.MulFrom(next.OxygenLost, OxygenAdd, next.OxygenAdd + OxygenAdd),
        CarbonLost = T.MulFrom(next.CarbonLost, CarbonLost, next.CarbonLost + CarbonLost),
        CarbonAdd = T.MulFrom(next.CarbonLost, CarbonAdd, T.MulAdd(next.Fed, OxygenAdd, next.CarbonAdd + CarbonAdd)),
        Fed = T.MulFrom(next.CarbonLost, Fed, T.MulFrom(next.Fed, OxygenLost, next.Fed + Fed)),
        NitrogenLost = T.MulFrom(next.NitrogenLost, NitrogenLost, next.NitrogenLost + NitrogenLost),
        NitrogenAdd = T.MulFrom(next.NitrogenLost, NitrogenAdd, next.NitrogenAdd + NitrogenAdd),
    };

    /// <summary>First this, then on to pressures.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly GasPressures<T> Then(in GasPressures<T> next) => new()
    {
        OxygenPer = T.MulFrom(next.OxygenPer, OxygenLost, next.OxygenPer),
        OxygenAdd = T.MulAdd(next.OxygenPer, OxygenAdd, next.OxygenAdd),
        CarbonPer = T.MulFrom(next.CarbonPer, CarbonLost, next.CarbonPer),
        CarbonAdd = T.MulAdd(next.CarbonPer, CarbonAdd, T.MulAdd(next.Fed, OxygenAdd, next.CarbonAdd)),
        Fed = T.MulAdd(next.CarbonPer, Fed, T.MulFrom(next.Fed, OxygenLost, next.Fed)),
        NitrogenPer = T.MulFrom(next.NitrogenPer, NitrogenLost, next.NitrogenPer),
        NitrogenAdd = T.MulAdd(next.NitrogenPer, NitrogenAdd, next.NitrogenAdd),
    };

    /// <summary>Applies it to the amounts from a slot on.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void To(float[][] moles, int at, float[][] then)
    {
        var (oxygen, carbon, nitrogen) = (T.At(moles[0], at), T.At(moles[1], at), T.At(moles[2], at));
        (oxygen + T.MulFrom(OxygenLost, oxygen, OxygenAdd)).Put(then[0], at);
        (carbon + T.MulFrom(CarbonLost, carbon, T.MulAdd(Fed, oxygen, CarbonAdd))).Put(then[1], at);
        (nitrogen + T.MulFrom(NitrogenLost, nitrogen, NitrogenAdd)).Put(then[2], at);
    }

    /// <summary>Writes it to rows of <paramref name="slots"/> numbers.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Store(float[] rows, int slots, int at)
    {
        OxygenLost.Put(rows, at);
        OxygenAdd.Put(rows, slots + at);
        CarbonLost.Put(rows, (2 * slots) + at);
        CarbonAdd.Put(rows, (3 * slots) + at);
        Fed.Put(rows, (4 * slots) + at);
        NitrogenLost.Put(rows, (5 * slots) + at);
        NitrogenAdd.Put(rows, (6 * slots) + at);
    }

    /// <summary>Reads it back.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static GasMap<T> Load(float[] rows, int slots, int at) => new()
    {
        OxygenLost = T.At(rows, at),
        OxygenAdd = T.At(rows, slots + at),
        CarbonLost = T.At(rows, (2 * slots) + at),
        CarbonAdd = T.At(rows, (3 * slots) + at),
        Fed = T.At(rows, (4 * slots) + at),
        NitrogenLost = T.At(rows, (5 * slots) + at),
        NitrogenAdd = T.At(rows, (6 * slots) + at),
    };
}

/// <summary>From three amounts of gas to their partial pressures, mean of a day.</summary>
internal struct GasPressures<T>
    where T : struct, ISingleLane<T>
{
    /// <summary>p = per n + add; carbon dioxide gets <see cref="Fed"/> times the oxygen besides.</summary>
    public T OxygenPer, OxygenAdd, CarbonPer, CarbonAdd, Fed, NitrogenPer, NitrogenAdd;

    /// <summary>Tells the pressures of the amounts from a slot on, and with the vapour of the row their total.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void To(float[][] moles, int at, RowBuffer row, int place)
    {
        var amount = T.At(moles[0], at);
        var oxygen = T.MulAdd(OxygenPer, amount, OxygenAdd);
        var carbon = T.MulAdd(CarbonPer, T.At(moles[1], at), T.MulAdd(Fed, amount, CarbonAdd));
        var nitrogen = T.MulAdd(NitrogenPer, T.At(moles[2], at), NitrogenAdd);
        oxygen.Put(row.Oxygen, place + at);
        carbon.Put(row.CarbonDioxide, place + at);
        nitrogen.Put(row.Nitrogen, place + at);
        (oxygen + carbon + nitrogen + T.At(row.Vapour, place + at)).Put(row.Total, place + at);
    }

    /// <summary>Writes it to rows of <paramref name="slots"/> numbers.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly void Store(float[] rows, int slots, int at)
    {
        OxygenPer.Put(rows, at);
        OxygenAdd.Put(rows, slots + at);
        CarbonPer.Put(rows, (2 * slots) + at);
        CarbonAdd.Put(rows, (3 * slots) + at);
        Fed.Put(rows, (4 * slots) + at);
        NitrogenPer.Put(rows, (5 * slots) + at);
        NitrogenAdd.Put(rows, (6 * slots) + at);
    }

    /// <summary>Reads it back.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static GasPressures<T> Load(float[] rows, int slots, int at) => new()
    {
        OxygenPer = T.At(rows, at),
        OxygenAdd = T.At(rows, slots + at),
        CarbonPer = T.At(rows, (2 * slots) + at),
        CarbonAdd = T.At(rows, (3 * slots) + at),
        Fed = T.At(rows, (4 * slots) + at),
        NitrogenPer = T.At(rows, (5 * slots) + at),
        NitrogenAdd = T.At(rows, (6 * slots) + at),
    };
}
