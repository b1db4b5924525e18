using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate.Exposures;

/// <summary>A pack of leaf as heat sees it: an upright cylinder (a jar, a tin) or a block.</summary>
/// <param name="Across">Diameter of the cylinder; the two sides of a block, the smaller one first counts.</param>
/// <param name="Deep">The other side of a block; null for a cylinder.</param>
/// <param name="High">Height.</param>
/// <param name="Leaf">Mass of moist leaf in it.</param>
/// <param name="Moisture">Of the leaf, wet basis, fraction.</param>
public sealed record PackShape(Length Across, Length? Deep, Length High, Mass Leaf, double Moisture);

/// <summary>How long the core of a pack takes to follow cold air.</summary>
/// <remarks>
/// <para><b>Equation</b> θ = (T − T∞)/(T₀ − T∞) = Π C exp(−ζ² αt/L²) over the directions of the pack (cylinder: radius and half height; block: three half sides).
/// Plane: ζ tan ζ = Bi, C = 4 sin ζ/(2ζ + sin 2ζ). Cylinder: ζ J₁(ζ) = Bi J₀(ζ), C = 2 J₁/(ζ (J₀² + J₁²)). Bi = hL/k, α = k/(ρc), c = 1.34 (1 − w) + 4.19 w kJ/(kg·K).</para>
/// <para><b>Source</b> the first term of the series, as in the charts of [Heisler1947]; values of ζ and C from memory of [Incropera2007], Table 5.1. h of still freezer air with
/// radiation 6 W/(m²·K) and k of loose leaf 0.06, pressed leaf 0.12 W/(m·K): assumptions after other plant fibre.</para>
/// <para><b>Valid</b> after αt/L² = 0.2; earlier the core has hardly moved and the time is short anyway. Water in leaf under 20 % moisture is bound and is taken not to freeze.</para>
/// <para><b>Error</b> a factor of two, from k and from how the freezer's air moves: a plan takes the doubled time.</para>
/// </remarks>
public static class CoreCooling
{
    /// <summary>Of still air with radiation, W/(m²·K).</summary>
    public const double FreezerCoefficient = 6;

    /// <summary>Of loose leaf, W/(m·K).</summary>
    public const double LooseConductivity = 0.06;

    /// <summary>Of pressed leaf, W/(m·K).</summary>
    public const double PressedConductivity = 0.12;

    private const double DryHeat = 1340; // J/(kg K), wood fibre; from memory
    private const double WaterHeat = 4190;
    private const double PressedDensity = 450; // kg/m³, from where on leaf counts as pressed; assumption

    /// <summary>ζ and C of a plane wall.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Bi not above zero.</exception>
    public static (double Zeta, double C) Plane(double biot)
    {
        var zeta = Root(z => (z * Math.Sin(z)) - (Checked(biot) * Math.Cos(z)), Math.PI / 2);
        return (zeta, 4 * Math.Sin(zeta) / ((2 * zeta) + Math.Sin(2 * zeta)));
    }

    /// <summary>ζ and C of a long cylinder.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Bi not above zero.</exception>
    public static (double Zeta, double C) Cylinder(double biot)
    {
        var zeta = Root(z => (z * J1(z)) - (Checked(biot) * J0(z)), 2.404825557695773);
        var (j0, j1) = (J0(zeta), J1(zeta));
        return (zeta, 2 * j1 / (zeta * ((j0 * j0) + (j1 * j1))));
    }

    /// <summary>Hours until the core is at a temperature.</summary>
    /// <param name="pack">The pack.</param>
    /// <param name="from">At the start, all through.</param>
    /// <param name="air">Around it from then on.</param>
    /// <param name="core">Between the two.</param>
    /// <param name="coefficient">W/(m²·K), from the air to the leaf, container included.</param>
    /// <exception cref="ArgumentOutOfRangeException">A core that never gets there, or a pack without size or leaf.</exception>
    public static double Hours(PackShape pack, Temperature from, Temperature air, Temperature core, double coefficient = FreezerCoefficient)
    {
        ArgumentNullException.ThrowIfNull(pack);
        var theta = (core.Kelvin - air.Kelvin) / (from.Kelvin - air.Kelvin);
        if (!(theta > 0 && theta <= 1))
            throw new ArgumentOutOfRangeException(nameof(core), core.Celsius, "The core ends between where it started and the air around it, never at the air itself.");
        if (!(pack.Across.Metres > 0 && pack.High.Metres > 0 && pack.Leaf.Kilograms > 0 && pack.Moisture is >= 0 and < 1 && pack.Deep is not { Metres: <= 0 }))
            throw new ArgumentOutOfRangeException(nameof(pack), pack, "A pack has a size, and leaf in it.");
        var section = pack.Deep is { } deep ? pack.Across.Metres * deep.Metres : Math.PI / 4 * pack.Across.Metres * pack.Across.Metres;
        var density = pack.Leaf.Kilograms / (section * pack.High.Metres);
        var conductivity = density >= PressedDensity ? PressedConductivity : LooseConductivity;
        var diffusivity = conductivity / (density * ((DryHeat * (1 - pack.Moisture)) + (WaterHeat * pack.Moisture)));
        List<(double Rate, double C)> ways = [Way(pack.High.Metres / 2, round: false)];
        if (pack.Deep is { } side)
            ways.AddRange([Way(pack.Across.Metres / 2, round: false), Way(side.Metres / 2, round: false)]);
        else
            ways.Add(Way(pack.Across.Metres / 2, round: true));
        return Math.Max(0, (ways.Sum(way => Math.Log(way.C)) - Math.Log(theta)) / ways.Sum(way => way.Rate) / 3600);

        (double Rate, double C) Way(double half, bool round)
        {
            var (zeta, c) = round ? Cylinder(coefficient * half / conductivity) : Plane(coefficient * half / conductivity);
            return (zeta * zeta * diffusivity / (half * half), c);
        }
    }

    /// <summary>Bessel function of the first kind, order 0, by its integral: exact to rounding for the arguments met here.</summary>
    private static double J0(double x) => Bessel(angle => Math.Cos(x * Math.Sin(angle)));

    private static double J1(double x) => Bessel(angle => Math.Cos(angle - (x * Math.Sin(angle))));

    /// <summary>Trapezoids over a whole period converge faster than any power.</summary>
    private static double Bessel(Func<double, double> at)
    {
        const int Parts = 64;
        var sum = 0.0;
        for (var k = 0; k < Parts; k++)
            sum += at(Math.Tau * k / Parts);
        return sum / Parts;
    }

    private static double Root(Func<double, double> at, double high)
    {
        var low = 0.0;
        for (var step = 0; step < 100; step++)
        {
            var middle = (low + high) / 2;
            if (at(middle) < 0)
                low = middle;
            else
                high = middle;
        }

        return (low + high) / 2;
    }

    private static double Checked(double biot) => biot is > 0 and < double.PositiveInfinity ? biot : throw new ArgumentOutOfRangeException(nameof(biot), biot, "A Biot number is above zero.");
}
