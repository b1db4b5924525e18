using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>Why a column has its meaning.</summary>
public enum Ground
{
    /// <summary>Nothing fits: kept word for word.</summary>
    Nothing,

    /// <summary>Its head says so.</summary>
    Head,

    /// <summary>What stands in it looks so.</summary>
    Contents,

    /// <summary>The person said so in a map.</summary>
    Map,
}

/// <summary>A column and what it is taken to be.</summary>
/// <param name="Index">From 0.</param>
/// <param name="Head">Its head; of several rows joined by a space.</param>
/// <param name="Meaning">What it is about.</param>
/// <param name="Ground">Why.</param>
/// <param name="GramsPerUnit">Unit of weight of the head; null where it names none.</param>
/// <param name="MlPerUnit">Unit of volume of the head; null where it names none.</param>
/// <param name="Currency">Currency of the head; null where it names none.</param>
/// <param name="Share">Each or total, where the head says so.</param>
/// <param name="DayFirst">Order of day and month, where the column's own cells or the map show it.</param>
/// <param name="CommaIsDecimal">Decimal mark, where the column's own numbers show it.</param>
public sealed record Column(
    int Index,
    string Head,
    Meaning Meaning,
    Ground Ground,
    double? GramsPerUnit = null,
    double? MlPerUnit = null,
    string? Currency = null,
    Share Share = Share.Unsaid,
    bool? DayFirst = null,
    bool? CommaIsDecimal = null)
{
    /// <summary>True where its head is one of a row of numbers, <c>Jar 1 | Jar 2</c>: each cell is a package of its own.</summary>
    public bool Numbered { get; init; }

    /// <summary>True for columns of dates.</summary>
    public bool IsDate => Meaning is Meaning.Made or Meaning.Sealed or Meaning.Bought or Meaning.Date or Meaning.Opened or Meaning.Gone;

    /// <summary>True for columns of amounts of leaf.</summary>
    public bool IsAmount => Meaning is Meaning.Quantity or Meaning.Each or Meaning.Total or Meaning.Left;
}

/// <summary>One table of a sheet: a head and the rows under it.</summary>
/// <param name="Sheet">Name of the sheet.</param>
/// <param name="HeadRows">Row numbers of the head; empty where there is none.</param>
/// <param name="Columns">All columns, in order.</param>
/// <param name="Rows">The rows under the head, with headings, totals and notes among them.</param>
public sealed record Table(string Sheet, IReadOnlyList<int> HeadRows, IReadOnlyList<Column> Columns, IReadOnlyList<SheetRow> Rows)
{
    /// <summary>The first column with a meaning, or null.</summary>
    public Column? Of(Meaning meaning)
    {
        foreach (var column in Columns)
        {
            if (column.Meaning == meaning)
                return column;
        }

        return null;
    }
}
