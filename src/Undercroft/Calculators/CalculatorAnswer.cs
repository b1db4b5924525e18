using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Spectre.Console;
using Undercroft.Shell;

namespace Undercroft.Calculators;

/// <summary>A calculator's answer as a page shows it.</summary>
/// <param name="Lines">As the terminal prints them: verdict first.</param>
/// <param name="Figures">Name, value and unit of every number.</param>
internal sealed partial record CalculatorAnswer(IReadOnlyList<string> Lines, IReadOnlyList<(string Name, string Value)> Figures)
{
    private const string CautionWord = "Caution: ";

    // Longest first: "KPa" ends in "Pa" too.
    private static readonly (string End, string Unit)[] Units =
    [
        ("MlPerGYear", "ml/(g·year)"), ("MlPerDay", "ml a day"), ("MgPerDayL", "mg/(day·l)"), ("MgPerDay", "mg a day"), ("KgPerM2SPa", "kg/(m²·s·Pa)"), ("MolPerM2SPa", "mol/(m²·s·Pa)"),
        ("GPerM3", "g/m³"), ("GPerKg", "g/kg"), ("KPa", "kPa"), ("Pct", "%"), ("Pa", "Pa"), ("Ml", "ml"), ("Mm", "mm"), ("Mg", "mg"), ("C", "°C"), ("G", "g"), ("N", "N"),
    ];

    /// <summary>Verdict.</summary>
    public string First => Lines[0];

    /// <summary>What it rests on, without cautions.</summary>
    public IEnumerable<string> Rest => Lines.Skip(1).Where(line => !line.StartsWith(CautionWord, StringComparison.Ordinal));

    /// <summary>Where acting on it can hurt someone.</summary>
    public IEnumerable<string> Cautions => Lines.Where(line => line.StartsWith(CautionWord, StringComparison.Ordinal)).Select(line => char.ToUpperInvariant(line[CautionWord.Length]) + line[(CautionWord.Length + 1)..]);

    /// <summary>Of an answer.</summary>
    public static CalculatorAnswer Of(Answer answer)
    {
        using var writer = new StringWriter();
        var console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(writer), Ansi = AnsiSupport.No, ColorSystem = ColorSystemSupport.NoColors, Interactive = InteractionSupport.No });
        console.Profile.Width = 10_000;
        answer.Print(console);
        var json = JsonSerializer.SerializeToElement(answer.Json, answer.Json.GetType(), JsonText.Settings);
        return new([.. writer.ToString().Split('\n').Select(line => line.TrimEnd()).Where(line => line.Length > 0)], [.. json.EnumerateObject().Select(member => Figure(member.Name, member.Value))]);
    }

    private static (string, string) Figure(string name, JsonElement value)
    {
        var (end, unit) = Units.FirstOrDefault(each => name.EndsWith(each.End, StringComparison.Ordinal) && name.Length > each.End.Length);
        var words = Humps().Replace(end is null ? name : name[..^end.Length], match => " " + match.Value.ToLowerInvariant());
        var shown = value.ValueKind switch
        {
            JsonValueKind.Number => value.GetDouble().ToString("G6", CultureInfo.InvariantCulture) + (unit is null ? "" : " " + unit),
            JsonValueKind.True => "yes",
            JsonValueKind.False => "no",
            JsonValueKind.Null => "not known",
            _ => value.ToString(),
        };
        return (words, shown);
    }

    [GeneratedRegex("(?<=[a-z])[A-Z]")]
    private static partial Regex Humps();
}
