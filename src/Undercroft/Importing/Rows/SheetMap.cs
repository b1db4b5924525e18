using System.Text.Json;
using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;
using Undercroft.Ledger;

namespace Undercroft.Importing.Rows;

/// <summary>What a person says about one column.</summary>
/// <param name="Head">The head as it stands in the sheet, or a column letter such as <c>C</c> where there is no head.</param>
/// <param name="Meaning">What it is about, in lower case: <c>blend</c>, <c>each</c>, <c>bought</c>, <c>other</c>.</param>
/// <param name="Unit">Unit of its bare numbers, or null.</param>
/// <param name="DayFirst">Order of day and month in its dates, or null.</param>
public sealed record MapColumn(string Head, string Meaning, string? Unit = null, bool? DayFirst = null);

/// <summary>What a person says about the columns of a sheet: a guess that was shown, corrected and kept. One JSON object, so that it can be edited by hand.</summary>
/// <param name="Columns">By head.</param>
/// <param name="DayFirst">Order of day and month for every column that does not say otherwise, or null.</param>
/// <param name="Encoding">How a text file stores its letters, or null where it is guessed.</param>
public sealed record SheetMap(IReadOnlyList<MapColumn> Columns, bool? DayFirst = null, string? Encoding = null)
{
    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web) { WriteIndented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The guess as a map that can be edited and given back.</summary>
    public static SheetMap Of(SheetReading reading) => new([.. reading.Tables.SelectMany(table => table.Columns).Where(column => column.Head.Length > 0 || column.Meaning != Meaning.Other)
        .Select(column => new MapColumn(column.Head.Length > 0 ? column.Head : Letter(column.Index), Word(column.Meaning), Unit(column), column.IsDate ? column.DayFirst : null))
        .DistinctBy(column => Folding.Fold(column.Head))], null, reading.Encoding);

    /// <summary>Reads a map.</summary>
    /// <exception cref="Refusal">Not a map, or a meaning that is not known.</exception>
    public static SheetMap Read(string json)
    {
        SheetMap? map;
        try
        {
            map = JsonSerializer.Deserialize<SheetMap>(json, Form);
        }
        catch (JsonException)
        {
            map = null;
        }

        if (map?.Columns is null)
            throw new Refusal("The map is not one: it must be a JSON object with 'columns', each with 'head' and 'meaning'. A dry run shows the present guess in that form.");
        if (map.Encoding is { } encoding && TextDecoding.Find(encoding) is null)
            throw new Refusal($"The map gives the encoding '{encoding}', which is none. Known ones: {string.Join(", ", TextDecoding.Names)}.");
        foreach (var column in map.Columns)
        {
            if (column?.Head is null || column.Meaning is null || !Enum.TryParse<Meaning>(column.Meaning, ignoreCase: true, out _) || int.TryParse(column.Meaning, out _))
                throw new Refusal($"The map gives column '{column?.Head}' the meaning '{column?.Meaning}', which is none. Known ones: {string.Join(", ", Enum.GetValues<Meaning>().Select(Word))}.");
            if (column.Unit is { } unit && !UnitWords.Grams.ContainsKey(Folding.Fold(unit)) && !UnitWords.Millilitres.ContainsKey(Folding.Fold(unit)))
                throw new Refusal($"The map gives column '{column.Head}' the unit '{unit}', which is none. Write g, oz, lb, kg or ml.");
        }

        return map;
    }

    /// <summary>As JSON.</summary>
    public string Json() => JsonSerializer.Serialize(this, Form);

    internal MapColumn? For(string head, int index)
    {
        var folded = Folding.Fold(head);
        return Columns.FirstOrDefault(column => head.Length > 0 ? Folding.Fold(column.Head) == folded : string.Equals(column.Head, Letter(index), StringComparison.OrdinalIgnoreCase));
    }

    internal static string Letter(int index) => index < 26 ? ((char)('A' + index)).ToString() : Letter((index / 26) - 1) + (char)('A' + (index % 26));

    internal static string Word(Meaning meaning)
    {
        var name = meaning.ToString();
        return char.ToLowerInvariant(name[0]) + name[1..];
    }

    private static string? Unit(Column column) => column switch
    {
        { GramsPerUnit: UnitWords.OunceGrams } => "oz",
        { GramsPerUnit: UnitWords.PoundGrams } => "lb",
        { GramsPerUnit: 1000 } => "kg",
        { GramsPerUnit: 1 } => "g",
        { MlPerUnit: UnitWords.FluidOunceMl } => "floz",
        { MlPerUnit: 1 } => "ml",
        { MlPerUnit: 1000 } => "l",
        _ => null,
    };
}
