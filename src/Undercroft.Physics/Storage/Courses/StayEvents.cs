using Undercroft.Physics.Air;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>The room and the gas space of one draw on the day of an event.</summary>
/// <param name="Kelvin">Mean of the day.</param>
/// <param name="Pressure">Of the room, Pa.</param>
/// <param name="Vapour">Of the room, Pa.</param>
/// <param name="ShiftedSaturation">Mean of s psat: what vapour the leaf's activity at 22 °C means.</param>
/// <param name="Minimum">m³; a rigid package's own volume.</param>
/// <param name="Maximum">m³.</param>
/// <param name="Heat">Of sorption, J/mol.</param>
internal readonly record struct EventRoom(double Kelvin, double Pressure, double Vapour, double ShiftedSaturation, double Minimum, double Maximum, double Heat);

/// <summary>One draw of a package.</summary>
internal record struct DrawState(double Activity22, double Dry, double Oxygen, double CarbonDioxide, double Nitrogen);

/// <summary>What a person does to a package at the beginning of a stay, draw by draw.</summary>
internal static class StayEvents
{
    private const double R = PhysicalConstants.GasConstant;

    /// <summary>All events of a stay, in their order; the first stay of a course begins sealed in its room where it says nothing.</summary>
    public static void Begin(Stay stay, bool first, int draw, Isotherm leaf, in EventRoom room, ref DrawState state)
    {
        if (first && stay.Events.Count == 0)
            Seal(stay.Air, draw, room, CourseEvent.Sealed.InTheRoom, ref state);
        foreach (var each in stay.Events)
        {
            switch (each)
            {
                case CourseEvent.Sealed sealing:
                    Seal(stay.Air, draw, room, sealing, ref state);
                    break;
                case CourseEvent.Filled filled:
                    (state.Oxygen, state.CarbonDioxide, state.Nitrogen) = (filled.Oxygen[draw], filled.CarbonDioxide[draw], filled.Nitrogen[draw]);
                    break;
                case CourseEvent.Opened opened:
                    Open(stay.Air, opened.Fraction[draw], leaf, room, ref state);
                    break;
                case CourseEvent.TakenOut taken:
                    state.Dry *= 1 - taken.Fraction[draw];
                    break;
                case CourseEvent.WaterAdded added:
                    state.Activity22 = ActivityOf(leaf, MoistureOf(leaf, state.Activity22) + (added.Kilograms[draw] / state.Dry));
                    break;
                default:
                    throw new InvalidOperationException($"No event {each}.");
            }
        }
    }

    /// <summary>NaN where the isotherm does not reach so far.</summary>
    public static double ActivityOf(Isotherm leaf, double dryBasis)
    {
        try
        {
            return double.IsNaN(dryBasis) ? double.NaN : leaf.ActivityAt(new(dryBasis)).Fraction;
        }
        catch (ArgumentOutOfRangeException)
        {
            return double.NaN;
        }
    }

    private static double MoistureOf(Isotherm leaf, double activity) => double.IsNaN(activity) ? double.NaN : leaf.MoistureAt(new(activity)).DryBasis;

    private static void Seal(RoomAir air, int draw, in EventRoom room, CourseEvent.Sealed sealing, ref DrawState state)
    {
        var warm = Or(sealing.Kelvin[draw], room.Kelvin);
        var vapour = air.Moist ? state.Activity22 * SorptionShift.FactorOf(room.Heat, warm) * SaturationPressure.PascalOverWater(warm) : 0;
        var amount = Math.Max(0, Or(sealing.Pressure[draw], room.Pressure) - vapour) * Or(sealing.Volume[draw], room.Minimum) / (R * warm);
        (state.Oxygen, state.CarbonDioxide, state.Nitrogen) = (amount * air.Oxygen, amount * air.CarbonDioxide, amount * air.Nitrogen);
    }

    private static void Open(RoomAir air, double fraction, Isotherm leaf, in EventRoom room, ref DrawState state)
    {
        var vapour = state.Activity22 * room.ShiftedSaturation;
        var energy = R * room.Kelvin;
        var slack = room.Pressure - vapour;
        var volume = Math.Max(Math.Min((state.Oxygen + state.CarbonDioxide + state.Nitrogen) * energy / slack, room.Maximum), room.Minimum);
        var fresh = (air.Moist ? slack : room.Pressure) * volume / energy;
        state.Oxygen += fraction * ((fresh * air.Oxygen) - state.Oxygen);
        state.CarbonDioxide += fraction * ((fresh * air.CarbonDioxide) - state.CarbonDioxide);
        state.Nitrogen += fraction * ((fresh * air.Nitrogen) - state.Nitrogen);
        var lost = fraction * volume * (vapour - room.Vapour) * PhysicalConstants.MolarMassOfWater / energy / state.Dry;
        state.Activity22 = ActivityOf(leaf, MoistureOf(leaf, state.Activity22) - lost);
    }

    private static double Or(double stated, double own) => double.IsNaN(stated) ? own : stated;
}
