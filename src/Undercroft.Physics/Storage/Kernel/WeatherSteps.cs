using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using Undercroft.Physics.Climate;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>The weather of some steps as it is summed up for a place, whoever stands there: made once, and shared by all packages that take the same steps.</summary>
internal sealed class WeatherSteps
{
    private const int MostKept = 1024; // of a place
    private static readonly ConditionalWeakTable<TemperatureBasis, ConcurrentDictionary<(int, int, int, Short), WeatherSteps>> Kept = new();

    private readonly double[] sums;
    private readonly double[] halves;
    private readonly double[] lengths;

    /// <summary>Sums up the weather of steps.</summary>
    /// <param name="basis">Of the place.</param>
    /// <param name="days">Edges, rising, in cells of the place's table.</param>
    /// <param name="cells">How many cells the table has, or none for a periodic one.</param>
    public WeatherSteps(TemperatureBasis basis, int[] days, int? cells)
    {
        Days = days;
        (sums, halves, lengths) = (new double[Count * TemperatureBasis.Width], new double[2 * Count * TemperatureBasis.Width], new double[2 * Count]);
        for (var step = 0; step < Count; step++)
        {
            var (from, to) = (days[step], days[step + 1]);
            basis.Between(from, to, sums.AsSpan(step * TemperatureBasis.Width, TemperatureBasis.Width));
            var (a, b, c, d) = Halves(from, to, cells);
            var apart = (c + d - a - b) / 2.0;
            if (!(apart > 0))
                continue;
            basis.Between(a, b, halves.AsSpan(2 * step * TemperatureBasis.Width, TemperatureBasis.Width));
            basis.Between(c, d, halves.AsSpan(((2 * step) + 1) * TemperatureBasis.Width, TemperatureBasis.Width));
            (lengths[2 * step], lengths[(2 * step) + 1]) = ((double)(d - c) / (b - a), (to - from) / apart);
        }
    }

    /// <summary>Edges of the steps.</summary>
    public int[] Days { get; }

    /// <summary>How many steps.</summary>
    public int Count => Days.Length - 1;

    /// <summary>The integrals over a step.</summary>
    public ReadOnlySpan<double> Sums(int step) => sums.AsSpan(step * TemperatureBasis.Width, TemperatureBasis.Width);

    /// <summary>The integrals over its first half, or over the day before a single day.</summary>
    public ReadOnlySpan<double> First(int step) => halves.AsSpan(2 * step * TemperatureBasis.Width, TemperatureBasis.Width);

    /// <summary>The integrals over its second half, or over the day after a single day.</summary>
    public ReadOnlySpan<double> Second(int step) => halves.AsSpan(((2 * step) + 1) * TemperatureBasis.Width, TemperatureBasis.Width);

    /// <summary>How long the second half is as a multiple of the first, and the step as a multiple of the way from middle to middle, which is 0 where the weather is not known to move.</summary>
    public (double Lengths, double Over) Movement(int step) => (lengths[2 * step], lengths[(2 * step) + 1]);

    /// <summary>Some steps of a place, by whatever tells them apart.</summary>
    public static WeatherSteps Of(TemperatureBasis basis, (int From, int Length, int Steps, Short Where) key, Func<WeatherSteps> make)
    {
        var kept = Kept.GetOrCreateValue(basis);
        if (kept.TryGetValue(key, out var known))
            return known;
        var made = make();
        if (kept.Count < MostKept)
            kept.TryAdd(key, made);
        return made;
    }

    /// <summary>Two spans whose means show how the weather moves across a step: its halves, or the neighbours of a single day.</summary>
    private static (int, int, int, int) Halves(int from, int to, int? cells)
    {
        if (to - from >= 2)
        {
            var middle = (from + to) / 2;
            return (from, middle, middle, to);
        }

        var before = from > 0 ? from - 1 : from;
        var after = cells is null || to < cells ? to + 1 : to;
        return (before, before + 1, after - 1, after);
    }
}
