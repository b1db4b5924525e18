using Undercroft.Ledger.Events;

namespace Undercroft.Keeping.Troubles;

/// <summary>Found beetles, holes or fine dust.</summary>
internal static class BeetleTree
{
    private static readonly string[] Freezing =
    [
        "Bag it twice, press the air out, close it. Packed glass is not frozen: isolate it instead.",
        "Freeze at −18 °C for seven days; a pound in one block takes a day to freeze through (common practice; of eggs nearly all die within a day at −10 °C and lower, seven days are margin).",
        "Then a day in the fridge, then the room, unopened until it is dry outside.",
    ];

    private static readonly Step.End Here = new(
        Decision.Isolate, "Beetles are in it: isolate it now, unopened, and everything soft that stood near.", "Adults fly and larvae bore through thin film; glass and sound tins stop them.",
        ["Carry it outdoors closed; do not open it indoors.", "Bag it twice. Throw it away, or freeze it if it is worth that:", .. Freezing, "Wipe and vacuum the shelf; empty the vacuum outdoors.", "Look at the packages that are named below."], 14, Cautions.Beetle, Finding.Insects);

    private static readonly Step.End Old = new(
        Decision.Isolate, "Old holes, no life seen: keep it apart and watch it through one cycle.", "From egg to beetle takes from under a month when hot to four months at 20 °C.",
        ["Bag it, white paper under it: fresh dust shows.", "Freeze what is not in glass, as above all if it stands warmer than 18 °C:", .. Freezing, "Look at the packages that are named below."], 30, Cautions.Beetle, Finding.Insects);

    private static readonly Step.End Near = new(
        Decision.Watch, "It stood near: look at it twice.", "Sound glass and closed tins stop beetles; bags and open tins do not. Eggs hatch seldom below 16 °C and more than half the time at 18.",
        ["Look for holes and fine dust, at folds and seals first.", "Put soft packages into glass, or freeze them:", .. Freezing], 30, Cautions.Beetle);

    internal static Trouble Tree { get; } = new(
        "beetle", "Found beetles, holes or dust", "Close what is open. Do not carry it through the house open.",
        new Step.Ask("What did you find in this package?", "Larvae are white and curved; beetles brown, two to three millimetres.",
        [
            new("alive", "Beetles or larvae, alive or dead", Here),
            new("dust", "Fresh holes or dust", Here with { Verdict = "Holes and fresh dust mean that something is in it: isolate it now, unopened." }),
            new("old", "A hole or two, no dust", Old),
            new("near", "Nothing here, but it stood near one", Near),
            new("unsure", "I am not sure", Old with { Verdict = "Not known: keep it apart and watch it through one cycle." }),
        ]));
}
