using Undercroft.Physics.Climate;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>The channels of a place's table that one stay asks for, at one shift of temperature, looked up once.</summary>
internal sealed class StayChannels
{
    /// <summary>The activity at which the breath of moist leaf is tabulated beside that of dry air.</summary>
    public const double Moist = 0.6;

    public StayChannels(Stay stay, double offset, double[] heats, double[] q10s)
    {
        var place = stay.Place;
        RunningSums Of(double energy) => place.Channel(energy, offset);
        Air = Of(0);
        AirShifted = [.. heats.Select(Of)];
        Uptakes = [.. q10s.Select(q10 => place.Uptake(q10, stay.Uptake.ReferenceKelvin, stay.Uptake.Basis == UptakeBasis.PerPascal, offset))];
        Water = [.. stay.Paths.Select(path => Of(path.Median.Water.ActivationEnergy))];
        WaterShifted = [.. stay.Paths.Select(path => heats.Select(heat => Of(path.Median.Water.ActivationEnergy + heat)).ToArray())];
        Gases = [.. stay.Paths.Select(path => new[]
        {
            Of(path.Median.Oxygen.ActivationEnergy), Of(path.Median.CarbonDioxide.ActivationEnergy), Of(path.Median.Nitrogen.ActivationEnergy),
        })];
        if (stay.Paths.Any(path => path.Median.Viscous > 0))
            (DryBreath, MoistBreath) = (place.Breath(0, offset), place.Breath(Moist, offset));
    }

    public RunningSums Air { get; }

    public RunningSums[] AirShifted { get; }

    public RunningSums[] Uptakes { get; }

    public RunningSums[] Water { get; }

    public RunningSums[][] WaterShifted { get; }

    public RunningSums[][] Gases { get; }

    public RunningSums? DryBreath { get; }

    public RunningSums? MoistBreath { get; }
}
