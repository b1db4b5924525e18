namespace Undercroft.Physics.Solving;

/// <summary>Lanes of single precision: what a kernel that keeps its numbers so needs besides.</summary>
/// <typeparam name="T">The lane type itself.</typeparam>
/// <remarks>Where many small changes add up, the sum is kept in double precision and only the change is made here: <see cref="AddTo"/>.</remarks>
internal interface ISingleLane<T> : ILane<T>
    where T : struct, ISingleLane<T>
{
    /// <summary>The same value in all.</summary>
    static abstract T Of(float value);

    /// <summary>From a place in an array.</summary>
    static abstract T At(float[] from, int place);

    /// <summary>To a place in an array.</summary>
    void Put(float[] to, int place);

    /// <summary>Adds to sums of double precision.</summary>
    void AddTo(double[] to, int place);

    /// <summary>Elements of a table at places k, given as k + <see cref="ILane{T}.Shift"/>.</summary>
    static abstract T Gather(float[] table, T shifted);

    /// <summary>One of sixteen numbers that stand in an array from a place on: which one, is given as k + <see cref="ILane{T}.Shift"/>.</summary>
    static abstract T Pick(float[] from, int place, T shifted);

    /// <summary>k of a positive number 2^k m, and m between √½ and √2.</summary>
    static abstract T Exponent(T positive, out T mantissa);

    /// <summary>A bit for each number, the first the lowest: set where <paramref name="left"/> is less.</summary>
    static abstract uint Less(T left, T right);
}
