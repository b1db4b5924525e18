using Undercroft.Physics.Storage.Courses;

namespace Undercroft.Forecasts.Simulating;

/// <summary>Some of the draws of a run, each with a factor on all that passes its walls.</summary>
/// <param name="Draws">Places among the draws that were first run; one may stand here several times.</param>
/// <param name="Leak">Factor on every conductance of each; 1 leaves it as drawn.</param>
public sealed record Chosen(int[] Draws, double[] Leak)
{
    /// <summary>All draws as they are.</summary>
    public static Chosen All(int draws) => new([.. Enumerable.Range(0, draws)], [.. Enumerable.Repeat(1.0, draws)]);

    /// <summary>Of these, the ones at some places.</summary>
    public Chosen At(int[] places) => new(Array.ConvertAll(places, place => Draws[place]), Array.ConvertAll(places, place => Leak[place]));

    /// <summary>Of these, the ones among a range of the draws first run, counted from its start.</summary>
    public Chosen Within(int first, int count)
    {
        int[] places = [.. Enumerable.Range(0, Draws.Length).Where(place => Draws[place] >= first && Draws[place] < first + count)];
        return At(places) with { Draws = [.. places.Select(place => Draws[place] - first)] };
    }

    /// <summary>A course with the chosen draws, in that order.</summary>
    internal Course Of(Course course)
    {
        var chosen = course.At(Draws);
        return Array.TrueForAll(Leak, each => each == 1)
            ? chosen
            : chosen with { Stays = [.. chosen.Stays.Select(stay => stay with { Paths = [.. stay.Paths.Select(Leaky)] })] };
    }

    private PathDraws Leaky(PathDraws path) => path with
    {
        Water = Leaky(path.Water), Oxygen = Leaky(path.Oxygen), CarbonDioxide = Leaky(path.CarbonDioxide), Nitrogen = Leaky(path.Nitrogen), Viscous = Leaky(path.Viscous),
    };

    private PerDraw Leaky(PerDraw values) => PerDraw.Each([.. Leak.Select((leak, n) => values[n] * leak)]);
}
