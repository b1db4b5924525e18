using CsCheck;
using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Air;

public class GasAndLidTests
{
    // Derived by hand: 10 mg of carbon dioxide, 0.2272 mmol, in 100 ml at 25 °C: 5.63 kPa.
    [Fact]
    public void Ten_milligrams_of_carbon_dioxide_in_a_hundred_millilitres() =>
        Assert.Equal(5.633, GasMade.Rise(Mass.FromGrams(0.01), Volume.FromMillilitres(100), Temperature.FromCelsius(25)).Kilopascals, 0.002);

    // Trade: 10 kPa are 50 N on a lid of 80 mm.
    [Fact]
    public void Ten_kilopascals_on_a_lid_of_eighty_millimetres() =>
        Assert.Equal(50.3, LidForce.Newtons(Pressure.FromKilopascals(10), Length.FromMillimetres(80)), 0.05);

    [Fact]
    public void More_gas_or_less_room_is_more_pressure() =>
        Gen.Select(Gen.Double[1e-6, 1e-2], Gen.Double[1e-5, 1e-2], Gen.Double[250, 340]).Holds((mass, volume, kelvin) =>
        {
            double Rise(double m, double v) => GasMade.Rise(new Mass(m), new Volume(v), new Temperature(kelvin)).Pascals;
            return Rise(2 * mass, volume) > Rise(mass, volume) && Math.Abs((Rise(mass, volume / 2) / Rise(mass, volume)) - 2) < 1e-12;
        });

    [Theory]
    [InlineData(-1, 1, 300)]
    [InlineData(double.NaN, 1, 300)]
    [InlineData(1, 0, 300)]
    [InlineData(1, double.NaN, 300)]
    [InlineData(1, 1, 0)]
    [InlineData(1, 1, double.NaN)]
    public void What_cannot_be_is_refused(double mass, double volume, double kelvin) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => GasMade.Rise(new Mass(mass), new Volume(volume), new Temperature(kelvin)));

    [Theory]
    [InlineData(double.NaN, 0.08)]
    [InlineData(1000, 0)]
    [InlineData(1000, double.NaN)]
    public void A_lid_has_a_diameter_and_a_finite_difference(double pascals, double metres) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => LidForce.Newtons(new Pressure(pascals), new Length(metres)));
}
