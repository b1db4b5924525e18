using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>What the gas of a package that gives way or lets air flow meets over one step: air, walls and leaf, the same for all its sub-steps.</summary>
internal readonly struct VentedMoment<T>
    where T : struct, ILane<T>
{
    private const double R = PhysicalConstants.GasConstant;
    private const double NearLimit = 1e-9; // of the pressure

    private readonly T rise;

    /// <summary>The step, or the row's day, that <paramref name="now"/> has read.</summary>
    /// <param name="now">The draws.</param>
    /// <param name="vapour">Inside, Pa.</param>
    /// <param name="held">Dry gas as the step begins, mol.</param>
    public VentedMoment(StayDraw<T> now, T vapour, T held)
    {
        Now = now;
        Vapour = T.Min(vapour, T.Of(0.9) * now.RoomPressure);
        Slack = now.RoomPressure - Vapour;
        Energy = T.Of(R) * now.Kelvin;
        VapourPerSaturation = Vapour / now.Saturation;
        Breath = now.Breath + (vapour / now.Saturation * now.BreathPerActivity);
        LetsFlow = !T.AllLess(now.Viscous, T.Of(double.Epsilon));
        var nought = T.Of(0);
        if (LetsFlow && !now.Flexible)
        {
            Breathes = T.WhereLess(now.Maximum, now.Viscous * T.Of(R * Conductance.ReferenceKelvin), T.Of(1), nought);

            // A package at the room's pressure first takes in what the step holds more than the one before: its rises must not count that again.
            var wanted = Slack * now.Maximum / Energy;
            var net = T.Of(2) * (wanted - held) / (wanted + held);
            Breath = T.WhereLess(nought, Breathes, T.Max(Breath - T.Max(net, nought), nought), Breath);
        }

        if (now.Flexible)
            rise = Vapour * SaturationPressure.LogSlopeOverWater(now.Kelvin);
    }

    public StayDraw<T> Now { get; }

    /// <summary>Vapour inside, Pa.</summary>
    public T Vapour { get; }

    /// <summary>The room's pressure above it, Pa.</summary>
    public T Slack { get; }

    /// <summary>R T, J/mol.</summary>
    public T Energy { get; }

    /// <summary>Activity by the step's mean saturation.</summary>
    public T VapourPerSaturation { get; }

    /// <summary>Rises of ln[(P − a·psat)/T] over the step, for breathing packages without the rise from the step before.</summary>
    public T Breath { get; }

    /// <summary>True where air flows through the walls of any draw.</summary>
    public bool LetsFlow { get; }

    /// <summary>1 where air flows so freely that the pressure inside is the room's, 0 elsewhere.</summary>
    public T Breathes { get; }

    /// <summary>Volume of so much dry gas at the room's pressure, between the walls' least and most, m³.</summary>
    public T Volume(T held) => Now.Flexible ? T.Max(T.Min(held * Energy / Slack, Now.Maximum), Now.Minimum) : Now.Maximum;

    /// <summary>Mean total pressure of a flexible package over the day: the room's but for the hours in which it is tight or bulging.</summary>
    public T FlexiblePressure(T held)
    {
        var (deficit, excess) = DayAtLimits(held, out _, out _);
        return Now.RoomPressure - deficit + excess;
    }

    /// <summary>Total pressure of a flexible package where it does not follow the temperature at a fixed volume; 0 where it does all day.</summary>
    public T PressureOfFilms(T held)
    {
        var (deficit, excess) = DayAtLimits(held, out var tight, out var taut);
        var total = Now.RoomPressure - deficit + excess;
        var near = T.Of(NearLimit) * Now.RoomPressure;
        var nought = T.Of(0);
        return T.WhereLess(Away(total, tight), near, nought, T.WhereLess(Away(total, taut), near, nought, total));
    }

    /// <summary>What one mole of dry gas adds to the pressure inside, on the mean of the day.</summary>
    public T PascalsPerMole(T held)
    {
        if (Now.Flexible)
            return (FlexiblePressure(held) - Vapour) / held;
        var closed = T.Of(R) * Now.Kelvin / Now.Maximum;
        return LetsFlow ? T.WhereLess(T.Of(0), Breathes, Slack / held, closed) : closed;
    }

    /// <summary>By how much a flexible package lies below the room's pressure on the mean of the day while tight, Pa; how much of the day that is; what a mole more would change, Pa.</summary>
    public (T Pascals, T Share, T PerMole) Below(T held)
    {
        var perMole = T.Of(R) / Now.Minimum;
        var (steady, amplitude) = (Slack - (held * perMole * Now.Kelvin), Swing(held * perMole));
        return (Turn<T>.MeanAboveZero(steady, amplitude), Turn<T>.ShareAboveZero(steady, amplitude), perMole * Now.Kelvin);
    }

    /// <summary>The same above the room's pressure while it bulges.</summary>
    public (T Pascals, T Share, T PerMole) Above(T held)
    {
        var perMole = T.Of(R) / Now.Maximum;
        var (steady, amplitude) = ((held * perMole * Now.Kelvin) - Slack, Swing(held * perMole));
        return (Turn<T>.MeanAboveZero(steady, amplitude), Turn<T>.ShareAboveZero(steady, amplitude), perMole * Now.Kelvin);
    }

    private (T Deficit, T Excess) DayAtLimits(T held, out T tight, out T taut)
    {
        var gas = held * T.Of(R);
        var (least, most) = (gas / Now.Minimum, gas / Now.Maximum); // per kelvin
        (tight, taut) = (Vapour + (least * Now.Kelvin), Vapour + (most * Now.Kelvin));
        return (Turn<T>.MeanAboveZero(Now.RoomPressure - tight, Swing(least)), Turn<T>.MeanAboveZero(taut - Now.RoomPressure, Swing(most)));
    }

    /// <summary>Amplitude over the day of the pressure at a fixed volume less the room's, Pa.</summary>
    private T Swing(T perKelvin)
    {
        var inside = perKelvin + rise;
        var (cos, sin) = ((inside * Now.KelvinCos) - Now.RoomPressureCos, (inside * Now.KelvinSin) - Now.RoomPressureSin);
        return T.Sqrt((cos * cos) + (sin * sin));
    }

    private static T Away(T one, T other) => T.Max(one - other, other - one);
}
