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

    /// <summary>A bit for each number, the first the lowest: set where <paramref name="left"/> is less.</summary>
    static abstract uint Less(T left, T right);
}
