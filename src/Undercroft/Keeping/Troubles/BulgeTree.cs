using Undercroft.Ledger.Events;

namespace Undercroft.Keeping.Troubles;

/// <summary>A domed tin or lid: height and warmth, or gas that was made inside.</summary>
internal static class BulgeTree
{
    private static readonly Step.End Leaking = new(
        Decision.Discard, "Throw it away, closed.", "A tin that leaks, hisses or stinks has been breached or is working inside.",
        ["Outdoors, in a closed bag, without opening it.", "Photograph it first, with its codes.", "Look at the others of its lot."], 7, Cautions.Pressure, Finding.Bulge);

    private static readonly Step.End Grown = new(
        Decision.Isolate, "It grows: keep it apart, outdoors or in a shed, and do not open it indoors.", "Height and warmth explain a dome that stays; one that grows at the same place and warmth has another cause, most often fermentation.",
        ["Put it in a box with a lid, away from people.", "Measure the dome again at the same place and temperature.", "If it grows further: throw it away closed."], 7, Cautions.Pressure, Finding.Bulge);

    private static readonly Step.End Carried = new(
        Decision.Watch, "Height or warmth may explain it. Measure the dome and compare.", "Going up 1500 m alone puts some 17 kPa more into a closed tin than outside, enough to dome a lid; 20 degrees warmer about 7 (derived from the gas law and the standard atmosphere).",
        ["Measure the dome's height over the rim and write it down with place and temperature.", "Measure it again at the same place and temperature.", "A fridge test proves little: cooling by 16 degrees takes away only 6 kPa."], 14, Cautions.Pressure, Finding.Bulge);

    private static readonly Step.End NoCause = new(
        Decision.Isolate, "No outside cause is known: keep it apart and measure it.", "Neither height nor warmth changed, so gas may have been made inside; or it was domed when it came.",
        ["Measure the dome's height over the rim and write it down.", "Look in your photos whether it was so when it came.", "Measure again in two weeks. If it has grown: throw it away closed."], 14, Cautions.Pressure, Finding.Bulge);

    internal static Trouble Tree { get; } = new(
        "bulge", "A tin or lid bulges", "Set it down, turned away from faces. Do not press the dome, do not pierce it, do not open it.",
        new Step.Ask("Does it leak, hiss, drip or stink?", null,
        [
            new("yes", "Yes", Leaking),
            new("no", "No", new Step.Ask("Has the dome been measured before, and has it grown since?", "Only a height measured at the same place and about the same temperature counts.",
            [
                new("grown", "It has grown", Grown),
                new("same", "It is the same, or less", new Step.Ask("Did it come up by some hundred metres since it was closed, or is it much warmer now?", null, [new("yes", "Yes", Carried), new("no", "No", NoCause), new("unsure", "I do not know", Carried with { Verdict = "Not known: measure the dome, and find out where it was closed." })])),
                new("first", "It was never measured", new Step.Ask("Did it come up by some hundred metres since it was closed, or is it more than ten degrees warmer now?", null, [new("yes", "Yes", Carried), new("no", "No", NoCause), new("unsure", "I do not know", NoCause)])),
            ])),
        ]));
}
