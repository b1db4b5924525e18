using Undercroft.Physics.Air;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <content>What a person does to a package at the beginning of a stay.</content>
internal sealed partial class CourseRun<T>
    where T : struct, ILane<T>
{
    private void Begin(Stay stay, StayDraw<T> now, bool first)
    {
        now.ReadStep(0);
        if (first && stay.Events.Count == 0)
            Seal(stay, now, CourseEvent.Sealed.InTheRoom);
        foreach (var each in stay.Events)
        {
            switch (each)
            {
                case CourseEvent.Sealed sealing:
                    Seal(stay, now, sealing);
                    break;
                case CourseEvent.Filled filled:
                    moles[0] = LaneOf<T>.Draws(filled.Oxygen, firstDraw, course.Draws);
                    moles[1] = LaneOf<T>.Draws(filled.CarbonDioxide, firstDraw, course.Draws);
                    moles[2] = LaneOf<T>.Draws(filled.Nitrogen, firstDraw, course.Draws);
                    break;
                case CourseEvent.Opened opened:
                    Open(stay, now, LaneOf<T>.Draws(opened.Fraction, firstDraw, course.Draws));
                    break;
                case CourseEvent.TakenOut taken:
                    dryMass *= T.Of(1) - LaneOf<T>.Draws(taken.Fraction, firstDraw, course.Draws);
                    break;
                case CourseEvent.WaterAdded added:
                    var water = LaneOf<T>.Draws(added.Kilograms, firstDraw, course.Draws);
                    Change((lane, activity) => ActivityOf(lane, MoistureOf(lane, activity) + (Of(water, lane) / Of(dryMass, lane))));
                    break;
                default:
                    throw new InvalidOperationException($"No event {each}.");
            }

            StayInRange();
        }
    }

    private void Seal(Stay stay, StayDraw<T> now, CourseEvent.Sealed sealing)
    {
        Span<double> amount = stackalloc double[T.Count];
        for (var i = 0; i < amount.Length; i++)
        {
            var draw = Math.Min(firstDraw + i, course.Draws - 1);
            double Or(double stated, T own) => double.IsNaN(stated) ? Of(own, i) : stated;
            var warm = Or(sealing.Kelvin[draw], now.Kelvin);
            var vapour = stay.Air.Moist
                ? Of(activity22, i) * SorptionShift.FactorOf(Of(now.Heat, i), warm) * SaturationPressure.PascalOverWater(warm)
                : 0;
            amount[i] = Math.Max(0, Or(sealing.Pressure[draw], now.RoomPressure) - vapour) * Or(sealing.Volume[draw], now.Minimum)
                / (PhysicalConstants.GasConstant * warm);
        }

        Fill(stay.Air, T.Load(amount), moles);
    }

    private void Open(Stay stay, StayDraw<T> now, T fraction)
    {
        var vapour = activity22 * now.ShiftedSaturation;
        var energy = T.Of(PhysicalConstants.GasConstant) * now.Kelvin;
        var slack = now.RoomPressure - vapour;
        var volume = T.Max(T.Min((moles[0] + moles[1] + moles[2]) * energy / slack, now.Maximum), now.Minimum);
        var fresh = new T[3];
        Fill(stay.Air, (stay.Air.Moist ? slack : now.RoomPressure) * volume / energy, fresh);
        for (var gas = 0; gas < 3; gas++)
            moles[gas] += fraction * (fresh[gas] - moles[gas]);
        var lost = fraction * volume * (vapour - now.RoomVapour) * T.Of(PhysicalConstants.MolarMassOfWater) / energy / dryMass;
        Change((lane, activity) => ActivityOf(lane, MoistureOf(lane, activity) - Of(lost, lane)));
    }

    private static void Fill(RoomAir air, T amount, Span<T> moles) =>
        (moles[0], moles[1], moles[2]) = (amount * T.Of(air.Oxygen), amount * T.Of(air.CarbonDioxide), amount * T.Of(air.Nitrogen));
}
