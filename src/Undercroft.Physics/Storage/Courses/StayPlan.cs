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
    private readonly double[] trends;
    private readonly int[] blockOfStep;
    private readonly int[] blockOfRow;
    private readonly ClimateTable table;

    public StayPlan(Stay stay, PerDraw heat, int[] cells, IReadOnlyList<PlannedRow> rows)
    {
        (Stay, table, Rows) = (stay, stay.Place, rows);
        (Offsets, Heats) = (NodeAxis.Of(stay.TemperatureOffset, OffsetNodes), NodeAxis.Of(heat, HeatNodes));
        Q10s = NodeAxis.OfLog(stay.Uptake.Q10, Q10Nodes);
        Block = new(Heats.Nodes.Length, Q10s.Nodes.Length, stay.Paths.Count);
        Steps = cells.Length - 1;
        var nodes = Offsets.Nodes.Length;
        (Length, Start, Resolved) = (new double[Steps], new double[Steps + 1], new bool[Steps]);
        EdgeKelvin = new double[Steps + 1];
        StayChannels[] channels = [.. Offsets.Nodes.Select(offset => new StayChannels(stay, offset, Heats.Nodes, Q10s.Nodes))];

        // A step of the same days of the year is the same step: its sums are made and kept once.
        var alike = Alike(Enumerable.Range(0, Steps).Select(step => (cells[step], cells[step + 1])), out blockOfStep);
        (sums, trends) = (new double[alike.Count * nodes * Block.Width], new double[alike.Count * TrendWidth]);
        for (var block = 0; block < alike.Count; block++)
        {
            for (var node = 0; node < nodes; node++)
                Fill(alike[block].From, alike[block].To, channels[node], sums.AsSpan(((block * nodes) + node) * Block.Width, Block.Width));
            FillTrend(alike[block].From, alike[block].To, channels[nodes / 2], trends.AsSpan(block * TrendWidth, TrendWidth));
        }

        for (var step = 0; step < Steps; step++)
            (Start[step], Length[step], Resolved[step]) = (table.Edge(cells[step]), table.Edge(cells[step + 1]) - table.Edge(cells[step]), table.IsResolved(cells[step]));
        Start[Steps] = table.Edge(cells[Steps]);
        var air = table.Channel(0, 0);
        for (var edge = 0; edge <= Steps; edge++)
            EdgeKelvin[edge] = MeanKelvinAbout(air, cells[edge]);
        var days = Alike(rows.Select(row => (Math.Max(row.Cell, 0), Math.Max(row.Cell, 0) + 1)), out blockOfRow);
        rowSums = new double[days.Count * nodes * Block.Width];
        for (var block = 0; block < days.Count; block++)
        {
            for (var node = 0; node < nodes; node++)
                Fill(days[block].From, days[block].To, channels[node], rowSums.AsSpan(((block * nodes) + node) * Block.Width, Block.Width));
        }
    }

    public const int TrendWidth = 8;

    /// <summary>Relative change over a step of the water's target, of each gas's source, of each gas's rate, of the uptake.</summary>
    public const int WaterTrend = 0, SourceTrend = 1, RateTrend = 4, UptakeTrend = 7;

    public Stay Stay { get; }

    /// <summary>True for a rigid package without viscous flow: its gases are linear and do without each other.</summary>
    public bool Simple => Stay.Headspace is HeadspaceDraws.Rigid && Stay.Paths.All(path => path.Median.Viscous == 0);

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

    /// <summary>How the climate moves over one step, see the places above.</summary>
    public ReadOnlySpan<double> Trends(int step) => trends.AsSpan(blockOfStep[step] * TrendWidth, TrendWidth);

    /// <summary>The sums of one step, node after node.</summary>
    public ReadOnlySpan<double> Sums(int step) => Of(sums, blockOfStep[step]);

    /// <summary>The sums of the day of one row.</summary>
    public ReadOnlySpan<double> RowSums(int row) => Of(rowSums, blockOfRow[row]);

    /// <summary>The room at an instant, the draw's own offsets left out.</summary>
    public RoomMoment RoomAt(double day) => table.Place.At(day);

    private ReadOnlySpan<double> Of(double[] blocks, int block)
    {
        var width = Offsets.Nodes.Length * Block.Width;
        return blocks.AsSpan(block * width, width);
    }

    /// <summary>Spans of cells that differ, and for each asked span its place among them.</summary>
    private List<(int From, int To)> Alike(IEnumerable<(int From, int To)> spans, out int[] places)
    {
        Dictionary<(int, int), int> known = [];
        List<(int From, int To)> distinct = [];
        List<int> found = [];
        foreach (var (from, to) in spans)
        {
            var key = (table.Periodic && from >= table.Cells ? (from % table.Cells) + table.Cells : from, to - from); // the first year has no day before
            if (!known.TryGetValue(key, out var place))
            {
                place = known[key] = distinct.Count;
                distinct.Add((from, to));
            }

            found.Add(place);
        }

        places = [.. found];
        return distinct;
    }

    private void Fill(int from, int to, StayChannels channels, Span<double> block)
    {
        Span<double> ten = stackalloc double[StepBlock.GasWidth];
        channels.Air.Between(from, to, ten);
        ten[..4].CopyTo(block);
        (block[StepBlock.KelvinCos], block[StepBlock.KelvinSin]) = (ten[StepBlock.FTCos], ten[StepBlock.FTSin]);
        (block[StepBlock.VapourCos], block[StepBlock.VapourSin]) = (ten[StepBlock.ECos], ten[StepBlock.ESin]);
        (block[StepBlock.PressureCos], block[StepBlock.PressureSin]) = (ten[StepBlock.FCos], ten[StepBlock.FSin]);
        if (channels.DryBreath is not null && channels.MoistBreath is not null)
        {
            channels.DryBreath.Between(from, to, ten[..1]);
            block[StepBlock.Breath] = ten[0];
            channels.MoistBreath.Between(from, to, ten[..1]);
            block[StepBlock.BreathPerActivity] = (ten[0] - block[StepBlock.Breath]) / StayChannels.Moist;
        }

        for (var node = 0; node < Heats.Nodes.Length; node++)
            block[StepBlock.ShiftedSaturation + node] = Shifted(channels.AirShifted[node], node, from, to, ten);
        for (var node = 0; node < Q10s.Nodes.Length; node++)
            channels.Uptakes[node].Between(from, to, block.Slice(Block.Uptake + (3 * node), 3));
        for (var p = 0; p < Stay.Paths.Count; p++)
        {
            var at = block[Block.Path(p)..];
            for (var node = 0; node < Heats.Nodes.Length; node++)
                at[node] = Shifted(channels.WaterShifted[p][node], node, from, to, ten);
            at = at[Heats.Nodes.Length..];
            channels.Water[p].Between(from, to, ten);
            (at[0], at[1]) = (ten[StepBlock.A], ten[StepBlock.E]);
            at = at[2..];
            foreach (var gas in channels.Gases[p])
            {
                gas.Between(from, to, at);
                at = at[StepBlock.GasWidth..];
            }
        }
    }

    /// <summary>∫f·s·psat: a channel of energy E + q, referred to 22 °C.</summary>
    private double Shifted(RunningSums channel, int node, int from, int to, Span<double> ten)
    {
        channel.Between(from, to, ten);
        return ten[StepBlock.A] * SorptionShift.FactorOf(Heats.Nodes[node], Conductance.ReferenceKelvin);
    }

    private void FillTrend(int from, int to, StayChannels channels, Span<double> trend)
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

        void Read(RunningSums channel, Span<double> one, Span<double> two)
        {
            channel.Between(firstFrom, firstTo, one);
            channel.Between(secondFrom, secondTo, two);
        }

        Read(channels.Uptakes[Q10s.Nodes.Length / 2], first[..3], second[..3]);
        trend[UptakeTrend] = Change(first, second, 0);
        var total = 0.0;
        Span<double> gasTotals = stackalloc double[3];
        gasTotals.Clear();
        for (var p = 0; p < Stay.Paths.Count; p++)
        {
            var median = Stay.Paths[p].Median;
            Read(channels.Water[p], first, second);
            var rise = Change(first, second, StepBlock.E);
            Read(channels.WaterShifted[p][Heats.Nodes.Length / 2], first, second);
            rise -= Change(first, second, StepBlock.A);
            trend[WaterTrend] += median.Water.AtReference * rise;
            total += median.Water.AtReference;
            for (var gas = 0; gas < 3; gas++)
            {
                var weight = (gas == 0 ? median.Oxygen : gas == 1 ? median.CarbonDioxide : median.Nitrogen).AtReference;
                Read(channels.Gases[p][gas], first, second);
                if (Stay.Air.Moist)
                    (first[StepBlock.F], second[StepBlock.F]) = (first[StepBlock.F] - first[StepBlock.E], second[StepBlock.F] - second[StepBlock.E]);
                trend[SourceTrend + gas] += weight * Change(first, second, StepBlock.F);
                trend[RateTrend + gas] += weight * Change(first, second, StepBlock.FT);
                gasTotals[gas] += weight;
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

    private double MeanKelvinAbout(RunningSums air, int cell)
    {
        Span<double> ten = stackalloc double[StepBlock.GasWidth];
        var from = Math.Max(0, cell - 1);
        var to = table.Periodic ? cell + 1 : Math.Min(table.Cells, cell + 1);
        air.Between(from, to, ten);
        return ten[StepBlock.Kelvin] / (table.Edge(to) - table.Edge(from));
    }
}
