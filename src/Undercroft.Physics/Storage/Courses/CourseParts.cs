namespace Undercroft.Physics.Storage.Courses;

/// <summary>The draws of a course by how they are run: rigid ones through which no air ever flows by the kernel, the others step by step, several side by side.</summary>
/// <param name="Quiet">Draws of rigid packages whose gaps, if any, never open.</param>
/// <param name="Vented">Draws that give way, let air flow or are taken from steadily; those with quick gas last, so that draws side by side ask for about as many sub-steps.</param>
internal sealed record CourseParts(int[] Quiet, int[] Vented)
{
    /// <summary>Of a course.</summary>
    public static CourseParts Of(Course course)
    {
        var quiet = Enumerable.Range(0, course.Draws).Where(draw => course.Stays.All(stay => IsQuiet(stay, draw))).ToArray();
        return new(quiet, [.. Enumerable.Range(0, course.Draws).Except(quiet).OrderBy(draw => course.Stays.Max(stay => Speed(stay, draw)))]);
    }

    /// <summary>A course of such draws as the kernel takes it: gaps that never open are left out.</summary>
    public static Course WithoutGaps(Course course) => course with
    {
        Stays = [.. course.Stays.Select(stay => stay with
        {
            LeafTakenPerDay = 0,
            Paths = [.. stay.Paths.Where(path => path.Median.Viscous == 0 || path.FromDay.Range.Lowest < stay.ToDay).Select(path => path with { Median = path.Median with { Viscous = 0 } })],
        })],
    };

    private static bool IsQuiet(Stay stay, int draw) => stay.Headspace is HeadspaceDraws.Rigid && stay.LeafTakenPerDay[draw] == 0
        && stay.Paths.All(path => path.Median.Viscous * path.Viscous[draw] == 0 || path.FromDay[draw] >= stay.ToDay);

    /// <summary>How fast gas and air pass the walls, against the volume inside.</summary>
    private static double Speed(Stay stay, int draw)
    {
        var volume = stay.Headspace switch
        {
            HeadspaceDraws.Rigid rigid => rigid.Volume[draw],
            HeadspaceDraws.Flexible flexible => flexible.Minimum[draw],
            _ => throw new InvalidOperationException($"No headspace {stay.Headspace}."),
        };
        return stay.Paths.Where(path => path.FromDay[draw] < stay.ToDay)
            .Sum(path => (path.Median.CarbonDioxide.AtReference * path.CarbonDioxide[draw]) + (path.Median.Viscous * path.Viscous[draw])) / volume;
    }
}
