using System.Globalization;
using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>In which unit the temperatures of a log stand: as said, as the file says, else by their range and season.</summary>
internal static class UnitChoice
{
    // Between these a number can be a hot day in °C or a cold one in °F.
    private const double DoubtFrom = 32;
    private const double DoubtTo = 45;

    /// <summary><c>C</c>, <c>F</c> or <c>K</c>.</summary>
    /// <param name="values">Readings without errors, sorted; not empty.</param>
    /// <param name="winter">True where all of the log lies from November to March.</param>
    /// <exception cref="Refusal">It cannot be told.</exception>
    public static char Of(double[] values, bool winter, RawRows rows, Layout layout, LogAnswers answers, string name, List<string> notes)
    {
        if (answers.Unit is { } said)
            return said;
        double At(double share) => values[(int)Math.Round(share * (values.Length - 1))];
        var (low, middle, high) = (At(0.01), At(0.5), At(0.99));
        var range = string.Create(CultureInfo.InvariantCulture, $"{At(0):0.#} to {At(1):0.#}");
        if (Written(rows, layout, name) is { } written)
        {
            if (written == 'C' && middle > 150)
                throw new Refusal($"{name} is not read: its temperatures are marked °C, but {range} can be none. If they are tenths or hundredths of a degree, export them in °C.");
            if (written == 'C' && middle > 50)
                throw new Refusal($"{name} is not read: its temperatures are marked °C, but {range} fits °F. Say --unit C or --unit F.");
            if (written == 'F' && high < 30 && low > 10 && !winter)
                notes.Add($"The temperatures are marked °F; {range} °F is below freezing throughout. Say --unit C if that is wrong.");
            return written;
        }

        if (middle > 150)
        {
            if (low > 230 && high < 335 && !Array.TrueForAll(values, value => value == Math.Floor(value)))
            {
                notes.Add($"No unit of temperature stands in the file; {range} is read as kelvin.");
                return 'K';
            }

            throw new Refusal($"{name} is not read: its temperatures, {range} without a unit, fit neither °C nor °F. If they are tenths of a degree or kelvin, export them in °C.");
        }

        if (middle > DoubtTo || high > 60)
        {
            notes.Add($"No unit of temperature stands in the file; {range} is read as °F by its range. Say --unit C if that is wrong.");
            return 'F';
        }

        if (middle >= DoubtFrom || (high >= DoubtFrom && winter))
            throw new Refusal($"{name} is not read: its temperatures, {range} without a unit, can be °C or °F. Say --unit C or --unit F.");
        notes.Add($"No unit of temperature stands in the file; {range} is read as °C by its range. Say --unit F if that is wrong.");
        return 'C';
    }

    private static char? Written(RawRows rows, Layout layout, string name)
    {
        var column = layout.Of(ColumnMeaning.Temperature) ?? layout.Of(ColumnMeaning.Value);
        if (rows.Units.Count(count => count > 0) > 1)
            throw new Refusal($"{name} is not read: some of its temperatures are marked with one unit and some with another. Export it in one unit.");
        var cells = rows.Units[0] > 0 ? 'C' : rows.Units[1] > 0 ? 'F' : rows.Units[2] > 0 ? 'K' : (char?)null;
        if (cells is not null)
            return cells;
        if (column is not null && (HeadingWords.TemperatureUnit(column.Folded) ?? HeadingWords.TemperatureUnit(LogWords.Fold(column.Group))) is { } heading)
            return heading;
        var lines = layout.Preamble.Split('\n').Where(line => line.Length < 200).ToList();
        var named = lines.Where(line => line.Contains("unit", StringComparison.Ordinal) || line.Contains("einheit", StringComparison.Ordinal) || line.Contains("unidad", StringComparison.Ordinal))
            .Select(HeadingWords.TemperatureUnit).Where(unit => unit is not null).Distinct().ToList();
        if (named.Count == 0)
        {
            named = [.. lines.Where(line => line.Contains('°') || line.Contains("celsius", StringComparison.Ordinal) || line.Contains("fahrenheit", StringComparison.Ordinal) || line.Contains("deg", StringComparison.Ordinal))
                .Select(HeadingWords.TemperatureUnit).Where(unit => unit is not null).Distinct()];
        }

        return named.Count == 1 ? named[0] : null;
    }
}
