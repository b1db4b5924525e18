using Undercroft.Physics.Storage.Kernel;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>What became of a package in every draw. Arrays are indexed by output day, then by draw; daily means.</summary>
public sealed class EnsembleCourse : IRowTaker
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

    void IRowTaker.Take(RowBuffer row, IReadOnlyList<DrawGroup> order)
    {
        var (at, slot) = (row.Row, 0);
        foreach (var group in order)
        {
            for (var i = 0; i < group.Draws.Length; i++)
            {
                var (draw, from) = (group.Draws[i], slot + i);
                double wet = row.WetBasis[from];
                var dry = group.Dry[i];
                var lost = float.IsNaN(row.Activity[from]) || double.IsNaN(wet);
                MoistureWetBasis[at][draw] = lost ? double.NaN : wet;
                Water[at][draw] = lost ? double.NaN : wet / (1 - wet) * dry;
                DryMass[at][draw] = lost ? double.NaN : dry;
                Activity[at][draw] = lost ? double.NaN : row.Activity[from];
                if (!group.WithGas || lost)
                {
                    (Oxygen[at][draw], CarbonDioxide[at][draw], Nitrogen[at][draw], Total[at][draw]) = (double.NaN, double.NaN, double.NaN, double.NaN);
                    continue;
                }

                (Oxygen[at][draw], CarbonDioxide[at][draw], Nitrogen[at][draw]) = (row.Oxygen[from], row.CarbonDioxide[from], row.Nitrogen[from]);
                Total[at][draw] = row.Total[from];
            }

            slot += group.Slots;
        }
    }

    void IRowTaker.Repeat(int row, int before)
    {
        foreach (var values in new[] { MoistureWetBasis, Water, DryMass, Activity, Oxygen, CarbonDioxide, Nitrogen, Total })
            values[before].CopyTo(values[row], 0);
    }

    /// <summary>Takes over what became of some of the draws.</summary>
    /// <param name="part">A course of them alone.</param>
    /// <param name="draws">Their places here.</param>
    internal void Put(EnsembleCourse part, int[] draws)
    {
        void Rows(double[][] from, double[][] to)
        {
            for (var row = 0; row < from.Length; row++)
            {
                for (var i = 0; i < draws.Length; i++)
                    to[row][draws[i]] = from[row][i];
            }
        }

        Rows(part.Activity, Activity);
        Rows(part.MoistureWetBasis, MoistureWetBasis);
        Rows(part.Water, Water);
        Rows(part.DryMass, DryMass);
        Rows(part.Oxygen, Oxygen);
        Rows(part.CarbonDioxide, CarbonDioxide);
        Rows(part.Nitrogen, Nitrogen);
        Rows(part.Total, Total);
        Rows(part.FirstDay, FirstDay);
        Rows([part.LongestDaysOfMould], [LongestDaysOfMould]);
        for (var i = 0; i < draws.Length; i++)
            LeftRange[draws[i]] = part.LeftRange[i];
    }

    internal void Close(DrawGroup group, LimitBook book)
    {
        for (var i = 0; i < group.Draws.Length; i++)
        {
            var draw = group.Draws[i];
            LeftRange[draw] = !double.IsFinite(group.Activity[i] + group.Moles[0][i] + group.Moles[1][i] + group.Moles[2][i]);
            LongestDaysOfMould[draw] = book.LongestSpell[i];
            for (var limit = 0; limit < FirstDay.Length; limit++)
                FirstDay[limit][draw] = book.FirstDay[limit][i];
        }
    }
}
