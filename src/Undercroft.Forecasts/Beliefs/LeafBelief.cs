using Undercroft.Ledger.Events;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Leaf;

namespace Undercroft.Forecasts.Beliefs;

/// <summary>How the leaf of a blend is expected to hold water.</summary>
/// <param name="Name">For people.</param>
/// <param name="Isotherm">The middle curve.</param>
/// <param name="ScaleLogSd">Spread of its scale, hysteresis included.</param>
/// <param name="Evidence">What it rests on.</param>
/// <param name="Said">True where somebody said what leaf it is.</param>
public sealed record LeafBelief(string Name, Isotherm Isotherm, double ScaleLogSd, Evidence Evidence, bool Said)
{
    private const double TypicalWetBasisPoints = 15; // turns points of hysteresis into a share of the curve's scale

    /// <summary>The blend's kinds by their shares, equal where none are stated; a mixture where nothing is known.</summary>
    public static LeafBelief Of(Blend blend)
    {
        ArgumentNullException.ThrowIfNull(blend);
        var parts = blend.Leaf.Select(share => (Kind: LeafKinds.Find(share.Kind), Share: share.Share.Mid)).Where(part => part.Kind is not null)
            .Select(part => (Kind: part.Kind!, part.Share)).ToArray();
        if (parts.Length == 0)
            return From(LeafKinds.Find("mixture")!, said: false);
        var belief = From(parts[0].Kind, said: true);
        var sum = parts[0].Share ?? (1.0 / parts.Length);
        foreach (var (kind, share) in parts.Skip(1))
        {
            var own = share ?? (1.0 / parts.Length);
            sum += own;
            var next = From(kind, said: true);
            var weight = sum > 0 ? own / sum : 0.5;
            belief = new(
                $"{belief.Name} and {next.Name}", MixtureIsotherm.Of(belief.Isotherm, next.Isotherm, weight), Math.Max(belief.ScaleLogSd, next.ScaleLogSd),
                new Evidence(Provenance.Derived, "", "curves of the parts, weighted by share"), Said: true);
        }

        return belief;
    }

    /// <summary>The curve with every moisture multiplied.</summary>
    public Isotherm Scaled(double factor) => Scaled(Isotherm, factor);

    private static LeafBelief From(LeafKind kind, bool said)
    {
        var hysteresis = kind.HysteresisPoints / 2 / TypicalWetBasisPoints;
        return new(kind.Name, kind.Isotherm, Math.Sqrt((kind.ScaleLogSd * kind.ScaleLogSd) + (hysteresis * hysteresis)), kind.Evidence, said);
    }

    private static Isotherm Scaled(Isotherm isotherm, double factor) => isotherm switch
    {
        OswinIsotherm oswin => oswin with { A = oswin.A * factor },
        GabIsotherm gab => gab with { Monolayer = gab.Monolayer * factor },
        HumectantIsotherm treated => treated with { Leaf = Scaled(treated.Leaf, factor) },
        MixtureIsotherm mixture => mixture with { First = Scaled(mixture.First, factor), Second = Scaled(mixture.Second, factor) },
        _ => throw new InvalidOperationException($"No way to scale {isotherm.GetType().Name}."),
    };
}
