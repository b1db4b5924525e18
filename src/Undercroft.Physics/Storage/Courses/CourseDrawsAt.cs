namespace Undercroft.Physics.Storage.Courses;

/// <summary>Some draws of a course, in an order of their own.</summary>
internal static class CourseDrawsAt
{
    /// <summary>The course of the draws at some places, one of which may be named several times.</summary>
    public static Course Of(Course course, int[] draws) => new(
        draws.Length,
        Of(course.DryMass, draws),
        course.Leaf.Count == 1 ? course.Leaf : [.. draws.Select(draw => course.Leaf[draw])],
        Of(course.StartMoisture, draws),
        [.. course.Stays.Select(stay => Of(stay, draws))],
        course.OutputDays,
        course.Limits) { WithGas = course.WithGas, CountsMouldDays = course.CountsMouldDays };

    private static Stay Of(Stay stay, int[] draws) => stay with
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

    private static PathDraws Of(PathDraws path, int[] draws) => path with
    {
        Water = Of(path.Water, draws), Oxygen = Of(path.Oxygen, draws), CarbonDioxide = Of(path.CarbonDioxide, draws),
        Nitrogen = Of(path.Nitrogen, draws), Viscous = Of(path.Viscous, draws), FromDay = Of(path.FromDay, draws),
        Energies = path.Energies is { } own ? new(Of(own.Water, draws), Of(own.Oxygen, draws), Of(own.CarbonDioxide, draws), Of(own.Nitrogen, draws)) : null,
    };

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
