using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Undercroft.Physics.Solving;

/// <summary>One double.</summary>
internal readonly struct Lane1(double value) : ILane<Lane1>
{
    private readonly double value = value;

    public static int Count => 1;

    public static bool IsSingle => false;

    public static double Shift => LaneExp.Shift;

    public static implicit operator double(Lane1 lane) => lane.value;

    public static implicit operator Lane1(double value) => new(value);

    public static Lane1 Of(double value) => new(value);

    public static Lane1 Load(ReadOnlySpan<double> from) => new(from[0]);

    public static Lane1 At(double[] from, int place) => new(from[place]);

    public void Put(double[] to, int place) => to[place] = value;

    public void Store(Span<double> to) => to[0] = value;

    public static Lane1 Min(Lane1 left, Lane1 right) => new(left.value < right.value ? left.value : right.value);

    public static Lane1 Max(Lane1 left, Lane1 right) => new(left.value > right.value ? left.value : right.value);

    public static Lane1 Sqrt(Lane1 value) => new(Math.Sqrt(value.value));

    public static Lane1 WhereLess(Lane1 left, Lane1 right, Lane1 then, Lane1 otherwise) => left.value < right.value ? then : otherwise;

    public static bool AllLess(Lane1 left, Lane1 right) => left.value < right.value;

    public static Lane1 MulAdd(Lane1 left, Lane1 right, Lane1 more) => new(Math.FusedMultiplyAdd(left.value, right.value, more.value));

    public static Lane1 MulFrom(Lane1 left, Lane1 right, Lane1 from) => new(Math.FusedMultiplyAdd(-left.value, right.value, from.value));

    public static Lane1 PowerOfTwo(Lane1 shifted) =>
        new(BitConverter.Int64BitsToDouble((BitConverter.DoubleToInt64Bits(shifted.value) << 52) + (1023L << 52)));

    public static Lane1 Gather(double[] table, Lane1 shifted) => new(table[(int)BitConverter.DoubleToInt64Bits(shifted.value)]);

    public static Lane1 operator +(Lane1 left, Lane1 right) => new(left.value + right.value);

    public static Lane1 operator -(Lane1 left, Lane1 right) => new(left.value - right.value);

    public static Lane1 operator *(Lane1 left, Lane1 right) => new(left.value * right.value);

    public static Lane1 operator /(Lane1 left, Lane1 right) => new(left.value / right.value);
}

/// <summary>Four doubles in a 256-bit register.</summary>
internal readonly struct Lane4(Vector256<double> value) : ILane<Lane4>
{
    private readonly Vector256<double> value = value;

    public static int Count => 4;

    public static bool IsSingle => false;

    public static double Shift => LaneExp.Shift;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Of(double value) => new(Vector256.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Load(ReadOnlySpan<double> from)
    {
        _ = from[3];
        return new(Vector256.LoadUnsafe(ref MemoryMarshal.GetReference(from)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 At(double[] from, int place)
    {
        _ = from[place + 3];
        return new(Vector256.LoadUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(from), (uint)place)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Put(double[] to, int place)
    {
        _ = to[place + 3];
        value.StoreUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(to), (uint)place));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(Span<double> to)
    {
        _ = to[3];
        value.StoreUnsafe(ref MemoryMarshal.GetReference(to));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Min(Lane4 left, Lane4 right) => WhereLess(left, right, left, right);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Max(Lane4 left, Lane4 right) => WhereLess(right, left, left, right);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Sqrt(Lane4 value) => new(Vector256.Sqrt(value.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 WhereLess(Lane4 left, Lane4 right, Lane4 then, Lane4 otherwise) =>
        new(Vector256.ConditionalSelect(Vector256.LessThan(left.value, right.value), then.value, otherwise.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllLess(Lane4 left, Lane4 right) => Vector256.LessThanAll(left.value, right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 MulAdd(Lane4 left, Lane4 right, Lane4 more) => new(Vector256.FusedMultiplyAdd(left.value, right.value, more.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 MulFrom(Lane4 left, Lane4 right, Lane4 from) => new(Vector256.FusedMultiplyAdd(-left.value, right.value, from.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 PowerOfTwo(Lane4 shifted) =>
        new(((shifted.value.AsInt64() << 52) + Vector256.Create(1023L << 52)).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 Gather(double[] table, Lane4 shifted)
    {
        // Halves first: code that is made ahead of time turns the third and fourth element of a wide vector into a call.
        var (low, high) = (shifted.value.AsInt64().GetLower(), shifted.value.AsInt64().GetUpper());
        return new(Vector256.Create(table[(int)low.ToScalar()], table[(int)low.GetElement(1)], table[(int)high.ToScalar()], table[(int)high.GetElement(1)]));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 operator +(Lane4 left, Lane4 right) => new(left.value + right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 operator -(Lane4 left, Lane4 right) => new(left.value - right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 operator *(Lane4 left, Lane4 right) => new(left.value * right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane4 operator /(Lane4 left, Lane4 right) => new(left.value / right.value);
}

/// <summary>Eight doubles in a 512-bit register.</summary>
internal readonly struct Lane8(Vector512<double> value) : ILane<Lane8>
{
    private readonly Vector512<double> value = value;

    public static int Count => 8;

    public static bool IsSingle => false;

    public static double Shift => LaneExp.Shift;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Of(double value) => new(Vector512.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Load(ReadOnlySpan<double> from)
    {
        _ = from[7];
        return new(Vector512.LoadUnsafe(ref MemoryMarshal.GetReference(from)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 At(double[] from, int place)
    {
        _ = from[place + 7];
        return new(Vector512.LoadUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(from), (uint)place)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Put(double[] to, int place)
    {
        _ = to[place + 7];
        value.StoreUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(to), (uint)place));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(Span<double> to)
    {
        _ = to[7];
        value.StoreUnsafe(ref MemoryMarshal.GetReference(to));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Min(Lane8 left, Lane8 right) => WhereLess(left, right, left, right);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Max(Lane8 left, Lane8 right) => WhereLess(right, left, left, right);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Sqrt(Lane8 value) => new(Vector512.Sqrt(value.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 WhereLess(Lane8 left, Lane8 right, Lane8 then, Lane8 otherwise) =>
        new(Vector512.ConditionalSelect(Vector512.LessThan(left.value, right.value), then.value, otherwise.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllLess(Lane8 left, Lane8 right) => Vector512.LessThanAll(left.value, right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 MulAdd(Lane8 left, Lane8 right, Lane8 more) => new(Vector512.FusedMultiplyAdd(left.value, right.value, more.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 MulFrom(Lane8 left, Lane8 right, Lane8 from) => new(Vector512.FusedMultiplyAdd(-left.value, right.value, from.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 PowerOfTwo(Lane8 shifted) =>
        new(((shifted.value.AsInt64() << 52) + Vector512.Create(1023L << 52)).AsDouble());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 Gather(double[] table, Lane8 shifted)
    {
        var at = shifted.value.AsInt64();
        return new(Vector512.Create(
            table[(int)at[0]], table[(int)at[1]], table[(int)at[2]], table[(int)at[3]], table[(int)at[4]], table[(int)at[5]], table[(int)at[6]], table[(int)at[7]]));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 operator +(Lane8 left, Lane8 right) => new(left.value + right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 operator -(Lane8 left, Lane8 right) => new(left.value - right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 operator *(Lane8 left, Lane8 right) => new(left.value * right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Lane8 operator /(Lane8 left, Lane8 right) => new(left.value / right.value);
}
