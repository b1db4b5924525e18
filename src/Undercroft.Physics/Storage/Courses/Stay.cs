using Undercroft.Physics.Climate;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>One path over an ensemble: a middle specimen and what each draw multiplies it with.</summary>
/// <param name="Median">Conductances of the middle specimen; activation energies are the same for all draws.</param>
/// <param name="Water">Factor on the conductance for water.</param>
/// <param name="Oxygen">Factor for oxygen.</param>
/// <param name="CarbonDioxide">Factor for carbon dioxide.</param>
/// <param name="Nitrogen">Factor for nitrogen.</param>
/// <param name="Viscous">Factor on the viscous conductance.</param>
/// <param name="FromDay">Day from which the path is there: a closure that fails. Negative infinity: all along; positive infinity: never.</param>
public sealed record PathDraws(
    ExchangePath Median, PerDraw Water, PerDraw Oxygen, PerDraw CarbonDioxide, PerDraw Nitrogen, PerDraw Viscous, PerDraw FromDay)
{
    /// <summary>Activation energies of each draw; null where all share the middle specimen's. Only rigid packages without viscous flow take drawn ones.</summary>
    public PathEnergies? Energies { get; init; }

    /// <summary>A path whose draws multiply all conductances alike, there all along.</summary>
    public static PathDraws Of(ExchangePath median, PerDraw factor) => Of(median, factor, double.NegativeInfinity);

    /// <summary>A path whose draws multiply all conductances alike, there from a day on.</summary>
    public static PathDraws Of(ExchangePath median, PerDraw factor, PerDraw fromDay) => new(median, factor, factor, factor, factor, factor, fromDay);
}

/// <summary>The gas space over an ensemble.</summary>
public abstract record HeadspaceDraws
{
    private HeadspaceDraws()
    {
    }

    /// <summary>Glass and tins.</summary>
    /// <param name="Volume">m³.</param>
    public sealed record Rigid(PerDraw Volume) : HeadspaceDraws;

    /// <summary>Pouches and bags.</summary>
    /// <param name="Minimum">Pore volume of the pressed leaf, m³.</param>
    /// <param name="Maximum">Volume at which the walls are taut, m³.</param>
    public sealed record Flexible(PerDraw Minimum, PerDraw Maximum) : HeadspaceDraws;
}

/// <summary>Oxygen uptake over an ensemble.</summary>
/// <param name="Rate">At the reference temperature: per second of the oxygen present, or mol/(s·Pa) of its pressure; of the whole package or of 1 kg of dry leaf.</param>
/// <param name="ReferenceKelvin">K.</param>
/// <param name="Q10">Factor per 10 K.</param>
/// <param name="RespiratoryQuotient">mol of carbon dioxide per mol of oxygen.</param>
/// <param name="Basis">What the rate multiplies.</param>
/// <param name="PerKilogram">True where the rate is that of 1 kg of dry leaf.</param>
public sealed record UptakeDraws(PerDraw Rate, double ReferenceKelvin, PerDraw Q10, PerDraw RespiratoryQuotient, UptakeBasis Basis, bool PerKilogram)
{
    /// <summary>Leaf that takes up nothing.</summary>
    public static UptakeDraws None => new(0, Conductance.ReferenceKelvin, 2, 1, UptakeBasis.PerMole, PerKilogram: false);
}

/// <summary>What a person does to a package at the beginning of a stay.</summary>
public abstract record CourseEvent
{
    private CourseEvent()
    {
    }

    /// <summary>Closed in with room air; the total pressure inside is then <paramref name="Pressure"/>.</summary>
    /// <param name="Pressure">Pa absolute; NaN for the room's own.</param>
    /// <param name="Volume">m³ while sealing; NaN for a rigid package's own volume and a flexible one's pore volume.</param>
    /// <param name="Kelvin">Temperature while sealing; NaN for the mean of the day in the place.</param>
    public sealed record Sealed(PerDraw Pressure, PerDraw Volume, PerDraw Kelvin) : CourseEvent
    {
        /// <summary>In the room as it is.</summary>
        public static Sealed InTheRoom => new(double.NaN, double.NaN, double.NaN);
    }

    /// <summary>Opened: room air takes the place of part of the headspace, and its moisture is settled with the leaf.</summary>
    /// <param name="Fraction">Of the headspace that is exchanged, 0 to 1.</param>
    public sealed record Opened(PerDraw Fraction) : CourseEvent;

    /// <summary>Leaf taken out, with its water.</summary>
    /// <param name="Fraction">Of the leaf, 0 up to, but not including, 1.</param>
    public sealed record TakenOut(PerDraw Fraction) : CourseEvent;

    /// <summary>Water added to the leaf, or removed.</summary>
    /// <param name="Kilograms">kg; negative for drying.</param>
    public sealed record WaterAdded(PerDraw Kilograms) : CourseEvent;

    /// <summary>The headspace holds these amounts of gas.</summary>
    /// <param name="Oxygen">mol.</param>
    /// <param name="CarbonDioxide">mol.</param>
    /// <param name="Nitrogen">mol.</param>
    public sealed record Filled(PerDraw Oxygen, PerDraw CarbonDioxide, PerDraw Nitrogen) : CourseEvent;
}

/// <summary>A package in one place, in one container, between two days.</summary>
/// <param name="FromDay">First day; the first stay's is where the course begins.</param>
/// <param name="ToDay">Last day, after the first; the next stay begins there.</param>
/// <param name="Place">Its climate, in whole days that count from the same day 0 in every place.</param>
/// <param name="Headspace">Gas space.</param>
/// <param name="Paths">Ways in and out, an open mouth while in use among them.</param>
/// <param name="Uptake">Oxygen taken up.</param>
/// <param name="Air">What the room's air is made of.</param>
/// <param name="Events">At the first day, in their order. Without any, leaf and gas come along from the stay before; the first stay then begins sealed in its room.</param>
/// <param name="TemperatureOffset">K by which the package's spot is warmer than the place.</param>
/// <param name="HumidityOffset">By how much the relative humidity there is higher, fraction.</param>
/// <param name="LeafTakenPerDay">Moist leaf taken out steadily while in use, kg/day.</param>
public sealed record Stay(
    int FromDay,
    int ToDay,
    ClimateTable Place,
    HeadspaceDraws Headspace,
    IReadOnlyList<PathDraws> Paths,
    UptakeDraws Uptake,
    RoomAir Air,
    IReadOnlyList<CourseEvent> Events,
    PerDraw TemperatureOffset = default,
    PerDraw HumidityOffset = default,
    PerDraw LeafTakenPerDay = default);
