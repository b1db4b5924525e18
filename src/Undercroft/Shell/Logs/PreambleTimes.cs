using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Undercroft.Shell.Logs;

/// <summary>Start, end and interval of a log as they stand above its readings.</summary>
internal sealed partial class PreambleTimes
{
    private const int MostTokens = 7;

    private static readonly string[] StartWords =
        ["start", "begin", "began", "debut", "depart", "inici", "inizi", "comienz", "first", "erst", "premier", "primer", "prima ", "pierwsz", "poczat", "zacat", "zahaj", "aloitus", "alku", "eerste", "forsta", "forste", "начал", "開始", "开始", "시작", "εναρξ", "baslang", "aufzeichnungsbeginn"];

    private static readonly string[] EndWords = ["stop", "end", "ende", "ended", "endzeit", "enddatum", "fin", "fine", "final", "last", "letzt", "dernier", "ultim", "schluss", "einde", "koni", "konec", "slut", "loppu", "termin", "конец", "оконч", "終了", "结束", "종료"];

    // Of these lines neither is the start of the readings.
    private static readonly string[] OtherWords = ["delay", "verzoger", "retard", "ritardo", "retraso", "alarm", "export", "download", "print", "druck", "calib", "kalib", "creat", "erstellt", "firmware", "battery", "batterie", "mode", "modus"];

    private static readonly string[] IntervalWords =
        ["interval", "intervall", "intervaal", "interwal", "intervalo", "rate", "takt", "messtakt", "logtakt", "speichertakt", "cadence", "cadencia", "cadenza", "step", "every", "alle ", "toutes", "cada", "ogni", "frequen", "periode", "period", "periodo", "pas de temps", "paso", "passo", "krok", "abtast", "valiaika", "aikavali", "интервал", "период", "间隔", "間隔", "간격", "διαστημα", "aralik"];

    private static readonly string[] LoggingWords = ["log", "mess", "sampl", "record", "enregistr", "mesure", "registr", "abtast", "aufzeichn", "speicher", "misura", "medi", "meet", "reading", "zapis", "pomiar", "記録", "记录", "запис", "измер"];

    private readonly List<Stamp> starts = [];
    private readonly List<Stamp> ends = [];
    private readonly List<string> startTexts = [];

    private PreambleTimes()
    {
    }

    /// <summary>Different intervals that are said, ms.</summary>
    public List<long> Intervals { get; private init; } = [];

    /// <summary>An interval such as 10:00, read as hours and minutes, ms; null where there is none.</summary>
    public long? ClockOnly { get; private set; }

    /// <summary>True where a day is said on which the log starts.</summary>
    public bool HasStart => starts.Count > 0;

    /// <summary>How many different starts are said.</summary>
    public int Starts => starts.Select(start => (start.A, start.B, start.C, start.Clock)).Distinct().Count();

    /// <summary>True where its time of day is said, too.</summary>
    public bool StartHasClock => HasStart && starts[0].HasClock;

    /// <summary>As it stands.</summary>
    public string StartText => startTexts[0];

    /// <summary>Minutes east of Greenwich where the start says so.</summary>
    public int? StartOffset => starts[0].Offset;

    /// <summary>True where the start stands with points.</summary>
    public bool Points => starts[0].Points;

    /// <summary>How the start is read where it leaves no choice.</summary>
    public DateOrder? Order => starts[0].Known ? DateOrder.YearFirst : null;

    /// <summary>The start in an order of its numbers; null where there is none or no such date.</summary>
    public long? Start(DateOrder order) => starts.Count == 0 ? null : At(starts[0], order);

    /// <summary>The end likewise, with its time of day.</summary>
    public long? End(DateOrder? order) => ends.Count == 0 || !ends[0].HasClock || (order is null && !ends[0].Known) ? null : At(ends[0], order ?? DateOrder.YearFirst);

    /// <summary>From start to end where both are said and can be read in one way alone.</summary>
    public long? StartSpan() => ((DateOrder[])[DateOrder.DayFirst, DateOrder.MonthFirst, DateOrder.YearFirst]).Select(order => End(order) - Start(order)).Where(span => span > 0).Distinct().ToList() is { Count: 1 } one ? one[0] : null;

    /// <summary>Finds them.</summary>
    /// <param name="preamble">Folded lines.</param>
    public static PreambleTimes Of(string preamble)
    {
        var lines = preamble.Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(line => line.Length < 400).ToList();
        var (intervals, open) = IntervalsIn(lines);
        var found = new PreambleTimes { Intervals = intervals, ClockOnly = open };
        var (startClock, endClock) = ((Stamp?)null, (Stamp?)null);
        foreach (var line in lines)
        {
            if (OtherWords.Any(word => line.Contains(word, StringComparison.Ordinal)) && !line.StartsWith("start", StringComparison.Ordinal))
                continue;
            var (starts, ends) = (Says(line, StartWords), Says(line, EndWords));
            if (!starts && !ends)
                continue;
            foreach (var (stamp, text, place) in StampsIn(line))
            {
                var ending = ends && (!starts || place > 0);
                if (!stamp.HasDate)
                {
                    if (ending)
                        endClock ??= stamp;
                    else
                        startClock ??= stamp;
                    continue;
                }

                (ending ? found.ends : found.starts).Add(stamp);
                if (!ending)
                    found.startTexts.Add(text);
            }
        }

        Join(found.starts, startClock);
        Join(found.ends, endClock);
        return found;
    }

    /// <summary>Milliseconds of the unit of time that a folded heading names; null where it names none.</summary>
    public static double? Unit(string heading) => HeadingUnit().Match(heading) is { Success: true } match ? UnitOf(match.Groups["unit"].Value) : null;

    private static void Join(List<Stamp> days, Stamp? clock)
    {
        for (var i = 0; i < days.Count; i++)
        {
            if (days[i].HasClock || clock is not { } time)
                continue;
            var day = days[i];
            (day.Clock, day.HasClock, day.Offset) = (time.Clock, true, day.Offset ?? time.Offset);
            days[i] = day;
        }
    }

    private static bool Says(string line, string[] words)
    {
        foreach (var word in words)
        {
            for (var at = line.IndexOf(word, StringComparison.Ordinal); at >= 0; at = line.IndexOf(word, at + 1, StringComparison.Ordinal))
            {
                var whole = words == EndWords && word.Length <= 4 && word[0] < 0x80 && at + word.Length < line.Length && char.IsLetter(line[at + word.Length]);
                if ((at == 0 || !char.IsLetter(line[at - 1]) || word[0] > 0x400 || word.StartsWith("interv", StringComparison.Ordinal) || words == StartWords && word is "start" or "beginn" or "begin") && !whole)
                    return true;
            }
        }

        return false;
    }

    // Dates and times of a line, longest first from each place; those of the day alone and of the clock alone, too.
    private static IEnumerable<(Stamp Stamp, string Text, int Place)> StampsIn(string line)
    {
        var tokens = line.Replace('"', ' ').Replace(';', ' ').Replace('\t', ' ').Replace('|', ' ').Replace('=', ' ').Split([' ', ','], StringSplitOptions.RemoveEmptyEntries);
        var place = 0;
        for (var from = 0; from < tokens.Length; from++)
        {
            if (!tokens[from].Any(char.IsAsciiDigit) && LogWords.Month(tokens[from].Trim('.')) == 0)
                continue;
            for (var length = Math.Min(MostTokens, tokens.Length - from); length > 0; length--)
            {
                var text = string.Join(' ', tokens[from..(from + length)]).Trim(':', '-', '/', '(', ')');
                Stamp stamp = default;
                if (!stamp.Take(Encoding.UTF8.GetBytes(text)) || !(stamp.HasDate || (stamp.HasClock && stamp.Parts == 0)))
                    continue;
                yield return (stamp, text, place++);
                from += length - 1;
                break;
            }
        }
    }

    private static long? At(in Stamp stamp, DateOrder order)
    {
        var (year, month, day) = stamp.Known ? (stamp.A, stamp.B, stamp.C) : order switch
        {
            DateOrder.DayFirst => (Century(stamp.C), stamp.B, stamp.A),
            DateOrder.MonthFirst => (Century(stamp.C), stamp.A, stamp.B),
            _ => (Century(stamp.A), stamp.B, stamp.C),
        };
        return year is < 1980 or > 2199 || month is < 1 or > 12 || day < 1 || day > DateTime.DaysInMonth(year, month)
            ? null : ((long)(new DateOnly(year, month, day).DayNumber - RawRows.Epoch) * 86_400_000) + stamp.Clock;
    }

    private static int Century(int year) => year >= 100 ? year : year < 70 ? 2000 + year : 1900 + year;

    private static (List<long> Found, long? Open) IntervalsIn(List<string> lines)
    {
        var all = lines.Where(line => Says(line, IntervalWords) && !line.Contains("alarm", StringComparison.Ordinal) && !line.Contains("backup", StringComparison.Ordinal) && !line.Contains("upload", StringComparison.Ordinal)).ToList();
        if (all.Select(Read).Where(one => one.Interval > 0).Distinct().Count() > 1)
            all = all.FindAll(line => LoggingWords.Any(word => line.Contains(word, StringComparison.Ordinal)));
        var read = all.ConvertAll(Read);
        return ([.. read.Select(one => one.Interval).Where(one => one > 0).Distinct()], read.Select(one => one.Open).FirstOrDefault(one => one is not null));
    }

    // 10 min, 1 h 30 min, 00:10:00, PT10M, or a bare number whose unit stands with its name.
    private static (long Interval, long? Open) Read(string line)
    {
        var at = IntervalWords.Select(word => line.IndexOf(word, StringComparison.Ordinal)).Where(place => place >= 0).Min();
        var rest = line[at..];
        if (IsoSpan().Match(rest) is { Success: true } iso)
            return ((long)TimeSpan.FromHours(Part(iso, "h"), 0, 0, 0, 0).TotalMilliseconds + (Part(iso, "m") * 60_000L) + (Part(iso, "s") * 1000L), null);
        if (Clock().Match(rest) is { Success: true } clock)
        {
            if (clock.Groups["s"].Success)
                return ((Part(clock, "h") * 3_600_000L) + (Part(clock, "m") * 60_000L) + (Part(clock, "s") * 1000L), null);
            var open = (Part(clock, "h") * 3_600_000L) + (Part(clock, "m") * 60_000L);
            return Unit(rest) is { } named ? ((long)(named * 60) == 3_600_000 ? open / 60 : open, null) : (0, open);
        }

        var sum = Quantities().Matches(rest).Sum(match => double.Parse(match.Groups["number"].Value.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture) * UnitOf(match.Groups["unit"].Value));
        if (sum > 0)
            return ((long)Math.Round(sum), null);
        return Unit(rest) is { } unit && BareNumber().Match(rest) is { Success: true } bare ? ((long)Math.Round(unit * double.Parse(bare.Value.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture)), null) : (0, null);
    }

    private static int Part(Match match, string group) => match.Groups[group].Success ? int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture) : 0;

    private static double UnitOf(string unit) =>
        unit is "ms" ? 1
        : unit[0] is 's' && !unit.StartsWith("st", StringComparison.Ordinal) && !unit.StartsWith("sa", StringComparison.Ordinal) || unit.StartsWith("сек", StringComparison.Ordinal) || unit is "秒" or "с" or "초" ? 1000
        : unit[0] is 'm' or 'м' || unit is "分" or "分钟" or "分間" or "분" ? 60_000
        : unit[0] is 'd' or 't' or 'j' or 'g' && !unit.StartsWith("godz", StringComparison.Ordinal) ? 86_400_000
        : 3_600_000;

    private const string UnitWords = @"ms|s|sec|secs|seconds?|sek|sekunden?|sekund|secondes?|segundos?|second[oi]|seconden|сек\w*|с|秒|초|m|min|mins|minutes?|minuten?|minut[oiay]?|minutos?|minuter|мин\w*|分钟|分間|分|분|h|hr|hrs|hours?|std|stunden?|heures?|horas?|ora|ore|uur|uren|timm\w*|time[rn]?|godz\w*|hod\w*|час\w*|小时|時間|시간|d|days?|tage?|jours?|dias?|giorn[oi]";

    [GeneratedRegex(@"(?<number>\d+(?:[.,]\d+)?)\s*(?<unit>" + UnitWords + @")(?![\w])", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Quantities();

    [GeneratedRegex(@"[(\[/_]\s*(?<unit>" + UnitWords + @")\.?\s*(?:[)\]]|$|[;,:\t ])|\b(?<unit>sec|secs|seconds?|sek|sekunden?|secondes?|segundos?|secondi|seconden|min|mins|minutes?|minuten?|minuti|minutos?|hours?|stunden?|heures?|horas?|ore|uur|uren)\b|\bin\s+(?<unit>s|m|h)\b", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex HeadingUnit();

    [GeneratedRegex(@"\b(?<h>\d{1,3}):(?<m>\d{2})(?::(?<s>\d{2}))?(?!\d)", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Clock();

    [GeneratedRegex(@"\bpt(?:(?<h>\d+)h)?(?:(?<m>\d+)m)?(?:(?<s>\d+)s)?\b", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex IsoSpan();

    [GeneratedRegex(@"(?<!\w|\d[.,])\d+(?:[.,]\d+)?(?!\w)", RegexOptions.CultureInvariant)]
    private static partial Regex BareNumber();
}
