using System.Runtime.CompilerServices;

namespace Undercroft.Physics.Solving;

/// <summary>Complex numbers over lanes: first harmonics of a swing.</summary>
/// <param name="Re">Real part.</param>
/// <param name="Im">Imaginary part.</param>
internal readonly record struct LaneComplex<T>(T Re, T Im)
    where T : struct, ILane<T>
{
    /// <summary>Its size; parts so small or large that their squares leave the range of doubles do not come up.</summary>
    public T Magnitude
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get => T.Sqrt((Re * Re) + (Im * Im));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static LaneComplex<T> operator +(LaneComplex<T> left, LaneComplex<T> right) => new(left.Re + right.Re, left.Im + right.Im);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static LaneComplex<T> operator -(LaneComplex<T> left, LaneComplex<T> right) => new(left.Re - right.Re, left.Im - right.Im);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static LaneComplex<T> operator *(LaneComplex<T> left, T right) => new(left.Re * right, left.Im * right);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static LaneComplex<T> operator /(LaneComplex<T> left, LaneComplex<T> right)
    {
        var per = T.Of(1) / ((right.Re * right.Re) + (right.Im * right.Im));
        return new(((left.Re * right.Re) + (left.Im * right.Im)) * per, ((left.Im * right.Re) - (left.Re * right.Im)) * per);
    }
}
