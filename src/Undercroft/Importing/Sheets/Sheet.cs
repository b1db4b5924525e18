namespace Undercroft.Importing.Sheets;

/// <summary>What the file itself says a cell is. Text files know only text.</summary>
public enum CellKind
{
    /// <summary>Characters as they were typed.</summary>
    Text,

    /// <summary>A number stored as a number, so that its decimal point is no matter of taste.</summary>
    Number,

    /// <summary>A date stored as a date; the text is ISO 8601.</summary>
    Date,

    /// <summary>A formula without a stored result, or a result that is an error.</summary>
    Broken,
}

/// <summary>One cell.</summary>
/// <param name="Text">What it shows; never null.</param>
/// <param name="Kind">What the file says it is.</param>
/// <param name="Continued">True where the value belongs to a merged cell that begins in another row or column.</param>
public readonly record struct Cell(string Text, CellKind Kind = CellKind.Text, bool Continued = false)
{
    /// <summary>True where the workbook shows it struck out.</summary>
    public bool Struck { get; init; }

    /// <summary>An empty cell.</summary>
    public static readonly Cell Empty = new("");

    /// <summary>True where nothing but space is written.</summary>
    public bool IsBlank => string.IsNullOrWhiteSpace(Text);
}

/// <summary>One row as it stands in the file.</summary>
/// <param name="Number">Row number as a spreadsheet shows it, from 1; blank rows count.</param>
/// <param name="Cells">From the first column; trailing blanks may be missing.</param>
public sealed record SheetRow(int Number, IReadOnlyList<Cell> Cells)
{
    private readonly Cell[] held = Cells as Cell[] ?? [.. Cells];

    /// <summary>The cell of a column, empty beyond the end of the row.</summary>
    public Cell this[int column] => (uint)column < (uint)held.Length ? held[column] : Cell.Empty;

    /// <summary>How many cells hold anything of their own.</summary>
    public int Filled
    {
        get
        {
            var count = 0;
            foreach (var cell in held)
            {
                if (!cell.IsBlank && !cell.Continued)
                    count++;
            }

            return count;
        }
    }
}

/// <summary>One sheet of a file. Rows without any content are left out; the numbers of the others stay as they were.</summary>
/// <param name="Name">The sheet's name, or empty for a text file.</param>
/// <param name="Rows">In the order of the file.</param>
public sealed record Sheet(string Name, IReadOnlyList<SheetRow> Rows);

/// <summary>A file of sheets.</summary>
/// <param name="Form">How it was read, for people: <c>text, UTF-8, separated by ';'</c>.</param>
/// <param name="Sheets">In the order of the file.</param>
/// <param name="Remarks">What a person should know about the reading: a guessed encoding, an unclosed quotation mark.</param>
/// <param name="From1904">True where a workbook counts its days from 1904.</param>
public sealed record SheetFile(string Form, IReadOnlyList<Sheet> Sheets, IReadOnlyList<string> Remarks, bool From1904 = false)
{
    /// <summary>How a text file stores its letters; null for a workbook, which says so itself.</summary>
    public string? Encoding { get; init; }
}

/// <summary>How much of a file is read before it is refused: bounds on memory and time.</summary>
/// <param name="Bytes">Size of the file.</param>
/// <param name="Rows">Rows of all sheets together.</param>
/// <param name="Cells">Filled cells of all sheets together.</param>
/// <param name="Columns">Columns of one row.</param>
/// <param name="CellCharacters">Length of one cell.</param>
/// <param name="Unpacked">Bytes of a workbook after unpacking.</param>
/// <param name="Ratio">Unpacked over packed bytes, asked once a workbook unpacks to more than <see cref="RatioFrom"/>.</param>
/// <param name="Entries">Parts inside a workbook.</param>
public sealed record SheetLimits(
    long Bytes = 32L << 20,
    int Rows = 200_000,
    int Cells = 4_000_000,
    int Columns = 2_000,
    int CellCharacters = 32_767,
    long Unpacked = 400L << 20,
    double Ratio = 200,
    int Entries = 2_000)
{
    /// <summary>Bytes below which a high ratio is harmless: an honest sheet of equal rows packs very well.</summary>
    public const long RatioFrom = 16L << 20;

    /// <summary>The limits that hold unless a test asks for others.</summary>
    public static readonly SheetLimits Standard = new();
}
