using Undercroft.Ledger;
using Undercroft.Physics.Climate.Exposures;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Places;

/// <summary>One day of a plan.</summary>
/// <param name="On">When.</param>
/// <param name="What">To do.</param>
public sealed record PlannedDay(DateOnly On, string What);

/// <summary>A treatment against insects in a freezer, as dates.</summary>
/// <param name="Verdict">First line.</param>
/// <param name="CoolingHours">Until the core is within 1 K of the freezer: computed, and doubled for the plan.</param>
/// <param name="HoldDays">At the core, after that.</param>
/// <param name="ThawHours">Until the core is within 1 K of the room, doubled.</param>
/// <param name="Days">In order.</param>
/// <param name="Reasons">The two strongest.</param>
/// <param name="Cautions">Where it can hurt leaf, glass or people.</param>
/// <param name="NarrowedBy">What would narrow it most.</param>
/// <param name="Rests">What the figures rest on.</param>
public sealed record FreezePlan(
    string Verdict, (double Computed, double Planned) CoolingHours, double HoldDays, double ThawHours, IReadOnlyList<PlannedDay> Days, IReadOnlyList<string> Reasons, IReadOnlyList<string> Cautions,
    string NarrowedBy, IReadOnlyList<string> Rests)
{
    private const double Doubt = 2; // of conductivity and of still air; see CoreCooling
    private const double LeastHoldDays = 3; // common practice, no source
    private const double CommonDays = 7; // the whole treatment as most people do it; common practice, no source
    private const double Warmest = -15;
    private const double Coldest = -45;

    /// <summary>Plans.</summary>
    /// <param name="pack">What goes in.</param>
    /// <param name="room">Temperature it comes from and goes back to.</param>
    /// <param name="freezer">Temperature of the freezer.</param>
    /// <param name="start">First day.</param>
    /// <param name="glass">True where leaf lies in glass.</param>
    /// <exception cref="Refusal">A freezer too warm to kill in days, or a pack that cannot be.</exception>
    public static FreezePlan Of(PackShape pack, Temperature room, Temperature freezer, DateOnly start, bool glass)
    {
        ArgumentNullException.ThrowIfNull(pack);
        if (!(freezer.Celsius <= Warmest && freezer.Celsius >= Coldest))
            throw new Refusal("A freezer for this is from -45 to -15 °C: at -10 °C the hardiest larvae need 22 days, and milder cold is not known to kill them. Set it to -18 °C or colder.");
        if (!(room.Celsius > 0 && room.Celsius < 45))
            throw new Refusal("The room lies between 0 and 45 °C. Write for example 20C.");
        if (!(pack.Leaf.Kilograms > 0 && pack.Leaf.Kilograms <= 50 && pack.Across.Metres is > 0 and <= 1 && pack.High.Metres is > 0 and <= 1 && pack.Deep is not { Metres: <= 0 or > 1 }))
            throw new Refusal("A pack has from a few grams to 50 kg of leaf, and measures up to a metre. Write for example --mass 500g --across 80mm --high 160mm.");
        var core = new Temperature(freezer.Kelvin + 1);
        var cooling = CoreCooling.Hours(pack, room, freezer, core);
        var thaw = Doubt * CoreCooling.Hours(pack, freezer, room, new Temperature(room.Kelvin - 1));
        var needed = ColdKill.DaysAt(core)!.Value;
        var hold = Math.Max(LeastHoldDays, 2 * needed);
        var coolDays = (int)Math.Ceiling(Doubt * cooling / 24);
        var cold = start.AddDays(coolDays);
        var end = cold.AddDays((int)Math.Ceiling(hold));
        if (end < start.AddDays((int)CommonDays))
            end = start.AddDays((int)CommonDays);
        var open = end.AddDays(Math.Max(1, (int)Math.Ceiling(thaw / 24)));
        var vessel = glass ? "jar" : "pack";
        List<PlannedDay> days =
        [
            new(start, $"Close it airtight{(glass ? ", lid firm" : ", in two bags pressed flat")}, write the date on it, put it into the freezer with space around it."),
            new(cold, FormattableString.Invariant($"By now the core is at {core.Celsius:0.#} °C or colder, with the doubled time. From here the days count.")),
            new(end, $"Take it out, closed, and leave it closed: no opening, no warm water, no oven."),
            new(open, $"Only now open the {vessel}, once its outside is dry and at room temperature. Look for dust, pinholes and dead beetles; weigh it."),
        ];
        return new(
            FormattableString.Invariant($"In on {start:yyyy-MM-dd}, out closed on {end:yyyy-MM-dd}, opened from {open:yyyy-MM-dd}: {end.DayNumber - start.DayNumber} days in the cold."),
            (cooling, Doubt * cooling), hold, thaw, days,
            [
                FormattableString.Invariant($"the core takes about {cooling:0.#} h (up to {Doubt * cooling:0.#} h) to come within 1 K of the freezer"),
                FormattableString.Invariant($"at {core.Celsius:0.#} °C the hardiest stage known, a resting larva of the tobacco moth, dies within {needed:0.#} days; the plan holds {hold:0.#} and never ends before a week"),
            ],
            CautionsFor(glass), "a thermometer whose probe lies in the middle of the pack: it replaces the computed cooling time", Sources);
    }

    private static readonly string[] Sources =
    [
        "cooling: first term of the conduction series [Heisler1947]; conductivity of leaf 0.06 (loose) or 0.12 W/(m K) (pressed) and 6 W/(m2 K) of still freezer air are assumptions, hence the doubled time",
        "killing: 1 d at -20, 3 d at -15, 22 d at -10 °C for acclimated resting larvae of Ephestia elutella, published [CollinsCold]; doubled, and no shorter than 3 days (common practice)",
        "a week altogether: common practice, no source",
    ];

    private static string[] CautionsFor(bool glass) =>
    [
        glass ? "Glass: cold makes it brittle and a sudden change cracks it. Never from the freezer into warm water or sun; wear gloves and eye protection, set it on wood, and throw out a jar with any chip or crack."
            : "Films and bags turn stiff in the cold and their seals crack when bent: do not squeeze, stack or drop frozen packs; check every seal before and after.",
        "Leaf snaps when frozen: do not shake or handle it until it is warm.",
        "Opened cold, the leaf takes up water from the air at once: keep it closed until it is at room temperature.",
        "Keep it apart from food and label it, out of reach of children and pets. Cold kills insects, not mould.",
    ];

}
