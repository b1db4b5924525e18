using System.CommandLine;
using Undercroft.Ledger;
using Undercroft.Ledger.Sqlite;

namespace Undercroft.Shell;

/// <summary>One command as it was called: its words, and what every command shares.</summary>
/// <param name="Terminal">What surrounds the run.</param>
/// <param name="Parsed">The words after <c>undercroft</c>.</param>
/// <param name="Doors">The options that every command shares.</param>
public sealed record Call(Terminal Terminal, ParseResult Parsed, CommonOptions Doors)
{
    /// <summary>Variable that names the data folder where <c>--data</c> does not.</summary>
    public const string DataVariable = "UNDERCROFT_DATA";

    /// <summary>Folder of the working directory where neither does.</summary>
    public const string DefaultFolder = "undercroft-data";

    /// <summary>What a server hands in; null where the command was called by a person.</summary>
    public Handed? Handed { get; init; }

    /// <summary>True where a program reads the answer.</summary>
    public bool Json => Parsed.GetValue(Doors.Json);

    /// <summary>The one folder that is read and written.</summary>
    public string DataFolder => Terminal.FullPath(
        Parsed.GetValue(Doors.Data)
        ?? (Terminal.Environment(DataVariable) is { Length: > 0 } named ? named : DefaultFolder));

    /// <summary>The value of an option or argument.</summary>
    public T? Value<T>(Option<T> option) => Parsed.GetValue(option);

    /// <summary>The value of an option or argument.</summary>
    public T? Value<T>(Argument<T> argument) => Parsed.GetValue(argument);

    /// <summary>The cellar of the data folder, to read or to add to.</summary>
    /// <exception cref="Refusal">There is none; nothing was created.</exception>
    public HandedCellars Cellars() => Handed is { } handed
        ? new(handed.Cellars)
        : new(SqliteCellars.Open(Ledger.DataFolder.Existing(DataFolder)), owned: true);

    /// <summary>The cellar of the data folder, begun with the first line that is written where there is none yet: what is refused leaves nothing behind.</summary>
    public HandedCellars CellarsOrNew() => Handed is { } handed ? new(handed.Cellars) : new(new BegunCellars(DataFolder), owned: true);

    /// <summary>The present, for a cellar as it was read.</summary>
    public Present Present(Cellar cellar) => Handed is { } handed && Parsed.GetValue(Doors.Today) is null
        ? handed.PresentOf(cellar)
        : Shell.Present.Of(Parsed.GetValue(Doors.Today), cellar, Terminal.Clock);
}
