using System.Globalization;
using System.Text.RegularExpressions;
using NodaTime;
using Undercroft.Ledger;

namespace Undercroft.Shell.Logs;

/// <summary>Which zone the clock of a log is read in.</summary>
internal static partial class LogZone
{
    /// <summary>Reads <c>Europe/Berlin</c>, <c>UTC</c>, <c>+01:00</c> or <c>UTC+1</c>.</summary>
    /// <exception cref="Refusal">No such zone.</exception>
    public static DateTimeZone Of(string text)
    {
        var typed = text.Trim();
        if (Fixed().Match(typed) is { Success: true } match)
        {
            var hours = match.Groups["hours"].Success ? int.Parse(match.Groups["hours"].Value, CultureInfo.InvariantCulture) : 0;
            var minutes = match.Groups["minutes"].Success ? int.Parse(match.Groups["minutes"].Value, CultureInfo.InvariantCulture) : 0;
            if (hours <= 14 && minutes < 60)
                return DateTimeZone.ForOffset(Offset.FromSeconds((match.Groups["sign"].Value is "-" or "−" ? -1 : 1) * ((hours * 3600) + (minutes * 60))));
        }

        var zones = DateTimeZoneProviders.Tzdb;
        return zones.GetZoneOrNull(typed)
            ?? (zones.Ids.FirstOrDefault(id => string.Equals(id, typed, StringComparison.OrdinalIgnoreCase)) is { } id ? zones[id]
            : throw new Refusal($"'{text}' is no time zone that is known here. Write a name such as Europe/Berlin, or a fixed offset such as +01:00 or UTC."));
    }

    /// <summary>The zone that the file itself names in its headings or its preamble; null where it names none.</summary>
    public static DateTimeZone? Named(Layout layout)
    {
        foreach (var (text, loose) in ((string, bool)[])[(layout.TimeHeading, true), .. layout.Preamble.Split('\n').Select(line => (line, false))])
        {
            if (Name().Match(text) is { Success: true } name && DateTimeZoneProviders.Tzdb.Ids.FirstOrDefault(id => string.Equals(id, name.Value, StringComparison.OrdinalIgnoreCase)) is { } id)
                return DateTimeZoneProviders.Tzdb[id];
            if (Universal().Match(text) is { Success: true } universal && (universal.Groups["hours"].Success || loose || text.Contains("zone", StringComparison.Ordinal) || text.Contains("fus", StringComparison.Ordinal)))
                return Of(universal.Value.Replace(" ", "", StringComparison.Ordinal).ToUpperInvariant());
        }

        return null;
    }

    /// <summary>For people.</summary>
    public static string Word(DateTimeZone zone) => zone.Id;

    [GeneratedRegex(@"^(?:utc|gmt|z)?\s*(?:(?<sign>[+\-−])(?<hours>\d{1,2}):?(?<minutes>\d{2})?)$|^(?:utc|gmt|z)$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture)]
    private static partial Regex Fixed();

    [GeneratedRegex(@"\b(europe|america|asia|africa|australia|pacific|atlantic|indian)/[a-z_]+(/[a-z_]+)?", RegexOptions.CultureInvariant)]
    private static partial Regex Name();

    [GeneratedRegex(@"\b(?:utc|gmt)\b(?:\s*(?<sign>[+\-−])\s*(?<hours>\d{1,2})(?::?(?<minutes>\d{2}))?)?", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Universal();
}
