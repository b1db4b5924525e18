using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Air;

public sealed class StandardAtmosphereTests
{
    /// <summary>Source: ASHRAE Fundamentals 2017, chapter 1, table 1. As carried by the tests of PsychroLib 2.5.0 (MIT), with their tolerance of 1 Pa.</summary>
    [Theory]
    [InlineData(-500, 107478)]
    [InlineData(0, 101325)]
    [InlineData(500, 95461)]
    [InlineData(1000, 89875)]
    [InlineData(4000, 61640)]
    [InlineData(10000, 26436)]
    public void Matches_Ashrae2017_Ch1_Table1(double metres, double pascal) => Assert.Equal(pascal, StandardAtmosphere.At(new(metres)).Pascals, 1.0);

    [Theory]
    [InlineData(-5001)]
    [InlineData(11001)]
    [InlineData(double.NaN)]
    public void Refuses_what_lies_outside(double metres) => Assert.Throws<ArgumentOutOfRangeException>(() => StandardAtmosphere.At(new Length(metres)));
}
