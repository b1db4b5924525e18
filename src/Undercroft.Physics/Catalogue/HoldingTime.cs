using Undercroft.Physics.Air;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Catalogue;

/// <summary>How long leaf takes from one moisture to another in a container, at a constant climate.</summary>
/// <remarks>
/// <para><b>Equation</b> t = (m_d/M_w) ∫ dX/[G·psat(T)·(a(X, T) − RH)] between the two moistures, over activity at 22 °C by Simpson's rule with 400 steps.</para>
/// <para><b>Source</b> Water balance of well-mixed leaf; the form "rate = constant of the pack × vapour-pressure difference, isotherm inside" was validated on packs in [Coresta1993St26].</para>
/// <para><b>Valid</b> Constant temperature and humidity, conductance independent of moisture, no humidity pack. Independent of the integrator: it serves to fit and to check.</para>
/// <para><b>Error</b> Quadrature below 0.01 % while the leaf stays half a point of humidity away from balance with the room.</para>
/// </remarks>
public static class HoldingTime
{
    private const int Steps = 400;

    /// <summary>Days, or null where the leaf never gets there since the room stops it before.</summary>
    /// <param name="isotherm">Of the leaf.</param>
    /// <param name="dryMass">Leaf without water.</param>
    /// <param name="from">Moisture at the start.</param>
    /// <param name="to">Moisture in question, drier or moister.</param>
    /// <param name="waterConductance">Sum over the paths at the temperature, mol/(s·Pa), see <see cref="WaterConductance"/>.</param>
    /// <param name="temperature">Of room and leaf.</param>
    /// <param name="room">Its humidity.</param>
    /// <exception cref="ArgumentOutOfRangeException">A mass or conductance not above zero, or a humidity outside 0 to 100 %.</exception>
    public static double? Days(
        Isotherm isotherm, Mass dryMass, Moisture from, Moisture to, double waterConductance, Temperature temperature, RelativeHumidity room)
    {
        ArgumentNullException.ThrowIfNull(isotherm);
        if (!(dryMass.Kilograms > 0 && double.IsFinite(dryMass.Kilograms)))
            throw new ArgumentOutOfRangeException(nameof(dryMass), dryMass.Kilograms, "There must be leaf.");
        if (!(waterConductance > 0 && double.IsFinite(waterConductance)))
            throw new ArgumentOutOfRangeException(nameof(waterConductance), waterConductance, "Must be finite and above zero.");
        if (room.Fraction is not (>= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(room), room.Percent, "Humidity lies within 0 to 100 %.");

        var shift = SorptionShift.Factor(isotherm.SorptionHeat, temperature);
        var start = isotherm.ActivityAt(from).Fraction;
        var end = isotherm.ActivityAt(to).Fraction;
        var balance = room.Fraction / shift;
        if (start == end)
            return 0;
        if ((start < end && end >= balance) || (start > end && end <= balance))
            return null;

        double Integrand(double activity) => isotherm.Slope(new(activity)) / ((activity * shift) - room.Fraction);
        var width = (start - end) / Steps;
        var sum = Integrand(start) + Integrand(end);
        for (var i = 1; i < Steps; i++)
            sum += Integrand(end + (i * width)) * (i % 2 == 1 ? 4 : 2);
        var integral = sum * width / 3;
        var moles = dryMass.Kilograms / PhysicalConstants.MolarMassOfWater;
        return moles * integral / (waterConductance * SaturationPressure.OverWater(temperature).Pascals) / 86400;
    }

    /// <summary>Moisture after some days: the inverse of <see cref="Days"/> by bisection, to a hundred-thousandth of a kilogram per kilogram.</summary>
    public static Moisture After(
        double days, Isotherm isotherm, Mass dryMass, Moisture from, double waterConductance, Temperature temperature, RelativeHumidity room)
    {
        if (!(days >= 0 && double.IsFinite(days)))
            throw new ArgumentOutOfRangeException(nameof(days), days, "Must be finite and not negative.");
        var (near, far) = (from.DryBasis, SorptionShift.MoistureAt(isotherm, room, temperature).DryBasis);
        while (Math.Abs(far - near) > 1e-5)
        {
            var middle = (near + far) / 2;
            var needed = Days(isotherm, dryMass, from, new(middle), waterConductance, temperature, room);
            if (needed is { } value && value <= days)
                near = middle;
            else
                far = middle;
        }

        return new((near + far) / 2);
    }

    /// <summary>Water conductance of several paths at a temperature, mol/(s·Pa).</summary>
    public static double WaterConductance(IEnumerable<PathKind> paths, Temperature temperature) =>
        paths.Sum(path => ArrheniusFactor.At(temperature, path.Median.Water));
}
