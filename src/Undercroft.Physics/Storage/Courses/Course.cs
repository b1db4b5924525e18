using Undercroft.Physics.Leaf;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>Something to be told when it first happens.</summary>
public abstract record Limit
{
    private Limit()
    {
    }

    /// <summary>Moisture on wet basis falls below a fraction.</summary>
    public sealed record MoistureBelow(double WetBasis) : Limit;

    /// <summary>Moisture on wet basis rises above a fraction.</summary>
    public sealed record MoistureAbove(double WetBasis) : Limit;

    /// <summary>Activity, at the mean temperature of the day, falls below.</summary>
    public sealed record ActivityBelow(double Activity) : Limit;

    /// <summary>Activity, at the mean temperature of the day, rises above.</summary>
    public sealed record ActivityAbove(double Activity) : Limit;
}

/// <summary>One package over an ensemble of draws, through the places and hands it passes.</summary>
/// <param name="Draws">How many.</param>
/// <param name="DryMass">Leaf with its non-volatile humectant at the start, kg.</param>
/// <param name="Leaf">How it holds water: one isotherm for all draws, or one each.</param>
/// <param name="StartMoisture">Dry basis, kg/kg.</param>
/// <param name="Stays">One after the other without gaps.</param>
/// <param name="OutputDays">Rising, from the first day to the last.</param>
/// <param name="Limits">What to watch for.</param>
public sealed record Course(
    int Draws,
    PerDraw DryMass,
    IReadOnlyList<Isotherm> Leaf,
    PerDraw StartMoisture,
    IReadOnlyList<Stay> Stays,
    IReadOnlyList<int> OutputDays,
    IReadOnlyList<Limit> Limits)
{
    /// <summary>The activity above which mould is a matter of weeks.</summary>
    public const double MouldActivity = 0.70;

    /// <summary>Days on end above <see cref="MouldActivity"/> that count as a mould risk.</summary>
    public const double MouldDays = 30;
}

/// <summary>What became of a package in every draw. Arrays are indexed by output day, then by draw; daily means.</summary>
public sealed class EnsembleCourse
{
    internal EnsembleCourse(int draws, IReadOnlyList<int> days, int limits)
    {
        (Draws, Days) = (draws, days);
        double[][] Field() => [.. days.Select(_ => new double[draws])];
        (Activity, MoistureWetBasis, Water, DryMass) = (Field(), Field(), Field(), Field());
        (Oxygen, CarbonDioxide, Nitrogen, Total) = (Field(), Field(), Field(), Field());
        FirstDay = [.. Enumerable.Range(0, limits).Select(_ => new double[draws])];
        LongestDaysOfMould = new double[draws];
        LeftRange = new bool[draws];
    }

    /// <summary>How many draws.</summary>
    public int Draws { get; }

    /// <summary>Output days.</summary>
    public IReadOnlyList<int> Days { get; }

    /// <summary>Water activity at the mean temperature of the day.</summary>
    public double[][] Activity { get; }

    /// <summary>Moisture on wet basis, fraction.</summary>
    public double[][] MoistureWetBasis { get; }

    /// <summary>Water in the leaf, kg.</summary>
    public double[][] Water { get; }

    /// <summary>Dry leaf, kg.</summary>
    public double[][] DryMass { get; }

    /// <summary>Partial pressure of oxygen, Pa.</summary>
    public double[][] Oxygen { get; }

    /// <summary>Partial pressure of carbon dioxide, Pa.</summary>
    public double[][] CarbonDioxide { get; }

    /// <summary>Partial pressure of nitrogen with argon, Pa.</summary>
    public double[][] Nitrogen { get; }

    /// <summary>Total pressure inside, absolute, Pa.</summary>
    public double[][] Total { get; }

    /// <summary>For each limit and draw the first day beyond it, NaN where it is never passed.</summary>
    public double[][] FirstDay { get; }

    /// <summary>For each draw the longest time on end above <see cref="Course.MouldActivity"/>, days.</summary>
    public double[] LongestDaysOfMould { get; }

    /// <summary>For each draw, true where leaf or gas left the range in which the model holds; its outputs from then on are NaN.</summary>
    public bool[] LeftRange { get; }

    /// <summary>How many draws left the range.</summary>
    public int LeftRangeCount => LeftRange.Count(left => left);

    /// <summary>Share of the draws that stay above <see cref="Course.MouldActivity"/> for <see cref="Course.MouldDays"/> on end.</summary>
    public double MouldRisk => (double)LongestDaysOfMould.Count(days => days >= Course.MouldDays) / Draws;
}
