using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>A spell of a few days in weather of its own, told at its end: no year, no season, and no day beyond.</summary>
public class ShortWeatherTests
{
    [Theory]
    [InlineData(3, true, 0.16)]
    [InlineData(3, false, 0.16)]
    [InlineData(12, true, 0.25)]
    [InlineData(12, false, 0.25)]
    [InlineData(40, false, 0.16)]
    [InlineData(3, false, 0.25)] // too moist: the watch for mould asks how warm it is as the table ends
    public void A_spell_is_told_at_its_end(int days, bool flows, double moisture)
    {
        var oxygen = 3e-4 / (PhysicalConstants.GasConstant * 296.15 * 86400 * 30);
        ExchangePath film = new("film", new(oxygen * 100, 35_000), new(oxygen, 33_000), new(4 * oxygen, 30_000), new(0.3 * oxygen, 40_000), flows ? oxygen : 0);
        var place = ClimateTable.Daily(VentedCase.From(13).Climate, days);
        Stay stay = new(0, days, place, new HeadspaceDraws.Rigid(3e-4), [PathDraws.Of(film, 1)], UptakeDraws.None, RoomAir.Ordinary, []);
        Course course = new(5, (PerDraw)new[] { 0.05, 0.06, 0.07, 0.08, 0.09 }, [new OswinIsotherm(0.12, 0.6, 2500)], moisture, [stay], [days], []);
        var (together, alone) = (EnsembleEngine.Run(course), EnsembleEngine.RunAlone(course));
        for (var draw = 0; draw < 5; draw++)
        {
            Assert.Equal(alone.MoistureWetBasis[0][draw], together.MoistureWetBasis[0][draw], 5e-5);
            Assert.Equal(alone.Oxygen[0][draw], together.Oxygen[0][draw], 50.0);
        }
    }
}
