using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

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

    /// <summary>True where falling, not rising, passes it.</summary>
    internal bool IsBelow => this is MoistureBelow or ActivityBelow;

    /// <summary>True where it is one of the activity at the day's temperature, false where it is one of moisture, held against the curve of 22 °C.</summary>
    internal bool IsOfActivity => this is ActivityBelow or ActivityAbove;

    /// <summary>The activity at which a leaf passes it; for moisture that on its curve at 22 °C, 1 where it never holds so much.</summary>
    internal double ThresholdOf(Isotherm leaf)
    {
        return this switch
        {
            MoistureBelow below => ActivityOf(below.WetBasis),
            MoistureAbove above => ActivityOf(above.WetBasis),
            ActivityBelow below => below.Activity,
            ActivityAbove above => above.Activity,
            _ => throw new InvalidOperationException($"No limit {this}."),
        };

        double ActivityOf(double wetBasis)
        {
            try
            {
                return leaf.ActivityAt(Moisture.FromWetBasis(wetBasis)).Fraction;
            }
            catch (ArgumentOutOfRangeException)
            {
                return 1;
            }
        }
    }
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
    /// <summary>False to follow the water alone; the gas of the answer is then NaN. Rigid packages without viscous flow only; others are followed whole.</summary>
    public bool WithGas { get; init; } = true;

    /// <summary>False to spare the count of days above <see cref="MouldActivity"/>.</summary>
    public bool CountsMouldDays { get; init; } = true;

    /// <summary>The course of the draws at some places, one of which may be named several times.</summary>
    public Course At(int[] draws) => CourseDrawsAt.Of(this, draws);

    /// <summary>The activity above which mould is a matter of weeks.</summary>
    public const double MouldActivity = 0.70;

    /// <summary>Days on end above <see cref="MouldActivity"/> that count as a mould risk.</summary>
    public const double MouldDays = 30;
}
