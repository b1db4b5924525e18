using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

internal static partial class ColumnChoice
{
    private static List<LogColumn> OneOfEach(List<LogColumn> columns, List<ColumnFacts> facts, LogAnswers answers, string name, List<string> notes)
    {
        var chosen = new List<LogColumn>();
        var lone = false;
        foreach (var meaning in Measured)
        {
            var found = columns.Where(column => column.Meaning == meaning).ToList();
            if (found.Exists(column => HeadingWords.StatisticOf(column.Folded) != Statistic.Extreme))
                found.RemoveAll(column => HeadingWords.StatisticOf(column.Folded) == Statistic.Extreme);
            if (found.Exists(column => HeadingWords.StatisticOf(column.Folded) == Statistic.Mean) && found.Count > 1 && found.Count(column => HeadingWords.StatisticOf(column.Folded) == Statistic.Mean) == 1
                && found.TrueForAll(column => Reduced(column.Folded) == Reduced(found[0].Folded)))
                found.RemoveAll(column => HeadingWords.StatisticOf(column.Folded) != Statistic.Mean);
            if (found.Count > 1 && facts.Count > 0)
                found = Filled(found, facts, notes);
            if (meaning == ColumnMeaning.Temperature && found.Count == 2)
                found = OneUnit(found, facts, notes);
            if (found.Count > 1 && answers.Sensor is { } sensor)
                found = Matching(found, sensor, chosen, columns);
            if (found.Count > 1 && meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity)
                throw new Refusal(Several(name, found, meaning));
            if (found.Count == 1)
            {
                chosen.Add(found[0]);
                lone |= meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity;
            }
            else if (found.Count > 1)
            {
                notes.Add($"Several columns of {LogAnswers.WordOf(meaning)} ({string.Join(", ", found.Select(column => $"'{column.Name}'"))}): none of them is kept.");
            }
        }

        // The dew point is read for the humidity that it tells, where nothing else does.
        if (chosen.Exists(column => column.Meaning == ColumnMeaning.Humidity) || !chosen.Exists(column => column.Meaning == ColumnMeaning.Temperature))
            chosen.RemoveAll(column => column.Meaning == ColumnMeaning.DewPoint);
        chosen.AddRange(columns.Where(column => column.Meaning == ColumnMeaning.Sensor).Take(1));
        if (columns.Where(column => column.Meaning == ColumnMeaning.Unknown).ToList() is { Count: > 0 } left && lone)
            notes.Add($"Not understood and left out: {string.Join(", ", left.Select(column => $"'{column.Name}'"))}.");
        return chosen;
    }

    private static string Several(string name, List<LogColumn> found, ColumnMeaning meaning)
    {
        var word = LogAnswers.WordOf(meaning);
        return found.TrueForAll(column => HeadingWords.StatisticOf(column.Folded) == Statistic.Extreme)
            ? $"{name} is not read: it holds the lowest and highest {word} of each interval and no reading itself ({string.Join(", ", found.Select(column => $"'{column.Name}'"))}). Say which to take with --columns {word}=HEADING."
            : $"{name} is not read: it holds several sensors ({string.Join(", ", found.Select(column => $"'{column.Name}'"))}), and each place takes one. Say which with --sensor, such as --sensor \"{found[0].Name}\".";
    }

    private static string Reduced(string heading) => string.Concat(heading.Split(' ', '(', ')', '[', ']', '.', ',').Where(word => HeadingWords.StatisticOf(word) == Statistic.None));

    // A channel without a sensor plugged in holds dashes.
    private static List<LogColumn> Filled(List<LogColumn> found, List<ColumnFacts> facts, List<string> notes)
    {
        var filled = found.Where(column => facts.Find(one => one.Column.Index == column.Index) is { Numbers: > 0 } one && one.Numbers > 0.02 * one.Rows && !IsOfErrors(one)).ToList();
        if (filled.Count == 0 || filled.Count == found.Count)
            return found;
        notes.Add($"Nothing stands in {string.Join(", ", found.Except(filled).Select(column => $"'{column.Name}'"))}: left out.");
        return filled;
    }

    // A channel without a sensor plugged in may also say one number that neither quantity has.
    private static bool IsOfErrors(ColumnFacts facts) => facts.Column.Meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity && facts.IsConstant && facts.Rows > 2 && facts.Median > 150;

    // The same temperature in both units.
    private static List<LogColumn> OneUnit(List<LogColumn> found, List<ColumnFacts> facts, List<string> notes)
    {
        var celsius = found.Find(column => HeadingWords.TemperatureUnit(column.Folded) == 'C');
        var fahrenheit = found.Find(column => HeadingWords.TemperatureUnit(column.Folded) == 'F');
        if (celsius is null || fahrenheit is null)
            return found;
        var (one, other) = (facts.Find(fact => fact.Column.Index == celsius.Index), facts.Find(fact => fact.Column.Index == fahrenheit.Index));
        if (one is not { Numbers: > 0 } || other is not { Numbers: > 0 } || !((double[])[0.1, 0.5, 0.9]).All(share => Math.Abs((one.At(share) * 1.8) + 32 - other.At(share)) < 1.1))
            return found;
        notes.Add($"'{celsius.Name}' and '{fahrenheit.Name}' say the same; the first is read.");
        return [celsius];
    }

    private static List<LogColumn> Matching(List<LogColumn> found, string sensor, List<LogColumn> chosen, List<LogColumn> columns)
    {
        var folded = LogWords.Fold(sensor);
        var matching = found.Where(column => string.Equals(LogWords.Fold(column.Name), folded, StringComparison.Ordinal)).ToList();
        if (matching.Count == 0)
            matching = [.. found.Where(column => LogWords.Fold(column.Name).Contains(folded, StringComparison.Ordinal))];
        if (matching.Count > 0 || chosen.Find(column => column.Meaning == ColumnMeaning.Temperature) is not { } temperature)
            return matching.Count > 0 ? matching : found;
        // The humidity that stands between the chosen temperature and the next one.
        var next = columns.Where(column => column.Meaning == ColumnMeaning.Temperature && column.Index > temperature.Index).Select(column => column.Index).DefaultIfEmpty(int.MaxValue).Min();
        var beside = found.Where(column => column.Index > temperature.Index && column.Index < next).ToList();
        if (beside.Count == 1)
            return beside;
        var place = columns.Where(column => column.Meaning == ColumnMeaning.Temperature).OrderBy(column => column.Index).ToList().FindIndex(column => column.Index == temperature.Index);
        return place < found.Count ? [found[place]] : found;
    }

    // Neither temperature nor humidity is named: what the numbers can be.
    private static List<LogColumn> ByRange(Layout layout, List<LogColumn> columns, List<ColumnFacts> facts, string name, List<string> notes)
    {
        var open = facts.Where((one, index) => one.IsNumeric && columns[index].Meaning is ColumnMeaning.Unknown or ColumnMeaning.Value).ToList();
        if (open.Count == 0)
            return columns;
        if (layout.Separator == ',' && layout.Heading.Length == 0 && open.Count % 2 == 0 && open.TrueForAll(one => one.Whole) && open.Where((_, index) => index % 2 == 1).All(one => one.At(0) >= 0 && one.At(1) <= 99 && !one.IsConstant))
            throw new Refusal($"{name} is not read: the comma seems to separate columns and decimals alike, and no heading says how many columns there are. Export it with semicolons, or with a decimal point.");
        List<LogColumn> As(ColumnFacts one, ColumnMeaning meaning, List<LogColumn> among) => [.. among.Select(column => column.Index == one.Column.Index ? column with { Meaning = meaning } : column)];
        if (open.Count == 1)
        {
            var hint = LoneQuantity(LogWords.Fold(Path.GetFileNameWithoutExtension(name).Replace('_', ' ').Replace('-', ' ')), layout.Preamble, open[0], name);
            if (hint is ColumnMeaning.Temperature or ColumnMeaning.Humidity)
                notes.Add($"The heading does not say what is logged; it is taken as {(hint == ColumnMeaning.Temperature ? "temperature" : "relative humidity")}.");
            return As(open[0], hint, columns);
        }

        bool Warm(ColumnFacts one) => one.Median is >= -30 and <= 40 && (one.At(0) < 0 || one.At(1) > 1.05);
        bool Damp(ColumnFacts one) => one.At(0.01) >= 0 && one.At(0.99) <= 105 && (one.Median >= 20 || one.At(1) <= 1);
        bool Hot(ColumnFacts one) => one.Median is > 45 and <= 110;
        var (first, second) = (open[0], open[1]);
        var forward = Warm(first) && Damp(second);
        var backward = Warm(second) && Damp(first) && first.At(1) > 1;
        if (forward && backward)
        {
            // A place that is warmer than 30 °C or drier than 30 % all the time is rarer than one that is not.
            forward = first.Median <= 30 && second.Median > 30;
            backward = second.Median <= 30 && first.Median > 30;
            if (forward == backward)
                throw new Refusal(EitherWay(name, first, second));
        }

        var american = Hot(first) && Damp(second);
        if (backward && american && second.Median <= 30)
            throw new Refusal(EitherWay(name, first, second));
        if (forward || american) // 30 °C all the time is no place, 60 °F is
            columns = As(second, ColumnMeaning.Humidity, As(first, ColumnMeaning.Temperature, columns));
        else if (backward)
            columns = As(first, ColumnMeaning.Humidity, As(second, ColumnMeaning.Temperature, columns));
        else if (Warm(first) || Hot(first))
            columns = As(first, ColumnMeaning.Temperature, columns);
        else
            return columns;
        notes.Add($"No heading says what the columns hold; by their range {string.Join(" and ", columns.Where(column => column.Meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity).Select(column => $"'{column.Name}' is taken as {LogAnswers.WordOf(column.Meaning)}"))}.");
        return columns;
    }

    private static string EitherWay(string name, ColumnFacts first, ColumnFacts second) =>
        $"{name} is not read: nothing says which of '{first.Column.Name}' and '{second.Column.Name}' is the temperature, and both can be. Say it with --columns, such as --columns temperature={first.Column.Index + 1},humidity={second.Column.Index + 1}.";

    // One of the two is marked in its cells and no heading names the other.
    private static List<LogColumn> OtherHalf(List<LogColumn> columns, List<ColumnFacts> facts, List<string> notes)
    {
        var open = columns.Where(column => column.Meaning == ColumnMeaning.Unknown && column.Heading.Length == 0).ToList();
        var (warm, damp) = (columns.Exists(column => column.Meaning == ColumnMeaning.Temperature), columns.Exists(column => column.Meaning == ColumnMeaning.Humidity));
        if (open.Count != 1 || warm == damp)
            return columns;
        var facts1 = facts[columns.IndexOf(open[0])];
        if (warm ? facts1.At(0.01) < 0 || facts1.At(0.99) > 105 || facts1.Median is > 1 and < 10 : facts1.Median is < -30 or > 110)
            return columns;
        var meaning = warm ? ColumnMeaning.Humidity : ColumnMeaning.Temperature;
        notes.Add($"No heading says what '{open[0].Name}' holds; it is taken as {LogAnswers.WordOf(meaning)}.");
        return [.. columns.Select(column => column.Index == open[0].Index ? column with { Meaning = meaning } : column)];
    }

    private static ColumnMeaning LoneQuantity(string file, string preamble, ColumnFacts facts, string name)
    {
        var byName = HeadingWords.Meaning(file) is var meaning && meaning is ColumnMeaning.Temperature or ColumnMeaning.Humidity or ColumnMeaning.Light or ColumnMeaning.Pressure ? meaning : ColumnMeaning.Unknown;
        if (byName != ColumnMeaning.Unknown)
            return byName;
        var said = preamble.Split('\n').Select(HeadingWords.Meaning).Where(one => one is ColumnMeaning.Temperature or ColumnMeaning.Humidity or ColumnMeaning.Light or ColumnMeaning.Pressure).Distinct().ToList();
        if (said.Count == 1)
            return said[0];
        return facts.At(0.01) >= -40 && facts.At(0.99) <= 32 && facts.Median <= 30 ? ColumnMeaning.Temperature
            : facts.At(0.01) >= 0 && facts.At(0.99) <= 100 ? throw new Refusal($"{name} is not read: nothing says whether its numbers, {facts.At(0).As("0.#")} to {facts.At(1).As("0.#")}, are temperatures or humidities. Say --columns temperature={facts.Column.Index + 1} or --columns humidity={facts.Column.Index + 1}.")
            : ColumnMeaning.Other;
    }
}
