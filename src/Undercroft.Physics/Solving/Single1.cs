namespace Undercroft.Physics.Solving;

/// <summary>One number of single precision.</summary>
internal readonly struct Single1(float value) : ISingleLane<Single1>
{
    private readonly float value = value;

    public static int Count => 1;

    public static bool IsSingle => true;

    public static double Shift => LaneExp.SingleShift;

    public static implicit operator float(Single1 lane) => lane.value;

    public static Single1 Of(double value) => new((float)value);

    public static Single1 Of(float value) => new(value);

    public static Single1 Load(ReadOnlySpan<double> from) => new((float)from[0]);

    public static Single1 At(double[] from, int place) => new((float)from[place]);

    public static Single1 At(float[] from, int place) => new(from[place]);

    public void Put(double[] to, int place) => to[place] = value;

    public void Put(float[] to, int place) => to[place] = value;

    public void AddTo(double[] to, int place) => to[place] += value;

    public void Store(Span<double> to) => to[0] = value;

    public static Single1 Min(Single1 left, Single1 right) => new(left.value < right.value ? left.value : right.value);

    public static Single1 Max(Single1 left, Single1 right) => new(left.value > right.value ? left.value : right.value);

    public static Single1 Sqrt(Single1 value) => new(MathF.Sqrt(value.value));

    public static Single1 WhereLess(Single1 left, Single1 right, Single1 then, Single1 otherwise) => left.value < right.value ? then : otherwise;

    public static bool AllLess(Single1 left, Single1 right) => left.value < right.value;

    public static uint Less(Single1 left, Single1 right) => left.value < right.value ? 1u : 0;

    public static Single1 MulAdd(Single1 left, Single1 right, Single1 more) => new(MathF.FusedMultiplyAdd(left.value, right.value, more.value));

    public static Single1 MulFrom(Single1 left, Single1 right, Single1 from) => new(MathF.FusedMultiplyAdd(-left.value, right.value, from.value));

    public static Single1 PowerOfTwo(Single1 shifted) =>
        new(BitConverter.Int32BitsToSingle((BitConverter.SingleToInt32Bits(shifted.value) << 23) + (127 << 23)));

    public static Single1 Gather(double[] table, Single1 shifted) => new((float)table[Place(shifted)]);

    public static Single1 Gather(float[] table, Single1 shifted) => new(table[Place(shifted)]);

    public static Single1 Pick(float[] from, int place, Single1 shifted) => new(from[place + (BitConverter.SingleToInt32Bits(shifted.value) & 15)]);

    public static Single1 Exponent(Single1 positive, out Single1 mantissa)
    {
        var bits = BitConverter.SingleToInt32Bits(positive.value);
        var exponent = (bits - LaneLog.HalfRootBits) >> 23;
        mantissa = new(BitConverter.Int32BitsToSingle(bits - (exponent << 23)));
        return new(exponent);
    }

    public static Single1 operator +(Single1 left, Single1 right) => new(left.value + right.value);

    public static Single1 operator -(Single1 left, Single1 right) => new(left.value - right.value);

    public static Single1 operator *(Single1 left, Single1 right) => new(left.value * right.value);

    public static Single1 operator /(Single1 left, Single1 right) => new(left.value / right.value);

    private static int Place(Single1 shifted) => BitConverter.SingleToInt32Bits(shifted.value) - BitConverter.SingleToInt32Bits((float)LaneExp.SingleShift);
}
