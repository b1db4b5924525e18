using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;

namespace Undercroft.Physics.Storage.Courses;

/// <summary>When to write a row down: after a step, from the sums of a day of its own or as an instant.</summary>
/// <param name="Row">Which row.</param>
/// <param name="AfterStep">After how many steps of the stay.</param>
/// <param name="Cell">The cell of the day, or −1 for the instant.</param>
/// <param name="DayLiesAhead">True where that day begins with the row, false where the table ends and it is the day before.</param>
internal readonly record struct PlannedRow(int Row, int AfterStep, int Cell, bool DayLiesAhead = true);

/// <summary>A stay cut into steps, with the sums of the climate over each: everything that its draws share.</summary>
internal sealed class StayPlan
{
    private const int OffsetNodes = 4;
    private const int HeatNodes = 3;
    private const int Q10Nodes = 3;

    private readonly double[] sums;
    private readonly double[] rowSums;
    private readonly ClimateTable table;

    public StayPlan(Stay stay, PerDraw heat, int[] cells, IReadOnlyList<PlannedRow> rows)
    {
        (Stay, table, Rows) = (stay, stay.Place, rows);
        (Offsets, Heats) = (NodeAxis.Of(stay.TemperatureOffset, OffsetNodes), NodeAxis.Of(heat, HeatNodes));
        Q10s = NodeAxis.OfLog(stay.Uptake.Q10, Q10Nodes);
        Block = new(Heats.Nodes.Length, Q10s.Nodes.Length, stay.Paths.Count);
        Steps = cells.Length - 1;
        var nodes = Offsets.Nodes.Length;
        (sums, rowSums) = (new double[Steps * nodes * Block.Width], new double[rows.Count * nodes * Block.Width]);
        (Length, Start, Resolved) = (new double[Steps], new double[Steps + 1], new bool[Steps]);
        EdgeKelvin = new double[Steps + 1];
        Trends = new double[Steps * TrendWidth];
        for (var step = 0; step < Steps; step++)
        {
            var (from, to) = (cells[step], cells[step + 1]);
            (Start[step], Length[step], Resolved[step]) = (table.Edge(from), table.Edge(to) - table.Edge(from), table.IsResolved(from));
            for (var node = 0; node < nodes; node++)
                Fill(from, to, Offsets.Nodes[node], sums.AsSpan(((step * nodes) + node) * Block.Width, Block.Width));
            FillTrend(from, to, Trends.AsSpan(step * TrendWidth, TrendWidth));
        }

        Start[Steps] = table.Edge(cells[Steps]);
        for (var edge = 0; edge <= Steps; edge++)
            EdgeKelvin[edge] = MeanKelvinAbout(cells[edge]);
        for (var row = 0; row < rows.Count; row++)
        {
            if (rows[row].Cell < 0)
                continue;
            for (var node = 0; node < nodes; node++)
                Fill(rows[row].Cell, rows[row].Cell + 1, Offsets.Nodes[node], rowSums.AsSpan(((row * nodes) + node) * Block.Width, Block.Width));
        }
    }

    public const int TrendWidth = 8;

    /// <summary>Relative change over a step of the water's target, of each gas's source, of each gas's rate, of the uptake.</summary>
    public const int WaterTrend = 0, SourceTrend = 1, RateTrend = 4, UptakeTrend = 7;

    public Stay Stay { get; }

    public int Steps { get; }

    public IReadOnlyList<PlannedRow> Rows { get; }

    public NodeAxis Offsets { get; }

    public NodeAxis Heats { get; }

    public NodeAxis Q10s { get; }

    public StepBlock Block { get; }

    public double[] Start { get; }

    public double[] Length { get; }

    public bool[] Resolved { get; }

    /// <summary>Mean temperature of the day or two about each end of a step.</summary>
    public double[] EdgeKelvin { get; }

    public double[] Trends { get; }

    /// <summary>The sums of one step, node after node.</summary>
    public ReadOnlySpan<double> Sums(int step) => sums.AsSpan(step * Offsets.Nodes.Length * Block.Width, Offsets.Nodes.Length * Block.Width);

    /// <summary>The sums of the day of one row.</summary>
    public ReadOnlySpan<double> RowSums(int row) => rowSums.AsSpan(row * Offsets.Nodes.Length * Block.Width, Offsets.Nodes.Length * Block.Width);

    /// <summary>The room at an instant, the draw's own offsets left out.</summary>
    public RoomMoment RoomAt(double day) => table.Place.At(day);

    private void Fill(int from, int to, double offset, Span<double> block)
    {
        Span<double> ten = stackalloc double[StepBlock.GasWidth];
        Span<double> one = stackalloc double[1];
        Span<double> three = stackalloc double[3];
        table.Channel(0, offset).Between(from, to, ten);
        ten[..4].CopyTo(block);
        (block[StepBlock.KelvinCos], block[StepBlock.KelvinSin]) = (ten[StepBlock.FTCos], ten[StepBlock.FTSin]);
        if (Stay.Paths.Any(path => path.Median.Viscous > 0))
        {
            const double Moist = 0.6;
            table.Breath(0, offset).Between(from, to, one);
            block[StepBlock.Breath] = one[0];
            table.Breath(Moist, offset).Between(from, to, one);
            block[StepBlock.BreathPerActivity] = (one[0] - block[StepBlock.Breath]) / Moist;
        }

        for (var node = 0; node < Heats.Nodes.Length; node++)
            block[StepBlock.ShiftedSaturation + node] = Shifted(0, Heats.Nodes[node], offset, from, to, ten);
        for (var node = 0; node < Q10s.Nodes.Length; node++)
        {
            Taken(Q10s.Nodes[node], offset).Between(from, to, three);
            three.CopyTo(block[(Block.Uptake + (3 * node))..]);
        }

        for (var p = 0; p < Stay.Paths.Count; p++)
        {
            var path = Stay.Paths[p].Median;
            var at = block[Block.Path(p)..];
            for (var node = 0; node < Heats.Nodes.Length; node++)
                at[node] = Shifted(path.Water.ActivationEnergy, Heats.Nodes[node], offset, from, to, ten);
            at = at[Heats.Nodes.Length..];
            table.Channel(path.Water.ActivationEnergy, offset).Between(from, to, ten);
            (at[0], at[1]) = (ten[StepBlock.A], ten[StepBlock.E]);
            at = at[2..];
            foreach (var gas in (ReadOnlySpan<Conductance>)[path.Oxygen, path.CarbonDioxide, path.Nitrogen])
            {
                table.Channel(gas.ActivationEnergy, offset).Between(from, to, at);
                at = at[StepBlock.GasWidth..];
            }
        }
    }

    /// <summary>∫f·s·psat: a channel of energy E + q, referred to 22 °C.</summary>
    private double Shifted(double energy, double heat, double offset, int from, int to, Span<double> ten)
    {
        table.Channel(energy + heat, offset).Between(from, to, ten);
        return ten[StepBlock.A] * SorptionShift.FactorOf(heat, Conductance.ReferenceKelvin);
    }

    private RunningSums Taken(double q10, double offset) => table.Uptake(
        q10, Stay.Uptake.ReferenceKelvin, Stay.Uptake.Basis == UptakeBasis.PerPascal, offset);

    private void FillTrend(int from, int to, Span<double> trend)
    {
        var (firstFrom, firstTo, secondFrom, secondTo) = Halves(from, to);
        var h = table.Edge(to) - table.Edge(from);
        var apart = (table.Edge(secondFrom) + table.Edge(secondTo) - table.Edge(firstFrom) - table.Edge(firstTo)) / 2;
        if (!(apart > 0))
            return;
        var (firstLength, secondLength) = (table.Edge(firstTo) - table.Edge(firstFrom), table.Edge(secondTo) - table.Edge(secondFrom));
        Span<double> first = stackalloc double[StepBlock.GasWidth];
        Span<double> second = stackalloc double[StepBlock.GasWidth];
        double Change(ReadOnlySpan<double> one, ReadOnlySpan<double> two, int item)
        {
            var (a, b) = (one[item] / firstLength, two[item] / secondLength);
            return a + b == 0 ? 0 : (b - a) / ((a + b) / 2) * (h / apart);
        }

        var offset = Offsets.Nodes[Offsets.Nodes.Length / 2];
        var heat = Heats.Nodes[Heats.Nodes.Length / 2];
        Taken(Q10s.Nodes[Q10s.Nodes.Length / 2], offset).Between(firstFrom, firstTo, first[..3]);
        Taken(Q10s.Nodes[Q10s.Nodes.Length / 2], offset).Between(secondFrom, secondTo, second[..3]);
        trend[UptakeTrend] = Change(first, second, 0);
        var total = 0.0;
        Span<double> gasTotals = stackalloc double[3];
        gasTotals.Clear();
        foreach (var path in Stay.Paths)
        {
            var median = path.Median;
            table.Channel(median.Water.ActivationEnergy, offset).Between(firstFrom, firstTo, first);
            table.Channel(median.Water.ActivationEnergy, offset).Between(secondFrom, secondTo, second);
            var rise = Change(first, second, StepBlock.E);
            table.Channel(median.Water.ActivationEnergy + heat, offset).Between(firstFrom, firstTo, first);
            table.Channel(median.Water.ActivationEnergy + heat, offset).Between(secondFrom, secondTo, second);
            rise -= Change(first, second, StepBlock.A);
            var weight = median.Water.AtReference;
            trend[WaterTrend] += weight * rise;
            total += weight;
            for (var gas = 0; gas < 3; gas++)
            {
                var conductance = gas == 0 ? median.Oxygen : gas == 1 ? median.CarbonDioxide : median.Nitrogen;
                table.Channel(conductance.ActivationEnergy, offset).Between(firstFrom, firstTo, first);
                table.Channel(conductance.ActivationEnergy, offset).Between(secondFrom, secondTo, second);
                if (Stay.Air.Moist)
                    (first[StepBlock.F], second[StepBlock.F]) = (first[StepBlock.F] - first[StepBlock.E], second[StepBlock.F] - second[StepBlock.E]);
                trend[SourceTrend + gas] += conductance.AtReference * Change(first, second, StepBlock.F);
                trend[RateTrend + gas] += conductance.AtReference * Change(first, second, StepBlock.FT);
                gasTotals[gas] += conductance.AtReference;
            }
        }

        if (total > 0)
            trend[WaterTrend] /= total;
        for (var gas = 0; gas < 3; gas++)
        {
            if (gasTotals[gas] > 0)
                (trend[SourceTrend + gas], trend[RateTrend + gas]) = (trend[SourceTrend + gas] / gasTotals[gas], trend[RateTrend + gas] / gasTotals[gas]);
        }
    }

    /// <summary>Two spans of cells whose means show how the climate moves across a step: its halves, or the neighbours of a single cell.</summary>
    private (int, int, int, int) Halves(int from, int to)
    {
        if (to - from >= 2)
        {
            var middle = (from + to) / 2;
            return (from, middle, middle, to);
        }

        var alike = table.IsResolved(from);
        var before = from > 0 && table.IsResolved(from - 1) == alike ? from - 1 : from;
        var after = (table.Periodic || to < table.Cells) && table.IsResolved(to) == alike ? to + 1 : to;
        return (before, before + 1, after - 1, after);
    }

    private double MeanKelvinAbout(int cell)
    {
        Span<double> ten = stackalloc double[StepBlock.GasWidth];
        var from = Math.Max(0, cell - 1);
        var to = table.Periodic ? cell + 1 : Math.Min(table.Cells, cell + 1);
        table.Channel(0, 0).Between(from, to, ten);
        return ten[StepBlock.Kelvin] / (table.Edge(to) - table.Edge(from));
    }
}
