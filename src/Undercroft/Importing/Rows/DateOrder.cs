using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>Decides whether the day or the month comes first: by the column's own cells, else by the other columns of the file, never against a cell that shows the contrary.</summary>
internal static class DateOrder
{
    /// <summary>The order by column, for every table.</summary>
    public static Func<Table, IReadOnlyDictionary<int, bool>> Of(IReadOnlyList<Table> tables, ReadingCache cache, SheetMap? map)
    {
        var seen = new Dictionary<(Table, int), (int DayFirst, int MonthFirst)>();
        int allDays = 0, allMonths = 0;
        foreach (var table in tables)
        {
            foreach (var column in table.Columns)
            {
                if (!column.IsDate)
                    continue;
                int days = 0, months = 0;
                foreach (var row in table.Rows)
                {
                    var cell = row[column.Index];
                    if (cell.IsBlank || cache.Date(cell.Text.Trim(), cell.Kind) is not DateCell.Known { DayFirst: { } first } || cell.Text.Contains('.', StringComparison.Ordinal))
                        continue;
                    days += first ? 1 : 0;
                    months += first ? 0 : 1;
                }

                seen[(table, column.Index)] = (days, months);
                allDays += days;
                allMonths += months;
            }
        }

        return table =>
        {
            var order = new Dictionary<int, bool>();
            foreach (var column in table.Columns)
            {
                if (!column.IsDate)
                    continue;
                var (days, months) = seen[(table, column.Index)];
                if ((map?.For(column.Head, column.Index)?.DayFirst ?? map?.DayFirst ?? HeadReading.OrderOf(column.Head)) is { } said)
                    order[column.Index] = said;
                else if (days > 0 != months > 0)
                    order[column.Index] = days > 0;
                else if (days == 0 && months == 0 && allDays > 0 != allMonths > 0)
                    order[column.Index] = allDays > 0;
            }

            return order;
        };
    }
}
