namespace Undercroft.Physics.Climate;

/// <summary>The air of a place at one moment.</summary>
/// <param name="Kelvin">Temperature, K.</param>
/// <param name="RelativeHumidity">Over liquid water at every temperature, 0 to 1.</param>
/// <param name="Pascals">Total pressure of the room, Pa.</param>
public readonly record struct RoomMoment(double Kelvin, double RelativeHumidity, double Pascals);

/// <summary>Temperature, humidity and pressure of a place over time.</summary>
public interface IPlaceClimate
{
    /// <summary>The air at a time.</summary>
    /// <param name="day">Days from day 0 of the place; every time of a course counts from there.</param>
    RoomMoment At(double day);

    /// <summary>Days after which the climate repeats itself, a whole number; null where it does not.</summary>
    int? PeriodDays { get; }
}
