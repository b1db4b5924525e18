using System.Numerics;
using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>How the flow in and out of a breathing package swings with the day.</summary>
/// <remarks>
/// <para><b>Equation</b> first harmonics, x(t) = x + Re(x̃ e^(iωt)), of dn_i/dt = S_i − k_i n_i − F y_i with Σn = N = (P − a·psat) V/(R T):
/// F̃ = [Σ d_i/(iω + k_i) − Ñ] / Σ y_i/(iω + k_i), d_i = S̃_i − k̃_i n_i; S what films bring in, k their rate, y the shares inside. Without films F̃ = −iωÑ.</para>
/// <para><b>Source</b> derived from the storage model's exchange.</para>
/// <para><b>Valid</b> a package at the room's pressure; flow out and in carry nearly the same composition.</para>
/// <para><b>Error</b> second order in the day's swing; measured against the fine engine in the tests.</para>
/// </remarks>
internal readonly struct DailyFlow
{
    private const double R = PhysicalConstants.GasConstant;
    private const double Least = 1e-12;
    private readonly Complex flow;
    private readonly double breath;

    private DailyFlow(Complex flow, double breath, Complex inside, Complex room)
    {
        (this.flow, this.breath) = (flow, breath);
        var size = flow.Magnitude;
        (WithInside, WithRoom) = size > 0 ? (Along(flow, inside) / size, Along(flow, room) / size) : (0, 0);
    }

    /// <summary>Amplitude of the vapour inside, as a share of the dry gas, as far as it swings with the flow outwards.</summary>
    public double WithInside { get; }

    /// <summary>The same of the room's vapour.</summary>
    public double WithRoom { get; }

    /// <summary>Of a day of a step.</summary>
    /// <param name="now">The step.</param>
    /// <param name="vapour">Inside, Pa.</param>
    /// <param name="uptake">Of oxygen, per day.</param>
    /// <param name="volume">m³.</param>
    /// <param name="held">mol at the room's pressure.</param>
    /// <param name="moles">Of each gas.</param>
    public static DailyFlow Of(StayDraw<Lane1> now, double vapour, double uptake, double volume, double held, ReadOnlySpan<double> moles)
    {
        double kelvin = now.Kelvin;
        double pressure = now.RoomPressure;
        double outside = now.RoomVapour;
        Complex warmth = new(now.KelvinCos, -(double)now.KelvinSin);
        double perKelvin = vapour * (SaturationPressure.LogSlopeOverWater(kelvin) + (now.Heat / (R * kelvin * kelvin)));
        var shrinks = -held * ((1 / kelvin) + (perKelvin / (pressure - vapour))) * warmth;
        var all = moles[0] + moles[1] + moles[2];
        Complex turn = new(0, Math.Tau);
        var (brought, carried) = (Complex.Zero, Complex.Zero);
        for (var gas = 0; gas < 3; gas++)
        {
            ref readonly var sums = ref now.Gases[gas];
            var perDay = R / (volume * now.Length);
            double rate = sums.Rate * perDay;
            Complex rates = new(sums.RateCos * perDay, -(double)(sums.RateSin * perDay));
            Complex source = new(sums.SourceCos / now.Length, -(double)(sums.SourceSin / now.Length));
            var lag = turn + rate + (gas == 0 ? uptake : 0);
            brought += (source - (rates * moles[gas])) / lag;
            carried += moles[gas] / all / lag;
        }

        return new(
            (brought - shrinks) / carried, Math.Tau * shrinks.Magnitude, pressure / ((pressure - vapour) * (pressure - vapour)) * perKelvin * warmth,
            pressure / ((pressure - outside) * (pressure - outside)) * new Complex(now.RoomVapourCos, -(double)now.RoomVapourSin));
    }

    /// <summary>Amplitude of the flow over a span, mol.</summary>
    /// <param name="breathed">That of the breath alone, with all that the day's course has beside its first harmonic.</param>
    /// <param name="days">Length of the span.</param>
    public double Amplitude(double breathed, double days) => breath > Least * flow.Magnitude ? breathed * flow.Magnitude / breath : flow.Magnitude * days;

    private static double Along(Complex flow, Complex other) => (flow.Real * other.Real) + (flow.Imaginary * other.Imaginary);
}
