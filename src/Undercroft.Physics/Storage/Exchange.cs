using Undercroft.Physics.Air;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage;

/// <summary>How a package and its room change each other: the right-hand side of the storage model, per day.</summary>
/// <remarks>
/// <para><b>Equation</b> dw/dt = −Σ G_w f_w psat (a − RH); dn_O2/dt = Σ G_o f_o (p_O2,room − p_O2) − uptake; CO2 likewise + RQ·uptake; N2 likewise;
/// f = exp[−(E/R)(1/T − 1/296.15 K)]. Viscous flow F = G_v (p − P) carries the inside's composition out or the room's in.
/// A breathing package keeps p = P: F follows from d(n)/dt = d((P − a·psat) V/(R T))/dt.</para>
/// <para><b>Source</b> Fick and Arrhenius for the films, Poiseuille for the flow; the storage model's own statement.</para>
/// <para><b>Valid</b> leaf at the room's temperature and well mixed; the vapour in the headspace is far less than the water in the leaf.</para>
/// <para><b>Error</b> thick leaf lags by days to weeks; the headspace's own vapour is left out of the water balance (below 0.1 % of it).</para>
/// </remarks>
public sealed class Exchange : IVectorField
{
    private const double Day = PackageModel.SecondsPerDay;
    private const double R = PhysicalConstants.GasConstant;

    private readonly PackageModel model;
    private readonly IPlaceClimate climate;
    private readonly double dry;
    private readonly double wettest;
    private readonly bool breathes;
    private readonly double viscous;
    private readonly Moment here = new();
    private readonly Moment sooner = new();
    private readonly Moment later = new();

    /// <summary>A package in a place.</summary>
    public Exchange(PackageModel model, IPlaceClimate climate)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(climate);
        (this.model, this.climate) = (model.Checked(), climate);
        (dry, breathes, viscous) = (model.DryMass.Kilograms, model.Breathes, model.Viscous * Day);
        wettest = model.Leaf.MoistureAt(new(0.99999)).DryBasis;
    }

    /// <inheritdoc/>
    public int Dimension => 4;

    /// <inheritdoc/>
    public double TimeIncrement => 1e-4;

    /// <inheritdoc/>
    /// <remarks>State: water kg, oxygen, carbon dioxide, nitrogen mol; rates per day. Leaf wetter than its isotherm reaches gives NaN, which an integrator reports.</remarks>
    public void Rate(double time, ReadOnlySpan<double> state, Span<double> rate)
    {
        var now = At(here, time);
        var a22 = Activity22(state[0]);
        var vapour = a22 * now.Shift * now.Saturation;
        var outside = now.Room.RelativeHumidity * now.Saturation;
        var inside = InsideAir.Of(model, state[1], state[2], state[3], vapour, now.Room);
        var around = Around(now.Room, outside);

        var water = now.Water * (outside - vapour) * PhysicalConstants.MolarMassOfWater;
        var uptake = now.Uptake * (model.Uptake.Basis == UptakeBasis.PerMole ? state[1] : inside.Oxygen);
        var oxygen = (now.Oxygen * (around.Oxygen - inside.Oxygen)) - uptake;
        var carbonDioxide = (now.CarbonDioxide * (around.CarbonDioxide - inside.CarbonDioxide)) + (model.Uptake.RespiratoryQuotient * uptake);
        var nitrogen = now.Nitrogen * (around.Nitrogen - inside.Nitrogen);

        var flow = Flow(time, state, a22, water, oxygen + carbonDioxide + nitrogen, inside, around);
        if (flow != 0)
        {
            var (from, total) = flow > 0 ? (inside, inside.Total) : (around, now.Room.Pascals);
            water -= flow * from.Vapour / total * PhysicalConstants.MolarMassOfWater;
            oxygen -= flow * from.Oxygen / total;
            carbonDioxide -= flow * from.CarbonDioxide / total;
            nitrogen -= flow * from.Nitrogen / total;
        }

        (rate[0], rate[1], rate[2], rate[3]) = (water, oxygen, carbonDioxide, nitrogen);
    }

    /// <summary>Water that leaves through each path, kg/day, written apart from <see cref="Rate"/> so that the two can be held against each other.</summary>
    /// <param name="time">Days.</param>
    /// <param name="state">As in <see cref="Rate"/>.</param>
    /// <param name="perPath">Filled, one number per path.</param>
    public void WaterThroughPaths(double time, ReadOnlySpan<double> state, Span<double> perPath)
    {
        var room = climate.At(time);
        var saturation = SaturationPressure.OverWater(new(room.Kelvin)).Pascals;
        var leaf = SorptionShift.ActivityAt(model.Leaf, new(state[0] / dry), new(room.Kelvin)).Fraction;
        Span<double> rate = stackalloc double[4];
        var flow = 0.0;
        if (model.Viscous > 0)
        {
            var now = At(here, time);
            var inside = InsideAir.Of(model, state[1], state[2], state[3], leaf * saturation, room);
            var around = Around(room, room.RelativeHumidity * saturation);
            Rate(time, state, rate);
            var diffusive = now.Water * saturation * (room.RelativeHumidity - leaf) * PhysicalConstants.MolarMassOfWater;
            var gas = (now.Oxygen * (around.Oxygen - inside.Oxygen)) + (now.CarbonDioxide * (around.CarbonDioxide - inside.CarbonDioxide))
                + (now.Nitrogen * (around.Nitrogen - inside.Nitrogen))
                - ((1 - model.Uptake.RespiratoryQuotient) * now.Uptake * (model.Uptake.Basis == UptakeBasis.PerMole ? state[1] : inside.Oxygen));
            flow = Flow(time, state, leaf / now.Shift, diffusive, gas, inside, around);
            flow *= (flow > 0 ? inside.Vapour / inside.Total : around.Vapour / room.Pascals) / model.Viscous;
        }

        for (var i = 0; i < perPath.Length; i++)
        {
            var path = model.Paths[i];
            var diffusion = path.Water.AtReference * Warmth(path.Water.ActivationEnergy, room.Kelvin) * Day * saturation * (leaf - room.RelativeHumidity);
            perPath[i] = (diffusion + (flow * path.Viscous)) * PhysicalConstants.MolarMassOfWater;
        }
    }

    /// <summary>What is seen from outside at a time.</summary>
    public StorageRow RowAt(double time, ReadOnlySpan<double> state)
    {
        var now = At(here, time);
        var activity = Activity22(state[0]) * now.Shift;
        var inside = InsideAir.Of(model, state[1], state[2], state[3], activity * now.Saturation, now.Room);
        return new(
            time, new(state[0] / dry), new(activity), new(inside.Oxygen), new(inside.CarbonDioxide), new(inside.Nitrogen), new(inside.Total));
    }

    /// <summary>exp[−(E/R)(1/T − 1/296.15 K)].</summary>
    internal static double Warmth(double activationEnergy, double kelvin) =>
        Math.Exp(activationEnergy / R * ((1 / Conductance.ReferenceKelvin) - (1 / kelvin)));

    private InsideAir Around(in RoomMoment room, double vapour)
    {
        var dryPart = model.Air.Moist ? room.Pascals - vapour : room.Pascals;
        return new(0, model.Air.Oxygen * dryPart, model.Air.CarbonDioxide * dryPart, model.Air.Nitrogen * dryPart, vapour);
    }

    /// <summary>Viscous flow outwards, mol/day.</summary>
    private double Flow(double time, ReadOnlySpan<double> state, double a22, double water, double gas, in InsideAir inside, in InsideAir around)
    {
        if (viscous == 0)
            return 0;
        if (!breathes)
            return viscous * (inside.Total - here.Room.Pascals);
        var before = At(sooner, time - TimeIncrement);
        var after = At(later, time + TimeIncrement);
        var slope = (Room(after, a22) - Room(before, a22)) / (2 * TimeIncrement);
        var drying = model.Leaf.Slope(new(a22));
        slope -= here.Shift * here.Saturation / here.Room.Kelvin * water / (dry * drying); // the leaf's own drying lowers its vapour
        var excess = gas - (slope * inside.Volume / R);
        return excess > 0
            ? excess / (1 - (inside.Vapour / here.Room.Pascals))
            : excess / ((around.Oxygen + around.CarbonDioxide + around.Nitrogen) / here.Room.Pascals);

        static double Room(Moment moment, double a22) => (moment.Room.Pascals - (a22 * moment.Shift * moment.Saturation)) / moment.Room.Kelvin;
    }

    private double Activity22(double water)
    {
        var moisture = water / dry;
        if (!(moisture <= wettest))
            return double.NaN;
        return moisture > 0 ? model.Leaf.ActivityAt(new(moisture)).Fraction : 0;
    }

    private Moment At(Moment moment, double time)
    {
        if (moment.Time == time)
            return moment;
        var room = climate.At(time);
        var kelvin = room.Kelvin;
        (moment.Time, moment.Room) = (time, room);
        moment.Saturation = SaturationPressure.PascalOverWater(kelvin);
        moment.Shift = SorptionShift.FactorOf(model.Leaf.SorptionHeat, kelvin);
        (moment.Water, moment.Oxygen, moment.CarbonDioxide, moment.Nitrogen) = (0, 0, 0, 0);
        foreach (var path in model.Paths)
        {
            moment.Water += path.Water.AtReference * Day * Warmth(path.Water.ActivationEnergy, kelvin);
            moment.Oxygen += path.Oxygen.AtReference * Day * Warmth(path.Oxygen.ActivationEnergy, kelvin);
            moment.CarbonDioxide += path.CarbonDioxide.AtReference * Day * Warmth(path.CarbonDioxide.ActivationEnergy, kelvin);
            moment.Nitrogen += path.Nitrogen.AtReference * Day * Warmth(path.Nitrogen.ActivationEnergy, kelvin);
        }

        moment.Uptake = model.Uptake.Rate == 0
            ? 0
            : model.Uptake.Rate * Day * Math.Pow(model.Uptake.Q10, (kelvin - model.Uptake.ReferenceKelvin) / 10);
        return moment;
    }

    /// <summary>Everything that depends on the time alone, kept while the integrator asks for the same time again.</summary>
    private sealed class Moment
    {
        public double Time = double.NaN;
        public RoomMoment Room;
        public double Saturation;
        public double Shift;
        public double Water;
        public double Oxygen;
        public double CarbonDioxide;
        public double Nitrogen;
        public double Uptake;
    }
}
