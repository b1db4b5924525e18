namespace Undercroft.Physics.Climate.Years;

/// <summary>A room, shelf or box that follows what is around it with one time constant.</summary>
/// <remarks>
/// <para><b>Equation</b> a wave of angular frequency ω comes through with the gain 1/√(1 + ω²τ²), later by atan(ωτ)/ω.</para>
/// <para><b>Source</b> the first-order lag of every textbook, from memory.</para>
/// <para><b>Valid</b> one store of heat, no heating of its own.</para>
/// <para><b>Error</b> walls have many time constants: fit it from logs of both sides where they exist.</para>
/// </remarks>
public static class RoomLag
{
    /// <summary>Time constant of a place inside a room, a shelf with things on it, where no log tells, h: common practice, no source.</summary>
    public const double ShelfHours = 6;

    /// <summary>The shortest that is reckoned with, two in three: an open board.</summary>
    public const double ShelfLeastHours = 2;

    /// <summary>The longest: a full cupboard with its doors shut.</summary>
    public const double ShelfMostHours = 18;

    /// <summary>Share of a wave's swing that comes through.</summary>
    /// <param name="timeConstantHours">Not negative.</param>
    /// <param name="periodHours">Of the wave.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative time constant, or a period not above zero.</exception>
    public static double Gain(double timeConstantHours, double periodHours) => 1 / Math.Sqrt(1 + Math.Pow(Product(timeConstantHours, periodHours), 2));

    /// <summary>Hours by which a wave comes later.</summary>
    public static double DelayHours(double timeConstantHours, double periodHours) => Math.Atan(Product(timeConstantHours, periodHours)) * periodHours / Math.Tau;

    private static double Product(double timeConstant, double period) => timeConstant is >= 0 and < double.PositiveInfinity && period is > 0 and < double.PositiveInfinity
        ? Math.Tau * timeConstant / period
        : throw new ArgumentOutOfRangeException(nameof(timeConstant), timeConstant, "A time constant is not negative, a period above zero.");
}
