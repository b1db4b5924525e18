using Undercroft.Physics.Leaf;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage.Kernel;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>Curves of leaf as lanes read them against the curves themselves. Source: own computation.</summary>
public class LeafPiecesTests(ITestOutputHelper output)
{
    public static TheoryData<string, double, double> Leaves => new()
    {
        { "oswin", 1e-6, 1e-6 },
        { "gab", 1e-6, 5e-5 },
        { "cased", 1e-6, 1e-5 },
        { "mixed", 1e-6, 5e-5 },
    };

    [Theory]
    [MemberData(nameof(Leaves))]
    public void They_are_the_curves_between_a_fifth_and_nine_tenths(string kind, double moisture, double slope)
    {
        OswinIsotherm oswin = new(0.12, 0.6, 2500);
        GabIsotherm gab = new(0.08, 6, 0.87, 2500);
        Isotherm leaf = kind switch
        {
            "oswin" => oswin,
            "gab" => new MixtureIsotherm(gab, gab with { K = 0.8 }, 0.5, 2500),
            "cased" => HumectantIsotherm.WithGlycerol(oswin, 0.05),
            _ => new MixtureIsotherm(HumectantIsotherm.WithGlycerol(gab, 0.1), oswin, 0.3, 2500),
        };
        var parts = LeafUnit.Of(leaf);
        SumLanes<Single1> lanes = new([.. parts.Select(part => LeafPieces.Of(part.Unit))], [.. parts.Select(part => (float)part.Coefficient)], 1);
        var worst = (Moisture: 0.0, Slope: 0.0);
        for (var activity = 0.2f; activity < 0.9f; activity += 0.0007f)
        {
            lanes.Moisture(Single1.Of(activity), 0, out var above, out var below);
            worst.Moisture = Math.Max(worst.Moisture, Math.Abs((above / (double)below / leaf.MoistureAt(new(activity)).DryBasis) - 1));
            worst.Slope = Math.Max(worst.Slope, Math.Abs((leaf.Slope(new(activity)) * (float)lanes.PerSlope(Single1.Of(activity), 0)) - 1));
        }

        output.WriteLine($"{kind} {worst}");
        Assert.InRange(worst.Moisture, 0, moisture);
        Assert.InRange(worst.Slope, 0, slope);
    }

    /// <summary>Far from where leaf is kept the curves still rise, and come out within a hundredth.</summary>
    [Theory]
    [InlineData(0.01f)]
    [InlineData(0.05f)]
    [InlineData(0.97f)]
    [InlineData(0.995f)]
    public void Toward_the_ends_they_are_near(float activity)
    {
        var leaf = HumectantIsotherm.WithGlycerol(new OswinIsotherm(0.12, 0.6, 2500), 0.05);
        var parts = LeafUnit.Of(leaf);
        SumLanes<Single1> lanes = new([.. parts.Select(part => LeafPieces.Of(part.Unit))], [.. parts.Select(part => (float)part.Coefficient)], 1);
        lanes.Moisture(Single1.Of(activity), 0, out var above, out var below);
        Assert.Equal(1, above / (double)below / leaf.MoistureAt(new(activity)).DryBasis, 1e-2);
        Assert.Equal(1, leaf.Slope(new(activity)) * (float)lanes.PerSlope(Single1.Of(activity), 0), 1e-2);
    }
}
