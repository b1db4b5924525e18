using System.Numerics;

namespace Undercroft.Physics.Solving;

/// <summary>One number, or several side by side: what a kernel needs of them, so that a formula is written once for all widths.</summary>
/// <typeparam name="T">The lane type itself.</typeparam>
/// <remarks>
/// Every operation is rounded as the number's own, and products and sums are fused where a formula says so and nowhere else: all widths give the same bits, draw by
/// draw. A processor that cannot fuse them has the same bits from a library, slowly.
/// </remarks>
internal interface ILane<T> :
    IAdditionOperators<T, T, T>, ISubtractionOperators<T, T, T>, IMultiplyOperators<T, T, T>, IDivisionOperators<T, T, T>
    where T : struct, ILane<T>
{
    /// <summary>How many numbers.</summary>
    static abstract int Count { get; }

    /// <summary>True for numbers of single precision.</summary>
    static abstract bool IsSingle { get; }

    /// <summary>Added to a number it leaves the nearest whole number in the low bits: 1.5·2^52, or 1.5·2^23 in single precision.</summary>
    static abstract double Shift { get; }

    /// <summary>The same value in all.</summary>
    static abstract T Of(double value);

    /// <summary>From the beginning of a span.</summary>
    static abstract T Load(ReadOnlySpan<double> from);

    /// <summary>From a place in an array.</summary>
    static abstract T At(double[] from, int place);

    /// <summary>To a place in an array.</summary>
    void Put(double[] to, int place);

    /// <summary>To the beginning of a span.</summary>
    void Store(Span<double> to);

    /// <summary>The smaller, element by element.</summary>
    static abstract T Min(T left, T right);

    /// <summary>The larger, element by element.</summary>
    static abstract T Max(T left, T right);

    /// <summary>The square root, rounded once.</summary>
    static abstract T Sqrt(T value);

    /// <summary>Where <paramref name="left"/> is less than <paramref name="right"/> the first choice, elsewhere the second; NaN takes the second.</summary>
    static abstract T WhereLess(T left, T right, T then, T otherwise);

    /// <summary>True where all are less.</summary>
    static abstract bool AllLess(T left, T right);

    /// <summary>left · right + more, rounded once.</summary>
    static abstract T MulAdd(T left, T right, T more);

    /// <summary>from − left · right, rounded once.</summary>
    static abstract T MulFrom(T left, T right, T from);

    /// <summary>2^k from the number k + <see cref="Shift"/>, whose low bits hold k.</summary>
    static abstract T PowerOfTwo(T shifted);

    /// <summary>Elements of a table at places k, given as k + <see cref="Shift"/>.</summary>
    static abstract T Gather(double[] table, T shifted);
}
