using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>How tight a closed container with a desiccant turned out.</summary>
public enum Tightness
{
    /// <summary>At most 100 mg a day and litre.</summary>
    Tight,

    /// <summary>At most 2000.</summary>
    WellClosed,

    /// <summary>More.</summary>
    Open,
}

/// <summary>Water that gets into a closed container with a drying agent in it, found by weighing beside one with glass beads.</summary>
/// <remarks>
/// <para><b>Equation</b> rate = [(T_f − T_i) − (C_f − C_i)]/(days·V), mg/(day·l), T the tested container, C the control.</para>
/// <para><b>Source</b> [Usp671], older editions, ten containers for 14 days at 23 °C and 75 %; formula and limits from memory. The standard asks for ten containers with at most one over the
/// limit and none over twice (tight) or one and a half times (well-closed) of it; one container alone only hints.</para>
/// <para><b>Valid</b> Containers whose walls take up no water. Calcium chloride, not spent.</para>
/// <para><b>Error</b> The scale: 10 mg over 14 days in 100 ml are 7 mg/(day·l). Control walls hold more water than test walls.</para>
/// </remarks>
public static class DesiccantTest
{
    /// <summary>mg/(day·l) up to which one container counts as tight.</summary>
    public const double TightLimit = 100;

    /// <summary>mg/(day·l) up to which one container counts as well closed.</summary>
    public const double WellClosedLimit = 2000;

    /// <summary>Rate in mg/(day·l); may come out negative by the scale.</summary>
    /// <param name="gain">Of the tested container.</param>
    /// <param name="controlGain">Of the control.</param>
    /// <param name="days">Between the weighings, above zero.</param>
    /// <param name="volume">Filled volume, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Days or volume not above zero, or a number that is not finite.</exception>
    public static double MilligramsPerDayLitre(Mass gain, Mass controlGain, double days, Volume volume)
    {
        var net = (gain.Kilograms - controlGain.Kilograms) * 1e6;
        return double.IsFinite(net)
            ? net / (Positive.Number(days) * Positive.Number(volume.CubicMetres) * 1e3)
            : throw new ArgumentOutOfRangeException(nameof(gain), gain.Kilograms, "Must be finite.");
    }

    /// <summary>What a rate says of one container.</summary>
    public static Tightness Of(double milligramsPerDayLitre) => milligramsPerDayLitre switch
    {
        <= TightLimit => Tightness.Tight,
        <= WellClosedLimit => Tightness.WellClosed,
        double.NaN => throw new ArgumentOutOfRangeException(nameof(milligramsPerDayLitre), milligramsPerDayLitre, "Must be a number."),
        _ => Tightness.Open,
    };
}
