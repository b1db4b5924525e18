using System.Text;

namespace Undercroft.Forecasts.Drawing;

/// <summary>
/// Random numbers that depend only on a seed and on what they are for, so that one parameter's draws never shift another's and the same
/// question always gets the same answer.
/// </summary>
/// <remarks>
/// Each parameter is drawn by Latin hypercube: the unit interval is cut into as many slices as there are draws, one value falls into each, and
/// the slices are shuffled by a permutation of the parameter's own. Generator: SplitMix64 (Steele, Lea and Flood 2014).
/// </remarks>
public readonly struct SeededDraws(ulong seed, int count, Func<string, bool>? swapped = null)
{
    /// <summary>
    /// What is one package's own is drawn by the same numbers for every package, so that two of which the same is known get the same answer, and a difference between two
    /// is never the luck of the draws.
    /// </summary>
    public const string OnePackage = "package";

    private const ulong OtherSeed = 0xD1B54A32D192ED03UL;

    /// <summary>How many draws.</summary>
    public int Count => count;

    /// <summary>Uniform on (0, 1), one in each slice.</summary>
    /// <param name="purpose">What the numbers are for, such as <c>"package/isotherm"</c>.</param>
    public double[] Uniform(string purpose)
    {
        var state = Mixed(seed ^ (swapped?.Invoke(purpose) == true ? OtherSeed : 0) ^ Hash(purpose));
        var values = new double[count];
        for (var i = 0; i < count; i++)
            values[i] = (i + Open(ref state)) / count;
        for (var i = count - 1; i > 0; i--)
        {
            var j = (int)(Next(ref state) % (ulong)(i + 1));
            (values[i], values[j]) = (values[j], values[i]);
        }

        return values;
    }

    /// <summary>Standard normal, one in each slice of equal probability.</summary>
    /// <param name="purpose">What the numbers are for.</param>
    public double[] Normal(string purpose)
    {
        var values = Uniform(purpose);
        for (var i = 0; i < values.Length; i++)
            values[i] = NormalQuantile.At(values[i]);
        return values;
    }

    /// <summary>FNV-1a over the UTF-8 bytes: stable across processes, unlike <see cref="string.GetHashCode()"/>.</summary>
    private static ulong Hash(string text)
    {
        var hash = 14695981039346656037UL;
        foreach (var octet in Encoding.UTF8.GetBytes(text))
            hash = (hash ^ octet) * 1099511628211UL;
        return hash;
    }

    private static ulong Next(ref ulong state) => Mixed(state += 0x9E3779B97F4A7C15UL);

    private static double Open(ref ulong state) => ((Next(ref state) >> 12) + 0.5) * (1.0 / (1UL << 52));

    private static ulong Mixed(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
