using Undercroft.Ledger.Events;

namespace Undercroft.Keeping.Troubles;

/// <summary>White or coloured stuff on leaf: signs of mould, or of crystals. It tells signs, never that leaf is sound.</summary>
internal static class MouldTree
{
    private static readonly Step.End Mould = new(
        Decision.Discard, "Treat it as mould.", "Fuzz, threads, colour or a musty smell are its signs; nothing seen by eye says otherwise.",
        ["Do not open it further; do not sniff it close.", "Photograph it through the glass.", "Bag it closed and throw it away. Wash the jar hot, replace the lid.", "Look at the others of its lot and of its packing day."], 7, Cautions.Mould, Finding.MouldSuspected);

    private static readonly Step.End Unsure = new(
        Decision.Isolate, "Not known: keep it apart, closed, and treat it as mould until a loupe says more.", "White alone means neither; crystals and young mould look alike to the naked eye.",
        ["Put it apart, closed, in a cool place.", "Look at it in daylight with a loupe of ten times or more: threads, tufts or raised dots mean mould.", "Close a hygrometer in only if you need not touch the leaf."], 7, Cautions.Mould, Finding.MouldSuspected);

    private static readonly Step.End Wet = new(
        Decision.Isolate, "Too wet: mould is likely to come, if it is not there yet.", "Drops or damp leaf mean a humidity inside far above 70 %, where mould takes days to weeks.",
        ["Keep it apart.", "If nothing grows on it: dry it by weight, in steps, and read the humidity inside.", "If anything grows: bag it and throw it away."], 3, Cautions.Mould, Finding.Condensation);

    private static readonly Step.End Moist = new(
        Decision.Isolate, "More signs for crystals than for mould, but it stands moist: keep it apart and dry it a little.", "Above 65 % humidity slow growth has been seen, above 70 % within months.",
        ["Keep it apart, closed.", "Take water out by weight until the hygrometer shows 60 to 65 %.", "Look again with a loupe."], 14, Cautions.Mould, Finding.Crystals);

    private static readonly Step.End Crystals = new(
        Decision.Watch, "The signs are those of crystals. I cannot be sure.", "Glittering, flat, rigid, no threads, no smell, dry: each is a sign, together they are no proof. What such crystals are made of is disputed.",
        ["Photograph it in the same light as next time.", "Do not smoke it before a loupe has shown no threads.", "Look again: crystals stay as they are, mould grows."], 30, Cautions.Mould, Finding.Crystals);

    private static readonly Step.End CrystalsUnread = Crystals with
    {
        Verdict = "The signs are those of crystals, but nobody knows how moist it is. I cannot be sure.",
        Do = ["Close a hygrometer in for half a day and write it down: it is what would tell most.", .. Crystals.Do],
        LookAgainAfterDays = 14,
    };

    internal static Trouble Tree { get; } = new(
        "mould", "White or coloured stuff: mould, or crystals?", "Leave it closed for now and look through the glass, by daylight or with a torch. Do not sniff it close.",
        new Step.Ask("Is there fuzz, threads, tufts, green, blue, grey, black or pink, or a musty smell at arm's length?", "A loupe of ten times shows threads that the eye does not.",
        [
            new("yes", "Yes, one of these", Mould),
            new("unsure", "I am not sure", Unsure),
            new("no", "No, none of these", new Step.Ask("Is it wet: drops inside the glass, or leaf that feels damp?", null,
            [
                new("yes", "Yes", Wet),
                new("no", "No", new Step.Ask("Does it glitter, and lie flat and rigid along the cut faces?", "Turn it under a torch: crystals flash, dust and mould do not.",
                [
                    new("yes", "Yes, it glitters and lies flat", new Step.Ask("What does a hygrometer closed in with it show?", "Half a day closed in, in a steady room.",
                    [
                        new("under65", "Under 65 %", Crystals),
                        new("over65", "65 % or more", Moist),
                        new("unknown", "Nobody knows", CrystalsUnread),
                    ])),
                    new("no", "No, dull or raised", Unsure),
                    new("unsure", "I am not sure", Unsure),
                ])),
            ])),
        ]));
}
