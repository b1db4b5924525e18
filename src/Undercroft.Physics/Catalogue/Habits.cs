namespace Undercroft.Physics.Catalogue;

/// <summary>When to look at what. Common practice throughout; scaled down by value and up by findings.</summary>
internal static class Habits
{
    public static InspectionHabit Jar { get; } = Of(2, 365, "press the lid, turn the band, look for drops inside, weigh",
        "band loose, lid lifts, drops on the glass, weight down");

    public static InspectionHabit ClampJar { get; } = Of(2, 365, "pull the ring tab lightly, look for cracks in the ring, weigh",
        "ring cracked, hard or crooked, lid rocks, weight down");

    public static InspectionHabit VacuumPouch { get; } = Of(7, 182, "press: still tight? bend the edges, weigh", "slack, edges crisp though tight, weight down");

    public static InspectionHabit FoilPouch { get; } = Of(7, 182, "look along the seal and the creases, weigh", "seal lifted, pinholes against a lamp, weight down");

    public static InspectionHabit SealedTin { get; } = Of(1, 365, "look for rust dots, dents at the seam, a bulge; weigh", "rust at the seam, bulge, weight down");

    public static InspectionHabit RectangularTin { get; } = Of(1, 182, "tug the lid lightly, press the bottom, weigh", "lid moves, bottom clicks, weight down");

    public static InspectionHabit FilmedTin { get; } = Of(30, 365, "look for split, slack or yellow film, corners first; weigh", "film split or slack, weight down");

    public static InspectionHabit LooseTin { get; } = Of(7, 30, "weigh, feel", "weight down, strands break");

    public static InspectionHabit Bag { get; } = Of(7, 14, "weigh, feel through the bag; better: repack", "crisp edges, weight down, zip open");

    public static InspectionHabit Bulk { get; } = Of(7, 14, "repack within the week", "still in the bag");

    public static InspectionHabit Opened { get; } = Of(7, 14, "weigh, feel at each use", "weight down, strands break");

    public static InspectionHabit Pocket { get; } = Of(1, 1, "feel", "strands break");

    private static InspectionHabit Of(int first, int then, string check, string badIf) =>
        new(first, then, check, badIf, new Evidence(Provenance.CommonPractice, "", "usual intervals; shorten for what is dear, lengthen where nothing was ever found"));
}
