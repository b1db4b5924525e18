using Undercroft.Ledger.Events;

namespace Undercroft.Keeping.Troubles;

/// <summary>After a heat wave, a power cut, a flood, a move.</summary>
internal static class AfterTrees
{
    private static readonly Step.End Loose = new(
        Decision.Reseal, "Close it anew.", "A lid that lifted, a loose band or slack film has let warm air out and will let dry air in.",
        ["Let it come to room temperature.", "Wipe the rim; new lid or ring; close it; weigh it whole.", "Weigh it again in two weeks: a leak shows on a scale before it shows on leaf."], 14, Cautions.Glass, Finding.LidLoose);

    private static readonly Step.End Drops = new(
        Decision.Isolate, "Drops inside: keep it apart and see that they go.", "Water went to the coldest spot; where drops stay, leaf is too wet.",
        ["Let it come to a steady temperature for two days.", "Where drops stay, dry it by weight.", "Look for fuzz with a torch."], 3, Cautions.Mould, Finding.Condensation);

    private static readonly Step.End Twice = new(
        Decision.Watch, "Nothing to do now; look twice.", "What warmth or shaking did to a seal shows within weeks, on a scale.",
        ["Weigh the weakest closures now and write it down.", "Weigh them again at the second look."], 14, Cautions.Heat);

    private static readonly Step.End TooWarm = new(
        Decision.Move, "Take it to a cooler place.", "A month at 30 °C instead of 18 °C ages leaf like two months or more (assumption: twice as fast for ten degrees), beetles hatch, lids lift.",
        ["Inner room, floor level, dark; not by the boiler.", "Glass low, in boxes.", "Weigh the weakest closures before and after."], 14, Cautions.Heat);

    private static readonly Step.End Cooked = new(
        Decision.EnjoySoon, "Use it before others.", "Above 40 °C bags and flavoured leaf lose aroma fast, and soft packages their water. Keeping longer wins nothing back.",
        ["Weigh it and feel it.", "Soft packages into glass today.", "Note what it is like; the rest of its lot may be better."], 14, Cautions.Heat);

    private static readonly Step.End Wetted = new(
        Decision.Discard, "Throw it away.", "The rule for food after a flood, taken over here: what flood water reached in jars, screw caps, snap lids, pull tops or soft packs is thrown away.",
        ["Photograph it with its code, for a claim.", "Bag it closed.", "Look at what stood above the water line."], 7, Cautions.Flood);

    private static readonly Step.End Washed = new(
        Decision.Isolate, "Wash it, label it anew, keep it apart.", "Solid all-metal cans with seamed ends can be washed and sanitised by the same rule; rust may follow.",
        ["Photograph it first.", "Take paper off, wash, sanitise, dry at once; label it anew by its code.", "Look for rust and bulges."], 14, Cautions.Flood, Finding.LabelLost);

    private static readonly Step.End Damp = new(
        Decision.Watch, "Water did not reach it; damp may.", "Steel rusts and labels come off in air above 80 %.",
        ["Dry the room.", "Look at seams and labels.", "Weigh paper-walled tins."], 14, Cautions.Flood);

    internal static Trouble Heat { get; } = new(
        "heat", "After a heat wave", "Move nothing hot. Open nothing hot.",
        new Step.Ask("What do you see on it?", "Lid, band, film, glass, bulge.",
        [
            new("loose", "Something is loose, lifted or slack", Loose),
            new("drops", "Drops inside the glass", Drops),
            new("bulge", "It bulges", BulgeTree.Tree.Root),
            new("nothing", "Nothing", new Step.Ask("How warm did the shelf get?", "A logger or a thermometer that keeps its highest reading tells; the room's weather does not.",
            [
                new("under30", "Under 30 °C", Twice),
                new("to40", "30 to 40 °C, or it will be as warm again", TooWarm),
                new("over40", "Over 40 °C", Cooked),
                new("unknown", "Nobody knows", Twice with { Verdict = "Not known how warm it was: look twice, and lay a thermometer there." }),
            ])),
        ]));

    internal static Trouble Power { get; } = new(
        "power", "After a power cut of a cooled cabinet", "Keep it shut. Thirty kilograms of contents take about nine hours to come two thirds of the way to the room's warmth (derived, for a loss of 0.8 W/K).",
        new Step.Ask("What do you see, now that it is cold again or emptied?", "Take jars out closed and let them come to the room before you open any.",
        [
            new("drops", "Drops inside the glass", Drops),
            new("wet", "Wet outside: steel, labels", Damp with { Verdict = "Dry it outside and look for rust." }),
            new("loose", "Something is loose or lifted", Loose),
            new("nothing", "Nothing", Twice with { Verdict = "As a rule nothing to do; look once more in two weeks.", Reason = "A day of warmth ages leaf by less than a day more. What matters is water on cold steel." }),
        ]));

    internal static Trouble Flood { get; } = new(
        "flood", "After a flood or a burst pipe", "Photograph everything before you touch it. Gloves.",
        new Step.Ask("Did water reach this package?", "The line on the wall tells for whole shelves.",
        [
            new("yes", "Yes, or nobody can say that it did not", new Step.Ask("What is it?", null,
            [
                new("can", "A sound all-metal can with seamed ends", Washed),
                new("other", "Anything else: jar, slip or snap lid, pull tab, pouch, bag", Wetted),
            ])),
            new("no", "No, it stood above the line", Damp),
        ]));

    internal static Trouble Move { get; } = new(
        "move", "After moving house or a parcel's journey", "Keep it upright. Let it come to the room's temperature, closed.",
        new Step.Ask("What do you see on it?", "Run a finger round the rim; press the lid; look along film and seams.",
        [
            new("glass", "A chip or a crack", new Step.End(Decision.Discard, "Throw jar and leaf away.", "Splinters cannot be picked out of leaf.", ["Wear gloves.", "Bag it closed.", "Look at what stood beside it."], 7, Cautions.Glass)),
            new("loose", "Something is loose, lifted, slack or split", Loose),
            new("bulge", "It bulges", BulgeTree.Tree.Root),
            new("drops", "Drops inside", Drops),
            new("nothing", "Nothing", Twice with { Caution = Cautions.Glass }),
        ]));
}
