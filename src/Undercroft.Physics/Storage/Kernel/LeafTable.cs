using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>A unit curve tabulated for lanes: its slope by straight lines, its moisture by cubics.</summary>
/// <remarks>
/// <para><b>Equation</b> (1 − a)² U'(a) and (1 − a) U(a), which stay tame toward a = 1, on even intervals.</para>
/// <para><b>Source</b> elementary; Hermite's cubics for the moisture.</para>
/// <para><b>Valid</b> activities above 0.004 and below 0.999.</para>
/// <para><b>Error</b> slope 1e-4 of itself, moisture 1e-8 kg/kg between 0.2 and 0.9.</para>
/// </remarks>
internal sealed class LeafTable
{
    /// <summary>Intervals between 0 and 1.</summary>
    public const int Intervals = 512;

    private const int MostKept = 64;
    private static readonly ConcurrentDictionary<LeafUnit, LeafTable> Kept = new();

    private LeafTable(LeafUnit unit)
    {
        (Slopes, Moistures) = (new float[2 * Intervals], new float[4 * Intervals]);
        var (value, rise, slope) = At(unit, 0);
        for (var i = 0; i < Intervals; i++)
        {
            var (nextValue, nextRise, nextSlope) = At(unit, i + 1);
            (Slopes[2 * i], Slopes[(2 * i) + 1]) = ((float)slope, (float)(nextSlope - slope));
            var change = nextValue - value;
            Moistures[4 * i] = (float)value;
            Moistures[(4 * i) + 1] = (float)rise;
            Moistures[(4 * i) + 2] = (float)((3 * change) - (2 * rise) - nextRise);
            Moistures[(4 * i) + 3] = (float)(rise + nextRise - (2 * change));
            (value, rise, slope) = (nextValue, nextRise, nextSlope);
        }
    }

    /// <summary>Value and rise of the slope's table, interval by interval.</summary>
    public float[] Slopes { get; }

    /// <summary>Four coefficients of the moisture's table, interval by interval.</summary>
    public float[] Moistures { get; }

    /// <summary>The table of a unit curve, made once for each of the usual shapes.</summary>
    public static LeafTable Of(LeafUnit unit)
    {
        if (Kept.TryGetValue(unit, out var known))
            return known;
        LeafTable made = new(unit);
        if (Kept.Count < MostKept)
            Kept.TryAdd(unit, made);
        return made;
    }

    /// <summary>(1 − a)² U'(a) from one or more tables laid end to end.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T SlopeAt<T>(float[] slopes, T activity, T begin)
        where T : struct, ISingleLane<T>
    {
        Find(activity, begin, 2, out var place, out var shifted);
        return T.Gather(slopes, shifted) + (place * T.Gather(slopes, shifted + T.Of(1)));
    }

    /// <summary>(1 − a) U(a).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static T MoistureAt<T>(float[] moistures, T activity, T begin)
        where T : struct, ISingleLane<T>
    {
        Find(activity, begin, 4, out var place, out var shifted);
        var high = T.Gather(moistures, shifted + T.Of(2)) + (place * T.Gather(moistures, shifted + T.Of(3)));
        return T.Gather(moistures, shifted) + (place * (T.Gather(moistures, shifted + T.Of(1)) + (place * high)));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Find<T>(T activity, T begin, int width, out T place, out T shifted)
        where T : struct, ISingleLane<T>
    {
        var at = activity * T.Of(Intervals);
        var inside = T.Max(T.Min(at - T.Of(0.5), T.Of(Intervals - 1)), T.Of(0));
        var whole = (inside + T.Of(T.Shift)) - T.Of(T.Shift);
        place = at - whole;
        shifted = ((whole + begin) * T.Of(width)) + T.Of(T.Shift);
    }

    /// <summary>(1 − a) U, its rise over an interval, and (1 − a)² U'.</summary>
    private static (double Value, double Rise, double Slope) At(LeafUnit unit, int edge)
    {
        var activity = Math.Clamp((double)edge / Intervals, 1e-6, 1 - 1e-5);
        var (moisture, slope, dryness) = (unit.Moisture(activity), unit.Slope(activity), 1 - activity);
        return (dryness * moisture, ((dryness * slope) - moisture) / Intervals, dryness * dryness * slope);
    }
}
