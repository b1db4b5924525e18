using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>A unit curve for lanes: Oswin's by its own equation, any other by sixteen polynomials, which need no look into memory for each draw.</summary>
/// <remarks>
/// <para><b>Equation</b> (1 − a) U(a), which stays tame toward a = 1, by quintics through six points of each sixteenth of 0 to 1, and (1 − a)² U' = (1 − a) [(1 − a) U]' + (1 − a) U by
/// their slopes.</para>
/// <para><b>Source</b> elementary; [Oswin1946].</para>
/// <para><b>Valid</b> activities above 0.004 and below 0.999.</para>
/// <para><b>Error</b> moisture 1e-6 of itself, slope 5e-5 of itself between 0.2 and 0.9; both a hundredth from 0.01 to 0.995; measured in the tests.</para>
/// </remarks>
internal sealed class LeafPieces
{
    private const int Pieces = 16;
    private const int Degree = 5;
    private const int MostKept = 64;
    private static readonly ConcurrentDictionary<LeafUnit, LeafPieces> Kept = new();

    private readonly double exponent; // Oswin's B, or 0
    private readonly float[] coefficients = new float[Pieces * (Degree + 1)]; // by power, then by piece

    private LeafPieces(LeafUnit unit)
    {
        if (unit is { Shape: OswinIsotherm { A: 1 } oswin, Share: 1, Less: null })
        {
            exponent = oswin.B;
            return;
        }

        Span<double> at = stackalloc double[Degree + 1];
        Span<double> values = stackalloc double[Degree + 1];
        for (var piece = 0; piece < Pieces; piece++)
        {
            for (var i = 0; i <= Degree; i++)
            {
                at[i] = -0.5 * Math.Cos(Math.PI * ((2 * i) + 1) / (2 * (Degree + 1)));
                var activity = (piece + 0.5 + at[i]) / Pieces;
                values[i] = (1 - activity) * unit.Moisture(activity);
            }

            Through(at, values);
            for (var power = 0; power <= Degree; power++)
                coefficients[(power * Pieces) + piece] = (float)values[power];
        }
    }

    /// <summary>Of a unit curve, made once for each of the usual shapes.</summary>
    public static LeafPieces Of(LeafUnit unit)
    {
        if (Kept.TryGetValue(unit, out var known))
            return known;
        LeafPieces made = new(unit);
        if (Kept.Count < MostKept)
            Kept.TryAdd(unit, made);
        return made;
    }

    /// <summary>(1 − a)² U'(a).</summary>
    /// <param name="activity">a.</param>
    /// <param name="dryness">1 − a.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T SlopeAt<T>(T activity, T dryness)
        where T : struct, ISingleLane<T>
    {
        if (exponent > 0)
            return T.Of(exponent) * LaneExp.Of(T.Of(exponent - 1) * LaneLog.Of(activity / dryness));
        Find(activity, out var place, out var piece);
        var value = T.Pick(coefficients, Degree * Pieces, piece);
        var rise = T.Of(0f);
        for (var power = Degree - 1; power >= 0; power--)
        {
            rise = T.MulAdd(rise, place, value);
            value = T.MulAdd(value, place, T.Pick(coefficients, power * Pieces, piece));
        }

        return T.MulAdd(dryness * T.Of((float)Pieces), rise, value);
    }

    /// <summary>(1 − a) U(a).</summary>
    /// <param name="activity">a.</param>
    /// <param name="dryness">1 − a.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T MoistureAt<T>(T activity, T dryness)
        where T : struct, ISingleLane<T>
    {
        if (exponent > 0)
            return dryness * LaneExp.Of(T.Of(exponent) * LaneLog.Of(activity / dryness));
        Find(activity, out var place, out var piece);
        var value = T.Pick(coefficients, Degree * Pieces, piece);
        for (var power = Degree - 1; power >= 0; power--)
            value = T.MulAdd(value, place, T.Pick(coefficients, power * Pieces, piece));
        return value;
    }

    /// <summary>The piece in which an activity lies, and where from its middle, as a share of its width.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Find<T>(T activity, out T place, out T piece)
        where T : struct, ISingleLane<T>
    {
        var at = T.MulAdd(activity, T.Of((float)Pieces), T.Of(-0.5f));
        piece = T.Max(T.Min(at, T.Of(Pieces - 1f)), T.Of(0f)) + T.Of(T.Shift);
        place = at - (piece - T.Of(T.Shift));
    }

    /// <summary>From values to the coefficients of the powers: Newton's divided differences, spread out.</summary>
    private static void Through(ReadOnlySpan<double> at, Span<double> values)
    {
        for (var order = 1; order < at.Length; order++)
        {
            for (var i = at.Length - 1; i >= order; i--)
                values[i] = (values[i] - values[i - 1]) / (at[i] - at[i - order]);
        }

        for (var first = at.Length - 2; first >= 0; first--)
        {
            for (var i = first; i + 1 < at.Length; i++)
                values[i] -= at[first] * values[i + 1];
        }
    }
}
