using Undercroft.Physics.Climate.Years;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Climate;

public sealed class GroundAndLagTests
{
    /// <summary>Source: unit test of EnergyPlus for its Kusuda–Achenbach ground model: k 1.08, ρ 980, c 2570, Tm 15, A 5, t₀ 1 d; tolerance its own.</summary>
    [Theory]
    [InlineData(0, 10.0)]
    [InlineData(15768000, 20.0)]
    [InlineData(31449600, 10.0)]
    [InlineData(15 * 86400, 10.15)]
    public void Matches_the_published_Kusuda_Achenbach_surface_values(double seconds, double celsius)
    {
        var ground = GroundTemperature.At(Temperature.FromCelsius(15), 5, new Length(0), seconds / 86400, 1, 1.08 / (980 * 2570));
        Assert.Equal(celsius, ground.Celsius, 0.01);
    }

    /// <summary>Own computation with a = 6e-7 m²/s (regression).</summary>
    [Theory]
    [InlineData(1, 0.6653, 23.67)]
    [InlineData(2, 0.4427, 47.34)]
    [InlineData(3, 0.2945, 71.01)]
    public void Ground_keeps_its_computed_damping(double metres, double damping, double lagDays)
    {
        Assert.Equal(damping, GroundTemperature.Damping(new Length(metres), 6e-7), 1e-4);
        Assert.Equal(lagDays, GroundTemperature.LagDays(new Length(metres), 6e-7), 0.01);
    }

    /// <summary>Own computation (regression).</summary>
    [Theory]
    [InlineData(1, 24, 0.9674, 0.98)]
    [InlineData(3, 24, 0.7864, 2.54)]
    [InlineData(6, 24, 0.5370, 3.835)]
    [InlineData(12, 24, 0.3033, 4.82)]
    [InlineData(24, 24, 0.1572, 5.40)]
    [InlineData(720, 8760, 0.8885, 664.6)]
    public void A_lag_keeps_its_computed_gain_and_delay(double hours, double period, double gain, double delay)
    {
        Assert.Equal(gain, RoomLag.Gain(hours, period), 1e-4);
        Assert.Equal(delay, RoomLag.DelayHours(hours, period), period > 24 ? 0.1 : 0.005);
    }

    [Fact]
    public void Nonsense_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => GroundTemperature.Damping(new Length(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => GroundTemperature.Damping(new Length(1), 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => RoomLag.Gain(-1, 24));
        Assert.Throws<ArgumentOutOfRangeException>(() => RoomLag.Gain(double.NaN, 24));
    }
}
