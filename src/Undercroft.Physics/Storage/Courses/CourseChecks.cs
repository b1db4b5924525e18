namespace Undercroft.Physics.Storage.Courses;

/// <summary>What a course must be before it is run: checked once at the border, never inside the kernel.</summary>
internal static class CourseChecks
{
    public static void Check(Course course)
    {
        Require(course.Draws >= 1, nameof(course.Draws), course.Draws, "An ensemble has at least one draw.");
        Require(course.Leaf.Count == 1 || course.Leaf.Count == course.Draws, nameof(course.Leaf), course.Leaf.Count, "One isotherm for all draws, or one each.");
        Require(course.Stays.Count >= 1, nameof(course.Stays), course.Stays.Count, "A course has at least one stay.");
        Positive(course.DryMass, course.Draws, nameof(course.DryMass), "Dry mass is above zero.");
        NotNegative(course.StartMoisture, course.Draws, nameof(course.StartMoisture), "Moisture is not negative.");
        for (var s = 0; s < course.Stays.Count; s++)
        {
            var stay = course.Stays[s];
            Require(stay.FromDay >= 0 && stay.ToDay > stay.FromDay, nameof(stay.ToDay), stay.ToDay, "A stay lasts at least a day and begins on day 0 or later.");
            Require(s == 0 || course.Stays[s - 1].ToDay == stay.FromDay, nameof(stay.FromDay), stay.FromDay, "A stay begins where the one before it ends.");
            Require(stay.Place.Periodic || stay.ToDay <= stay.Place.Cells, nameof(stay.Place), stay.ToDay, "The climate table ends before the stay does.");
            Check(stay, course.Draws);
        }

        for (var i = 0; i < course.OutputDays.Count; i++)
        {
            var day = course.OutputDays[i];
            Require(
                day >= course.Stays[0].FromDay && day <= course.Stays[^1].ToDay && (i == 0 || day > course.OutputDays[i - 1]),
                nameof(course.OutputDays), day, "Output days rise and lie within the course.");
        }
    }

    private static void Check(Stay stay, int draws)
    {
        switch (stay.Headspace)
        {
            case HeadspaceDraws.Rigid rigid:
                Positive(rigid.Volume, draws, nameof(stay.Headspace), "The headspace is above zero.");
                break;
            case HeadspaceDraws.Flexible flexible:
                Positive(flexible.Minimum, draws, nameof(stay.Headspace), "The pore volume of pressed leaf is above zero.");
                Positive(flexible.Maximum, draws, nameof(stay.Headspace), "The taut volume is above zero.");
                for (var draw = 0; draw < draws; draw++)
                    Require(flexible.Maximum[draw] >= flexible.Minimum[draw], nameof(stay.Headspace), flexible.Maximum[draw], "The taut volume is not below the pore volume.");
                break;
            default:
                throw new InvalidOperationException($"No headspace {stay.Headspace}.");
        }

        foreach (var path in stay.Paths)
        {
            foreach (var factor in (ReadOnlySpan<PerDraw>)[path.Water, path.Oxygen, path.CarbonDioxide, path.Nitrogen, path.Viscous])
                NotNegative(factor, draws, path.Median.Name, "A conductance is not negative.");
            Counted(path.FromDay, draws, path.Median.Name);
        }

        NotNegative(stay.Uptake.Rate, draws, nameof(stay.Uptake), "The uptake rate is not negative.");
        Positive(stay.Uptake.Q10, draws, nameof(stay.Uptake), "Q10 is above zero.");
        NotNegative(stay.LeafTakenPerDay, draws, nameof(stay.LeafTakenPerDay), "Leaf is taken out, not put in.");
        Finite(stay.TemperatureOffset, draws, nameof(stay.TemperatureOffset));
        Finite(stay.HumidityOffset, draws, nameof(stay.HumidityOffset));
    }

    private static void Positive(PerDraw values, int draws, string name, string why) => Each(values, draws, name, value => value > 0 && double.IsFinite(value), why);

    private static void NotNegative(PerDraw values, int draws, string name, string why) => Each(values, draws, name, value => value >= 0 && double.IsFinite(value), why);

    private static void Finite(PerDraw values, int draws, string name) => Each(values, draws, name, double.IsFinite, "It is a finite number.");

    private static void Each(PerDraw values, int draws, string name, Func<double, bool> holds, string why)
    {
        Counted(values, draws, name);
        for (var draw = 0; draw < (values.Count ?? 1); draw++)
            Require(holds(values[draw]), name, values[draw], why);
    }

    private static void Counted(PerDraw values, int draws, string name) =>
        Require(values.Count is null || values.Count == draws, name, values.Count ?? 0, "One value for all draws, or one each.");

    private static void Require(bool holds, string name, double value, string why)
    {
        if (!holds)
            throw new ArgumentOutOfRangeException(name, value, why);
    }
}
