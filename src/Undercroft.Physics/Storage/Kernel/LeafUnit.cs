using Undercroft.Physics.Leaf;

namespace Undercroft.Physics.Storage.Kernel;

/// <summary>A curve of unit size: leaf kinds differ by shape, lots and draws by how much of each shape they hold.</summary>
/// <param name="Shape">What is asked for moisture and slope.</param>
/// <param name="Share">By how much the answer of <paramref name="Shape"/> is divided to come to unit size.</param>
/// <param name="Less">A part of <paramref name="Shape"/> that is not meant, or null.</param>
internal sealed record LeafUnit(Isotherm Shape, double Share = 1, LeafUnit? Less = null)
{
    /// <summary>kg/kg of the unit curve.</summary>
    public double Moisture(double activity) =>
        (Shape.MoistureAt(new(activity)).DryBasis - (Less is null ? 0 : (1 - Share) * Less.Moisture(activity))) / Share;

    /// <summary>Its slope.</summary>
    public double Slope(double activity) => (Shape.Slope(new(activity)) - (Less is null ? 0 : (1 - Share) * Less.Slope(activity))) / Share;

    /// <summary>An isotherm as unit curves with their coefficients: X(a) = Σ c_i U_i(a).</summary>
    public static List<(LeafUnit Unit, double Coefficient)> Of(Isotherm leaf)
    {
        List<(LeafUnit, double)> parts = [];
        Add(leaf, 1, parts);
        return parts;
    }

    private static void Add(Isotherm leaf, double factor, List<(LeafUnit, double)> parts)
    {
        switch (leaf)
        {
            case OswinIsotherm oswin:
                parts.Add((new(new OswinIsotherm(1, oswin.B, 0)), factor * oswin.A));
                break;
            case GabIsotherm gab:
                parts.Add((new(new GabIsotherm(1, gab.C, gab.K, 0)), factor * gab.Monolayer));
                break;
            case HumectantIsotherm { HumectantShare: 0 } bare:
                Add(bare.Leaf, factor, parts);
                break;
            case HumectantIsotherm treated:
                Add(treated.Leaf, factor * (1 - treated.HumectantShare), parts);
                // The humectant alone: half of a mixture with any leaf, less that leaf.
                GabIsotherm any = new(1, 10, 0.8, 0);
                parts.Add((new(treated with { Leaf = any, HumectantShare = 0.5, SorptionHeat = 0 }, 0.5, new(any)), factor * treated.HumectantShare));
                break;
            case MixtureIsotherm mixture:
                Add(mixture.First, factor * (1 - mixture.SecondShare), parts);
                Add(mixture.Second, factor * mixture.SecondShare, parts);
                break;
            default:
                parts.Add((new(leaf with { SorptionHeat = 0 }), factor));
                break;
        }
    }
}
