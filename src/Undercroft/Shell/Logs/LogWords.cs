using System.Collections.Frozen;
using System.Globalization;
using System.Text;

namespace Undercroft.Shell.Logs;

/// <summary>Words that stand in logs, folded to plain small letters.</summary>
internal static class LogWords
{
    private const string Accented = "àáâãäåāăąçćčĉďđèéêëēęěģìíîïīıľłñňńòóôõöøōőřŕśšşșťţțùúûüūůűųýÿžźżёйάέήίόύώ";
    private const string Plain = "aaaaaaaaaccccddeeeeeeegiiiiiillnnnoooooooorrssssttttuuuuuuuuyyzzzеиαεηιουω";

    // Whole names by month; abbreviations follow from them, those of the first languages before those of the last.
    private static readonly string[] Months =
    [
        "january januar janvier enero gennaio janeiro januari tammikuu styczen leden ianuarie ocak январь января stycznia ledna ιανουαριος ιανουαριου",
        "february februar fevrier febrero febbraio fevereiro februari helmikuu luty unor februarie subat февраль февраля lutego unora φεβρουαριος φεβρουαριου",
        "march marz maerz mars marzo marco maart maaliskuu marzec brezen marcius martie mart март марта marca brezna μαρτιος μαρτιου mrz mrt",
        "april avril abril aprile huhtikuu kwiecien duben aprilis aprilie nisan апрель апреля kwietnia dubna απριλιος απριλιου",
        "may mai mayo maggio maio mei maj toukokuu kveten majus mayis май мая maja kvetna маи μαιος μαιου",
        "june juni juin junio giugno junho kesakuu czerwiec cerven junius iunie haziran июнь июня czerwca cervna ιουνιος ιουνιου",
        "july juli juillet julio luglio julho heinakuu lipiec cervenec julius iulie temmuz июль июля lipca cervence ιουλιος ιουλιου",
        "august aout agosto augustus augusti elokuu sierpien srpen augusztus agustos август августа sierpnia srpna αυγουστος αυγουστου",
        "september septembre septiembre setiembre settembre setembro syyskuu wrzesien zari szeptember septembrie eylul сентябрь сентября wrzesnia σεπτεμβριος σεπτεμβριου",
        "october oktober octobre octubre ottobre outubro lokakuu pazdziernik rijen octombrie ekim октябрь октября pazdziernika rijna οκτωβριος οκτωβριου okt",
        "november novembre noviembre novembro marraskuu listopad noiembrie kasim ноябрь ноября listopada νοεμβριος νοεμβριου",
        "december dezember decembre diciembre dicembre dezembro desember joulukuu grudzien prosinec decembrie aralik декабрь декабря grudnia prosince δεκεμβριος δεκεμβριου",
    ];

    private static readonly string[] Weekdays =
        ("monday tuesday wednesday thursday friday saturday sunday mo tu we th fr sa su montag dienstag mittwoch donnerstag freitag samstag sonntag di mi do so " +
        "lundi mardi mercredi jeudi vendredi samedi dimanche lunes martes miercoles jueves viernes sabado domingo lunedi martedi mercoledi giovedi venerdi sabato domenica " +
        "maandag dinsdag woensdag donderdag vrijdag zaterdag zondag ma wo vr za zo mandag tirsdag onsdag torsdag fredag lordag sondag mandag tisdag torsdag").Split(' ');

    private static readonly FrozenDictionary<string, int> MonthByWord = AllMonths();
    private static readonly FrozenDictionary<string, int>.AlternateLookup<ReadOnlySpan<char>> MonthLookup = MonthByWord.GetAlternateLookup<ReadOnlySpan<char>>();

    private static readonly FrozenDictionary<string, bool>.AlternateLookup<ReadOnlySpan<char>> Halves = new Dictionary<string, bool>
    {
        ["am"] = false, ["a"] = false, ["vorm"] = false, ["fm"] = false, ["de"] = false, ["πμ"] = false, ["上午"] = false, ["午前"] = false, ["오전"] = false, ["oo"] = false, ["ص"] = false,
        ["pm"] = true, ["p"] = true, ["nachm"] = true, ["em"] = true, ["du"] = true, ["μμ"] = true, ["下午"] = true, ["午後"] = true, ["오후"] = true, ["os"] = true, ["م"] = true,
    }.ToFrozenDictionary().GetAlternateLookup<ReadOnlySpan<char>>();

    // Minutes east of Greenwich. Letters that several zones share are left out, but for those that come with a summer time of their own: CST and BST.
    private static readonly FrozenDictionary<string, int>.AlternateLookup<ReadOnlySpan<char>> Zones = new Dictionary<string, int>
    {
        ["wet"] = 0, ["west"] = 60, ["bst"] = 60, ["cet"] = 60, ["mez"] = 60, ["cest"] = 120, ["mesz"] = 120, ["eet"] = 120, ["eest"] = 180, ["msk"] = 180, ["jst"] = 540, ["kst"] = 540,
        ["awst"] = 480, ["acst"] = 570, ["acdt"] = 630, ["aest"] = 600, ["aedt"] = 660, ["nzst"] = 720, ["nzdt"] = 780, ["nst"] = -210, ["ndt"] = -150, ["adt"] = -180, ["est"] = -300, ["edt"] = -240,
        ["cst"] = -360, ["cdt"] = -300, ["mst"] = -420, ["mdt"] = -360, ["pst"] = -480, ["pdt"] = -420, ["akst"] = -540, ["akdt"] = -480, ["hst"] = -600,
    }.ToFrozenDictionary().GetAlternateLookup<ReadOnlySpan<char>>();

    private static readonly FrozenSet<string>.AlternateLookup<ReadOnlySpan<char>> Idle =
        new[] { "t", "at", "um", "uhr", "kl", "klo", "a", "as", "de", "of", "the", "alle", "ore", "om", "h", "st", "nd", "rd", "th", "年", "月", "日", "时", "時", "年月", "년", "월", "일" }
            .Concat(Weekdays).Concat(Weekdays.Where(day => day.Length > 3).Select(day => day[..3])).ToFrozenSet().GetAlternateLookup<ReadOnlySpan<char>>();

    /// <summary>Small plain letters without accents; single spaces.</summary>
    public static string Fold(string text)
    {
        var folded = new StringBuilder(text.Length);
        foreach (var original in text)
        {
            var letter = FoldedLetter(original);
            if (letter == 'ß')
                folded.Append("ss");
            else if (!char.IsWhiteSpace(letter))
                folded.Append(letter);
            else if (folded.Length > 0 && folded[^1] != ' ')
                folded.Append(' ');
        }

        return folded.ToString().Trim();
    }

    /// <summary>A letter without case and accent.</summary>
    public static char FoldedLetter(char letter)
    {
        if (letter < '\u0080')
            return char.ToLowerInvariant(letter);
        var small = char.ToLowerInvariant(letter);
        var at = Accented.IndexOf(small, StringComparison.Ordinal);
        return at >= 0 ? Plain[at] : small;
    }

    /// <summary>1 to 12, or 0 where the folded word is no month.</summary>
    public static int Month(ReadOnlySpan<char> word) => MonthLookup.TryGetValue(word, out var month) ? month : 0;

    /// <summary>True for after noon, false for before; null where the folded word says neither.</summary>
    public static bool? HalfDay(ReadOnlySpan<char> word) => Halves.TryGetValue(word, out var after) ? after : null;

    /// <summary>Minutes east of Greenwich of a folded word such as <c>cest</c>; null where it names no zone.</summary>
    public static int? ZoneMinutes(ReadOnlySpan<char> word) => Zones.TryGetValue(word, out var minutes) ? minutes : null;

    /// <summary>True for a word that may stand in a time and says nothing.</summary>
    public static bool IsIdle(ReadOnlySpan<char> word) => Idle.Contains(word);

    /// <summary>A number with a fixed form, culture-invariant.</summary>
    public static string As(this double number, string form) => number.ToString(form, CultureInfo.InvariantCulture);

    private static FrozenDictionary<string, int> AllMonths()
    {
        var words = new Dictionary<string, int>();
        var names = Months.Select((line, index) => (Month: index + 1, Names: line.Split(' '))).ToList();
        foreach (var (month, all) in names)
        {
            foreach (var name in all)
                words.TryAdd(name, month);
        }

        for (var language = 0; language < names.Max(line => line.Names.Length); language++)
        {
            foreach (var (month, all) in names.Where(line => line.Names.Length > language))
            {
                for (var length = 3; length < all[language].Length; length++)
                    words.TryAdd(all[language][..length], month);
            }
        }

        words.Remove("jui"); // juin or juillet
        return words.ToFrozenDictionary();
    }
}
