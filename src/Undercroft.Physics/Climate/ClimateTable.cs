using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate;

/// <summary>
/// What the climate of a place does to packages, summed up once and shared by all packages and draws there: running integrals of the drivers,
/// one channel for each activation energy and shift of temperature.
/// </summary>
/// <remarks>
/// Cells are whole days, over which the day's swing is averaged and its first harmonic kept apart, or short resolved cells, which have no harmonic.
/// A periodic place stores one period and goes round. Channels are made when first asked for and kept; the table can be read by several threads.
/// </remarks>
public sealed partial class ClimateTable
{
    private const int SamplesPerDay = 24;

    private readonly ConcurrentDictionary<(double Energy, double Offset), Lazy<RunningSums>> channels = new();
    private readonly ConcurrentDictionary<(double Q10, double Reference, bool PerPascal, double Offset), Lazy<RunningSums>> uptakes = new();
    private readonly ConcurrentDictionary<(double Activity, double Offset), Lazy<RunningSums>> breaths = new();
    private readonly double[] edges;
    private readonly bool[] resolved;
    private readonly Sample[] samples;
    private readonly int[] firstSample;

    private ClimateTable(IPlaceClimate place, double[] edges, bool[] resolved, bool periodic)
    {
        (Place, this.edges, this.resolved, Periodic) = (place, edges, resolved, periodic);
        List<Sample> taken = [];
        firstSample = new int[edges.Length];
        for (var cell = 0; cell + 1 < edges.Length; cell++)
        {
            firstSample[cell] = taken.Count;
            var width = edges[cell + 1] - edges[cell];
            var parts = resolved[cell] ? 2 : Math.Max(SamplesPerDay, (int)Math.Round(width * SamplesPerDay));
            for (var part = 0; part <= parts; part++)
            {
                var time = edges[cell] + (width * part / parts);
                var end = part == 0 || part == parts;
                var weight = resolved[cell] ? (end ? 1.0 / 6 : 4.0 / 6) : (end ? 0.5 : 1.0) / parts; // Simpson; trapezoid, exact to rounding over a day
                taken.Add(Sample.Of(place.At(time), time, weight * width));
            }
        }

        firstSample[^1] = taken.Count;
        samples = [.. taken];
    }

    /// <summary>The place.</summary>
    public IPlaceClimate Place { get; }

    /// <summary>True where the table goes round after its last cell.</summary>
    public bool Periodic { get; }

    /// <summary>Cells stored; of a periodic place one period.</summary>
    public int Cells => edges.Length - 1;

    /// <summary>A table of whole days from day 0.</summary>
    /// <param name="place">Where.</param>
    /// <param name="days">How many days are needed; a periodic place stores its period whatever is needed.</param>
    /// <exception cref="ArgumentOutOfRangeException">No days.</exception>
    public static ClimateTable Daily(IPlaceClimate place, int days)
    {
        ArgumentNullException.ThrowIfNull(place);
        if (days < 1)
            throw new ArgumentOutOfRangeException(nameof(days), days, "A table holds at least one day.");
        var count = place.PeriodDays ?? days;
        return new(place, [.. Enumerable.Range(0, count + 1).Select(day => (double)day)], new bool[count], place.PeriodDays is not null);
    }

    /// <summary>A table with cells of its own.</summary>
    /// <param name="place">Where.</param>
    /// <param name="edges">Days, rising.</param>
    /// <param name="resolved">One a cell: true for a cell so short that its own course is followed; false for one of whole days.</param>
    internal static ClimateTable Of(IPlaceClimate place, double[] edges, bool[] resolved) => new(place, edges, resolved, periodic: false);

    /// <summary>The day at which a cell begins; beyond the stored cells of a periodic place the days go on.</summary>
    internal double Edge(int cell) => Periodic ? (cell / Cells * edges[^1]) + edges[cell % Cells] : edges[cell];

    /// <summary>True for a resolved cell.</summary>
    internal bool IsResolved(int cell) => resolved[Periodic ? cell % Cells : cell];

    /// <summary>Running sums of f·P, f·T, f·psat, f·e and the harmonics of f·P, f·T, f·e, with f = exp[−(E/R)(1/T − 1/296.15 K)].</summary>
    internal RunningSums Channel(double energy, double offset) => channels.GetOrAdd(
        (energy, offset), key => new(() => Sum(10, key.Offset, Filled(key.Energy)))).Value;

    /// <summary>Running sums of Q10^((T − reference)/10), times T where the uptake follows pressure, and its harmonic.</summary>
    internal RunningSums Uptake(double q10, double reference, bool perPascal, double offset) => uptakes.GetOrAdd(
        (q10, reference, perPascal, offset), key => new(() => Sum(3, key.Offset, Taken(key.Q10, key.Reference, key.PerPascal)))).Value;

    /// <summary>Running sum of the rises of ln[(P − a·psat)/T]: how much air a package that keeps the room's pressure draws in, over what it holds.</summary>
    internal RunningSums Breath(double activity, double offset) => breaths.GetOrAdd(
        (activity, offset), key => new(() => SumOfRises(key.Activity, key.Offset))).Value;

    private static Action<Sample, bool, double[]> Filled(double energy) => (sample, isResolved, item) =>
    {
        var f = sample.Weight * Math.Exp(energy / PhysicalConstants.GasConstant * ((1 / 296.15) - (1 / sample.Kelvin)));
        item[0] = f * sample.Pascals;
        item[1] = f * sample.Kelvin;
        item[2] = f * sample.Saturation;
        item[3] = item[2] * sample.Humidity;
        var (sin, cos) = isResolved ? (0, 0) : (2 * sample.Sin, 2 * sample.Cos);
        item[4] = item[0] * cos;
        item[5] = item[0] * sin;
        item[6] = item[1] * cos;
        item[7] = item[1] * sin;
        item[8] = item[3] * cos;
        item[9] = item[3] * sin;
    };

    private static Action<Sample, bool, double[]> Taken(double q10, double reference, bool perPascal)
    {
        var log = Math.Log(q10) / 10;
        return (sample, isResolved, item) =>
        {
            item[0] = sample.Weight * Math.Exp(log * (sample.Kelvin - reference)) * (perPascal ? sample.Kelvin : 1);
            var (sin, cos) = isResolved ? (0, 0) : (2 * sample.Sin, 2 * sample.Cos);
            item[1] = item[0] * cos;
            item[2] = item[0] * sin;
        };
    }
    private RunningSums Sum(int width, double offset, Action<Sample, bool, double[]> fill)
    {
        var running = new double[edges.Length * width];
        var item = new double[width];
        var sum = new double[width];
        for (var cell = 0; cell < Cells; cell++)
        {
            Array.Clear(sum);
            for (var s = firstSample[cell]; s < firstSample[cell + 1]; s++)
            {
                fill(offset == 0 ? samples[s] : samples[s].Warmer(offset), resolved[cell], item);
                for (var k = 0; k < width; k++)
                    sum[k] += item[k];
            }

            for (var k = 0; k < width; k++)
                running[((cell + 1) * width) + k] = running[(cell * width) + k] + sum[k];
        }

        return new(running, width, Cells, Periodic);
    }

    private RunningSums SumOfRises(double activity, double offset)
    {
        var running = new double[edges.Length];
        for (var cell = 0; cell < Cells; cell++)
        {
            var sum = 0.0;
            var before = double.NaN;
            for (var s = firstSample[cell]; s < firstSample[cell + 1]; s++)
            {
                var sample = offset == 0 ? samples[s] : samples[s].Warmer(offset);
                var held = Math.Log((sample.Pascals - (activity * sample.Saturation)) / sample.Kelvin);
                if (held > before)
                    sum += held - before;
                before = held;
            }

            running[cell + 1] = running[cell] + sum;
        }

        return new(running, 1, Cells, Periodic);
    }

    private readonly record struct Sample(double Kelvin, double Humidity, double Pascals, double Saturation, double Weight, double Sin, double Cos)
    {
        public static Sample Of(RoomMoment room, double time, double weight)
        {
            var (sin, cos) = Math.SinCos(Math.Tau * (time - Math.Floor(time)));
            return new(room.Kelvin, room.RelativeHumidity, room.Pascals, SaturationPressure.PascalOverWater(room.Kelvin), weight, sin, cos);
        }

        public Sample Warmer(double offset) => this with { Kelvin = Kelvin + offset, Saturation = SaturationPressure.PascalOverWater(Kelvin + offset) };
    }
}

/// <summary>Running integrals over the cells of a table, several side by side.</summary>
internal sealed class RunningSums(double[] running, int width, int cells, bool periodic)
{
    /// <summary>How many integrals stand side by side.</summary>
    public int Width => width;

    /// <summary>The integrals from one cell's beginning to another's.</summary>
    public void Between(int from, int to, Span<double> sums)
    {
        var turns = 0;
        if (periodic)
        {
            turns = (to / cells) - (from / cells);
            (from, to) = (from % cells, to % cells);
        }

        ReadOnlySpan<double> before = running.AsSpan(from * width, width), after = running.AsSpan(to * width, width), period = running.AsSpan(cells * width, width);
        var k = 0;
        if (Vector256.IsHardwareAccelerated)
        {
            var times = Vector256.Create((double)turns);
            _ = sums[width - 1];
            for (; k + Vector256<double>.Count <= width; k += Vector256<double>.Count)
                (At(after, k) - At(before, k) + (times * At(period, k))).StoreUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetReference(sums), (uint)k));
        }

        for (; k < width; k++)
            sums[k] = after[k] - before[k] + (turns * period[k]);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> At(ReadOnlySpan<double> values, int place) => Vector256.LoadUnsafe(ref Unsafe.Add(ref MemoryMarshal.GetReference(values), (uint)place));

    /// <summary>True where the table tells of the cell before this edge.</summary>
    public bool Reaches(int edge) => periodic || edge <= cells;

    /// <summary>One of the integrals from one cell's beginning to another's.</summary>
    public double Between(int from, int to, int item)
    {
        var turns = 0;
        if (periodic)
            (turns, from, to) = ((to / cells) - (from / cells), from % cells, to % cells);
        return running[(to * width) + item] - running[(from * width) + item] + (turns * running[(cells * width) + item]);
    }
}
