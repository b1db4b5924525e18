using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;

namespace Undercroft.Shell;

/// <summary>The options that every command shares.</summary>
public sealed class CommonOptions
{
    /// <summary>The data folder.</summary>
    public Option<string?> Data { get; } = new("--data")
    {
        Description = $"The data folder (else {Call.DataVariable}, else {Call.DefaultFolder} here).",
        Recursive = true,
        HelpName = "DIR",
    };

    /// <summary>An answer for programs.</summary>
    public Option<bool> Json { get; } = new("--json") { Description = "Print one JSON value and nothing else.", Recursive = true };

    /// <summary>The present.</summary>
    public Option<DateOnly?> Today { get; } = new("--today")
    {
        Description = "The present as YYYY-MM-DD (else the clock; in a demo cellar, its own day).",
        Recursive = true,
        HelpName = "DATE",
        CustomParser = Day,
    };

    /// <summary>Adds all of them to the root.</summary>
    public void AddTo(RootCommand root)
    {
        root.Options.Add(Data);
        root.Options.Add(Json);
        root.Options.Add(Today);
    }

    private static DateOnly? Day(ArgumentResult result)
    {
        var text = result.Tokens.Count == 1 ? result.Tokens[0].Value : "";
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
            return day;
        result.AddError($"'{text}' is not a day: write it as YYYY-MM-DD, such as 2026-05-03.");
        return null;
    }
}
