using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Undercroft.Physics.Solving;

/// <summary>Sixteen numbers of single precision in a 512-bit register.</summary>
internal readonly struct Single16(Vector512<float> value) : ISingleLane<Single16>
{
    private readonly Vector512<float> value = value;

    public static int Count => 16;

    public static bool IsSingle => true;

    public static double Shift => LaneExp.SingleShift;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 Of(double value) => new(Vector512.Create((float)value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 Of(float value) => new(Vector512.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 Load(ReadOnlySpan<double> from)
    {
        _ = from[15];
        return Narrow(ref MemoryMarshal.GetReference(from));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 At(double[] from, int place)
    {
        _ = from[place + 15];
        return Narrow(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(from), (uint)place));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 At(float[] from, int place)
    {
        _ = from[place + 15];
        return new(Vector512.LoadUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(from), (uint)place)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Put(double[] to, int place) => Store(to.AsSpan(place));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Put(float[] to, int place)
    {
        _ = to[place + 15];
        value.StoreUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(to), (uint)place));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void AddTo(double[] to, int place)
    {
        _ = to[place + 15];
        ref var sums = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(to), (uint)place);
        (Vector512.LoadUnsafe(ref sums) + Vector512.WidenLower(value)).StoreUnsafe(ref sums);
        (Vector512.LoadUnsafe(ref sums, 8) + Vector512.WidenUpper(value)).StoreUnsafe(ref sums, 8);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(Span<double> to)
    {
        _ = to[15];
        ref var first = ref MemoryMarshal.GetReference(to);
        Vector512.WidenLower(value).StoreUnsafe(ref first);
        Vector512.WidenUpper(value).StoreUnsafe(ref first, 8);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 Min(Single16 left, Single16 right) => WhereLess(left, right, left, right);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 Max(Single16 left, Single16 right) => WhereLess(right, left, left, right);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 Sqrt(Single16 value) => new(Vector512.Sqrt(value.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 WhereLess(Single16 left, Single16 right, Single16 then, Single16 otherwise) =>
        new(Vector512.ConditionalSelect(Vector512.LessThan(left.value, right.value), then.value, otherwise.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllLess(Single16 left, Single16 right) => Vector512.LessThanAll(left.value, right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint Less(Single16 left, Single16 right) => (uint)Vector512.LessThan(left.value, right.value).ExtractMostSignificantBits();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 MulAdd(Single16 left, Single16 right, Single16 more) => new(Vector512.FusedMultiplyAdd(left.value, right.value, more.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 MulFrom(Single16 left, Single16 right, Single16 from) => new(Vector512.FusedMultiplyAdd(-left.value, right.value, from.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 PowerOfTwo(Single16 shifted) => new(((shifted.value.AsInt32() << 23) + Vector512.Create(127 << 23)).AsSingle());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 Gather(double[] table, Single16 shifted)
    {
        Span<float> found = stackalloc float[Count];
        for (var i = 0; i < Count; i++)
            found[i] = (float)table[(shifted.value.AsInt32() - Vector512.Create((float)LaneExp.SingleShift).AsInt32())[i]];
        return new(Vector512.Create<float>(found));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 Gather(float[] table, Single16 shifted)
    {
        var place = shifted.value.AsInt32() - Vector512.Create((float)LaneExp.SingleShift).AsInt32();
        var (low, high) = (place.GetLower(), place.GetUpper());
        return new(Vector512.Create(
            Vector256.Create(Four(table, low.GetLower()), Four(table, low.GetUpper())),
            Vector256.Create(Four(table, high.GetLower()), Four(table, high.GetUpper()))));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 Pick(float[] from, int place, Single16 shifted)
    {
        _ = from[place + 15];
        var sixteen = Vector512.LoadUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(from), (uint)place));
        return new(Vector512.ShuffleNative(sixteen, shifted.value.AsInt32() & Vector512.Create(15)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 Exponent(Single16 positive, out Single16 mantissa)
    {
        var bits = positive.value.AsInt32();
        var exponent = (bits - Vector512.Create(LaneLog.HalfRootBits)) >> 23;
        mantissa = new((bits - (exponent << 23)).AsSingle());
        return new(Vector512.ConvertToSingle(exponent));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 operator +(Single16 left, Single16 right) => new(left.value + right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 operator -(Single16 left, Single16 right) => new(left.value - right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 operator *(Single16 left, Single16 right) => new(left.value * right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single16 operator /(Single16 left, Single16 right) => new(left.value / right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Single16 Narrow(ref double first) => new(Vector512.Narrow(Vector512.LoadUnsafe(ref first), Vector512.LoadUnsafe(ref first, 8)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector128<float> Four(float[] table, Vector128<int> place) =>
        Vector128.Create(table[place.ToScalar()], table[place.GetElement(1)], table[place.GetElement(2)], table[place.GetElement(3)]);
}
