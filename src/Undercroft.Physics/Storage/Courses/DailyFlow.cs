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
/// <param name="Size">Amplitude of the flow, mol a day.</param>
/// <param name="Breath">Amplitude of the breath alone, mol a day.</param>
/// <param name="WithInside">Amplitude of the vapour inside, as a share of the dry gas, as far as it swings with the flow outwards.</param>
/// <param name="WithRoom">The same of the room's vapour.</param>
internal readonly record struct DailyFlow<T>(T Size, T Breath, T WithInside, T WithRoom)
    where T : struct, ILane<T>
{
    private const double Least = 1e-12;

    /// <summary>Of a day of a step.</summary>
    /// <param name="at">The step.</param>
    /// <param name="uptake">Of oxygen, per day.</param>
    /// <param name="held">mol at the room's pressure.</param>
    /// <param name="moles">Of each gas.</param>
    public static DailyFlow<T> Of(in VentedMoment<T> at, T uptake, T held, ReadOnlySpan<T> moles)
    {
        var now = at.Now;
        var (kelvin, pressure, outside) = (now.Kelvin, now.RoomPressure, now.RoomVapour);
        LaneComplex<T> warmth = new(now.KelvinCos, T.Of(0) - now.KelvinSin);
        var perKelvin = at.Vapour * (SaturationPressure.LogSlopeOverWater(kelvin) + (now.Heat / (T.Of(PhysicalConstants.GasConstant) * kelvin * kelvin)));
        var shrinks = warmth * (T.Of(0) - (held * ((T.Of(1) / kelvin) + (perKelvin / at.Slack))));
        var perAll = T.Of(1) / (moles[0] + moles[1] + moles[2]);
        var perDay = now.PerVolume * T.Of(1 / now.Length);
        var per = T.Of(1 / now.Length);
        LaneComplex<T> brought = new(T.Of(0), T.Of(0));
        var carried = brought;
        for (var gas = 0; gas < 3; gas++)
        {
            ref readonly var sums = ref now.Gases[gas];
            var rate = sums.Rate * perDay;
            var inside = moles[gas] * perDay;
            LaneComplex<T> force = new((sums.SourceCos * per) - (sums.RateCos * inside), (sums.RateSin * inside) - (sums.SourceSin * per));
            LaneComplex<T> lag = new(gas == 0 ? rate + uptake : rate, T.Of(Math.Tau));
            brought += force / lag;
            carried += new LaneComplex<T>(moles[gas] * perAll, T.Of(0)) / lag;
        }

        var flow = (brought - shrinks) / carried;
        var size = flow.Magnitude;
        var perSize = T.Of(1) / T.Max(size, T.Of(1e-300));
        var inward = warmth * (pressure / (at.Slack * at.Slack) * perKelvin);
        var dry = pressure - outside;
        var room = new LaneComplex<T>(now.RoomVapourCos, T.Of(0) - now.RoomVapourSin) * (pressure / (dry * dry));
        return new(size, T.Of(Math.Tau) * shrinks.Magnitude, Along(flow, inward) * perSize, Along(flow, room) * perSize);
    }

    /// <summary>Amplitude of the flow over a span, mol.</summary>
    /// <param name="breathed">That of the breath alone, with all that the day's course has beside its first harmonic.</param>
    /// <param name="days">Length of the span.</param>
    public T Amplitude(T breathed, T days) => T.WhereLess(Size * T.Of(Least), Breath, breathed * Size / Breath, Size * days);

    private static T Along(LaneComplex<T> flow, LaneComplex<T> other) => (flow.Re * other.Re) + (flow.Im * other.Im);
}
