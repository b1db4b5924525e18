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
    internal Course Of(Course course) => Of(course, Draws);

    private Course Of(Course course, int[] draws) => new(
        draws.Length,
        Of(course.DryMass, draws),
        course.Leaf.Count == 1 ? course.Leaf : [.. draws.Select(draw => course.Leaf[draw])],
        Of(course.StartMoisture, draws),
        [.. course.Stays.Select(stay => Of(stay, draws))],
        course.OutputDays,
        course.Limits) { WithGas = course.WithGas, CountsMouldDays = course.CountsMouldDays };

    private Stay Of(Stay stay, int[] draws) => stay with
    {
        Headspace = stay.Headspace switch
        {
            HeadspaceDraws.Rigid rigid => new HeadspaceDraws.Rigid(Of(rigid.Volume, draws)),
            HeadspaceDraws.Flexible flexible => new HeadspaceDraws.Flexible(Of(flexible.Minimum, draws), Of(flexible.Maximum, draws)),
            _ => throw new InvalidOperationException($"No way to choose from {stay.Headspace}."),
        },
        Paths = [.. stay.Paths.Select(path => Of(path, draws))],
        Uptake = stay.Uptake with
        {
            Rate = Of(stay.Uptake.Rate, draws), Q10 = Of(stay.Uptake.Q10, draws), RespiratoryQuotient = Of(stay.Uptake.RespiratoryQuotient, draws),
        },
        Events = [.. stay.Events.Select(each => Of(each, draws))],
        TemperatureOffset = Of(stay.TemperatureOffset, draws),
        HumidityOffset = Of(stay.HumidityOffset, draws),
        LeafTakenPerDay = Of(stay.LeafTakenPerDay, draws),
    };

    private PathDraws Of(PathDraws path, int[] draws) => path with
    {
        Water = Leaky(path.Water, draws), Oxygen = Leaky(path.Oxygen, draws), CarbonDioxide = Leaky(path.CarbonDioxide, draws),
        Nitrogen = Leaky(path.Nitrogen, draws), Viscous = Leaky(path.Viscous, draws), FromDay = Of(path.FromDay, draws),
        Energies = path.Energies is { } own ? new(Of(own.Water, draws), Of(own.Oxygen, draws), Of(own.CarbonDioxide, draws), Of(own.Nitrogen, draws)) : null,
    };

    private PerDraw Leaky(PerDraw values, int[] draws) => PerDraw.Each([.. draws.Select((draw, n) => values[draw] * Leak[n])]);

    private static CourseEvent Of(CourseEvent each, int[] draws) => each switch
    {
        CourseEvent.Sealed closed => new CourseEvent.Sealed(Of(closed.Pressure, draws), Of(closed.Volume, draws), Of(closed.Kelvin, draws)),
        CourseEvent.Opened opened => new CourseEvent.Opened(Of(opened.Fraction, draws)),
        CourseEvent.TakenOut taken => new CourseEvent.TakenOut(Of(taken.Fraction, draws)),
        CourseEvent.WaterAdded added => new CourseEvent.WaterAdded(Of(added.Kilograms, draws)),
        CourseEvent.Filled filled => new CourseEvent.Filled(Of(filled.Oxygen, draws), Of(filled.CarbonDioxide, draws), Of(filled.Nitrogen, draws)),
        _ => throw new InvalidOperationException($"No way to choose from {each}."),
    };

    private static PerDraw Of(PerDraw values, int[] draws) => values.IsSame ? values : PerDraw.Each(Array.ConvertAll(draws, draw => values[draw]));
}
