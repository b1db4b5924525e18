using Undercroft.Physics.Solving;
using Xunit;

namespace Undercroft.Physics.Tests.Solving;

/// <summary>Source: the base library, point by point.</summary>
public class LaneArcTests
{
    [Fact]
    public void Stays_with_the_base_library()
    {
        for (var i = -100_000; i <= 100_000; i++)
        {
            var x = i / 100_000.0;
            Assert.Equal(Math.Asin(x), (double)LaneArc.Sine<Lane1>(x), 4.5e-16);
        }
    }

    [Fact]
    public void All_widths_give_the_same_bits()
    {
        Span<double> told = stackalloc double[8];
        for (var i = -500; i < 500; i += 8)
        {
            var from = Enumerable.Range(i, 8).Select(each => each / 500.0).ToArray();
            LaneArc.Sine(Lane8.Load(from)).Store(told);
            Assert.Equal(from.Select(x => (double)LaneArc.Sine<Lane1>(x)), told.ToArray());
            LaneArc.Sine(Lane4.Load(from)).Store(told);
            Assert.Equal(from.Take(4).Select(x => (double)LaneArc.Sine<Lane1>(x)), told[..4].ToArray());
        }
    }
}
