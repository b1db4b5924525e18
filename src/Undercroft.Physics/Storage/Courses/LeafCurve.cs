using Undercroft.Physics.Leaf;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>dX/da of one leaf, cheap enough for a kernel: the closed forms as they are, anything else from a table made once.</summary>
internal sealed class LeafCurve
{
    private const double LowestLogit = -9;
    private const double HighestLogit = 9.5;
    private const int Intervals = 300;

    private readonly OswinIsotherm? oswin;
    private readonly GabIsotherm? gab;
    private readonly double[]? table;

    public LeafCurve(Isotherm leaf)
    {
        Leaf = leaf;
        (oswin, gab) = (leaf as OswinIsotherm, leaf as GabIsotherm);
        if (oswin is not null || gab is not null)
            return;
        table = new double[Intervals + 1];
        for (var i = 0; i <= Intervals; i++)
        {
            var logit = LowestLogit + ((HighestLogit - LowestLogit) * i / Intervals);
            table[i] = Math.Log(leaf.Slope(new(1 / (1 + Math.Exp(-logit)))));
        }
    }

    public Isotherm Leaf { get; }

    /// <summary>dX/da; the caller answers for 0 &lt; a &lt; 1.</summary>
    public double Slope(double activity)
    {
        if (gab is not null)
            return GabIsotherm.SlopeOf(activity, gab.Monolayer, gab.C, gab.K);
        if (oswin is not null)
            return OswinIsotherm.SlopeOf(activity, oswin.A, oswin.B);
        var x = (Math.Log(activity / (1 - activity)) - LowestLogit) * (Intervals / (HighestLogit - LowestLogit));
        var i = Math.Clamp((int)x, 1, Intervals - 2);
        var t = x - i;
        var (a, b, c, d) = (table![i - 1], table[i], table[i + 1], table[i + 2]);
        var value = b + (0.5 * t * (c - a + (t * ((2 * a) - (5 * b) + (4 * c) - d + (t * (3 * (b - c) + d - a))))));
        return Math.Exp(value);
    }
}
