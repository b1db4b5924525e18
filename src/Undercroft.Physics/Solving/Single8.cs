using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Undercroft.Physics.Solving;

/// <summary>Eight numbers of single precision in a 256-bit register.</summary>
internal readonly struct Single8(Vector256<float> value) : ISingleLane<Single8>
{
    private readonly Vector256<float> value = value;

    public static int Count => 8;

    public static bool IsSingle => true;

    public static double Shift => LaneExp.SingleShift;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 Of(double value) => new(Vector256.Create((float)value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 Of(float value) => new(Vector256.Create(value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 Load(ReadOnlySpan<double> from)
    {
        _ = from[7];
        return Narrow(ref MemoryMarshal.GetReference(from));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 At(double[] from, int place)
    {
        _ = from[place + 7];
        return Narrow(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(from), (uint)place));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 At(float[] from, int place)
    {
        _ = from[place + 7];
        return new(Vector256.LoadUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(from), (uint)place)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Put(double[] to, int place) => Store(to.AsSpan(place));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Put(float[] to, int place)
    {
        _ = to[place + 7];
        value.StoreUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(to), (uint)place));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void AddTo(double[] to, int place)
    {
        _ = to[place + 7];
        ref var sums = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(to), (uint)place);
        (Vector256.LoadUnsafe(ref sums) + Vector256.WidenLower(value)).StoreUnsafe(ref sums);
        (Vector256.LoadUnsafe(ref sums, 4) + Vector256.WidenUpper(value)).StoreUnsafe(ref sums, 4);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Store(Span<double> to)
    {
        _ = to[7];
        ref var first = ref MemoryMarshal.GetReference(to);
        Vector256.WidenLower(value).StoreUnsafe(ref first);
        Vector256.WidenUpper(value).StoreUnsafe(ref first, 4);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 Min(Single8 left, Single8 right) => WhereLess(left, right, left, right);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 Max(Single8 left, Single8 right) => WhereLess(right, left, left, right);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 Sqrt(Single8 value) => new(Vector256.Sqrt(value.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 WhereLess(Single8 left, Single8 right, Single8 then, Single8 otherwise) =>
        new(Vector256.ConditionalSelect(Vector256.LessThan(left.value, right.value), then.value, otherwise.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool AllLess(Single8 left, Single8 right) => Vector256.LessThanAll(left.value, right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static uint Less(Single8 left, Single8 right) => (uint)Vector256.LessThan(left.value, right.value).ExtractMostSignificantBits();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 MulAdd(Single8 left, Single8 right, Single8 more) => new(Vector256.FusedMultiplyAdd(left.value, right.value, more.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 MulFrom(Single8 left, Single8 right, Single8 from) => new(Vector256.FusedMultiplyAdd(-left.value, right.value, from.value));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 PowerOfTwo(Single8 shifted) => new(((shifted.value.AsInt32() << 23) + Vector256.Create(127 << 23)).AsSingle());

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 Gather(double[] table, Single8 shifted)
    {
        Span<float> found = stackalloc float[Count];
        for (var i = 0; i < Count; i++)
            found[i] = (float)table[(shifted.value.AsInt32() - Vector256.Create((float)LaneExp.SingleShift).AsInt32())[i]];
        return new(Vector256.Create<float>(found));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 Gather(float[] table, Single8 shifted)
    {
        // Halves first: code that is made ahead of time turns an element further up a wide vector into a call.
        var place = shifted.value.AsInt32() - Vector256.Create((float)LaneExp.SingleShift).AsInt32();
        var (low, high) = (place.GetLower(), place.GetUpper());
        return new(Vector256.Create(
            table[low.ToScalar()], table[low.GetElement(1)], table[low.GetElement(2)], table[low.GetElement(3)],
            table[high.ToScalar()], table[high.GetElement(1)], table[high.GetElement(2)], table[high.GetElement(3)]));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 Pick(float[] from, int place, Single8 shifted)
    {
        _ = from[place + 15];
        ref var first = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(from), (uint)place);
        var (low, high, which) = (Vector256.LoadUnsafe(ref first), Vector256.LoadUnsafe(ref first, 8), shifted.value.AsInt32());
        var isLow = Vector256.Equals(which & Vector256.Create(8), Vector256<int>.Zero).AsSingle();
        which &= Vector256.Create(7);
        return Avx2.IsSupported // named, so that it can be compiled ahead of time
            ? new(Vector256.ConditionalSelect(isLow, Avx2.PermuteVar8x32(low, which), Avx2.PermuteVar8x32(high, which)))
            : new(Vector256.ConditionalSelect(isLow, Vector256.Shuffle(low, which), Vector256.Shuffle(high, which)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 Exponent(Single8 positive, out Single8 mantissa)
    {
        var bits = positive.value.AsInt32();
        var exponent = (bits - Vector256.Create(LaneLog.HalfRootBits)) >> 23;
        mantissa = new((bits - (exponent << 23)).AsSingle());
        return new(Vector256.ConvertToSingle(exponent));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 operator +(Single8 left, Single8 right) => new(left.value + right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 operator -(Single8 left, Single8 right) => new(left.value - right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 operator *(Single8 left, Single8 right) => new(left.value * right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Single8 operator /(Single8 left, Single8 right) => new(left.value / right.value);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Single8 Narrow(ref double first) => new(Vector256.Narrow(Vector256.LoadUnsafe(ref first), Vector256.LoadUnsafe(ref first, 4)));
}
