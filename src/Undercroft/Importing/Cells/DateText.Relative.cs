using System.Collections.Frozen;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Undercroft.Importing.Cells;

/// <summary>Dates that count from the day on which they were written: <c>yesterday</c>, <c>last year</c>, <c>2 years ago</c>.</summary>
public static partial class DateText
{
    private static readonly FrozenDictionary<string, (char Unit, int Back)> Ago = new (string Words, char Unit, int Back)[]
    {
        ("today|heute|aujourd'hui|hoy|oggi|hoje|vandaag|dzisiaj|сегодня|今天|今日", 'd', 0),
        ("yesterday|gestern|hier|ayer|ieri|ontem|gisteren|wczoraj|вчера|昨天|昨日", 'd', 1),
        ("last week|letzte woche|la semaine derniere|la semana pasada|la settimana scorsa|vorige week|на прошлой неделе|上周|先週", 'w', 1),
        ("this week|diese woche", 'w', 0),
        ("last month|letzten monat|le mois dernier|el mes pasado|il mese scorso|vorige maand|в прошлом месяце|上个月|先月", 'm', 1),
        ("this month|diesen monat|ce mois", 'm', 0),
        ("last year|letztes jahr|l'an dernier|l'annee derniere|el ano pasado|l'anno scorso|ano passado|vorig jaar|zeszly rok|w zeszlym roku|в прошлом году|去年|昨年", 'y', 1),
        ("this year|dieses jahr|cette annee|este ano|quest'anno|dit jaar|в этом году|今年", 'y', 0),
        ("year before last|the year before last|vorletztes jahr|前年|一昨年", 'y', 2),
    }.SelectMany(row => row.Words.Split('|').Select(words => (Words: Folding.Fold(words), row.Unit, row.Back))).ToFrozenDictionary(row => row.Words, row => (row.Unit, row.Back));

    private static DateCell.Relative? FromToday(string s, DateOnly today)
    {
        if (Ago.TryGetValue(s, out var known))
            return Back(known.Unit, known.Back, today);
        if (TimeAgo().Match(s) is { Success: true } match)
        {
            var number = match.Groups["n"].Value;
            var back = number is "a" or "an" or "one" ? 1 : SmallWords.Numbers.TryGetValue(number, out var spelled) ? spelled : int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : -1;
            return back is >= 0 and <= 150 ? Back(match.Groups["unit"].Value[0], back, today) : null;
        }

        return LastSeason().Match(s) is { Success: true } season && DateWords.Seasons.TryGetValue(season.Groups[1].Value, out var code) ? Past(code, today) : null;
    }

    private static DateCell.Relative? Back(char unit, int back, DateOnly today)
    {
        if (unit == 'y' && back >= today.Year - OldestYear)
            return null;
        return new DateCell.Relative(unit switch
        {
            'd' => SheetDate.Day(today.AddDays(-back)),
            'w' => SheetDate.Day(today.AddDays(-7 * back)).About(),
            'm' => SheetDate.Month(today.AddMonths(-back).Year, today.AddMonths(-back).Month),
            _ => SheetDate.Year(today.Year - back),
        });
    }

    private static DateCell.Relative Past(int code, DateOnly today)
    {
        var year = today.Year;
        while (SheetDate.Season(year, code).Last >= today)
            year--;
        return new DateCell.Relative(SheetDate.Season(year, code));
    }

    [GeneratedRegex(@"^(?:about |ca\.? |~ ?)?(?<n>\d{1,3}|\p{L}+) (?<unit>day|week|month|year|yr)s? (?:ago|back)$", RegexOptions.CultureInvariant)]
    private static partial Regex TimeAgo();

    [GeneratedRegex(@"^last (\p{L}+)$", RegexOptions.CultureInvariant)]
    private static partial Regex LastSeason();
}
