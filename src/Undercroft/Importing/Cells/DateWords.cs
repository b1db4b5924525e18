using System.Collections.Frozen;

namespace Undercroft.Importing.Cells;

/// <summary>Months, seasons and the words around a date, folded; a month is known by its name or by its first letters.</summary>
internal static class DateWords
{
    private static readonly string[] MonthNames =
    [
        "january ιανουαριος ιαν ocak oca tammikuu ינואר يناير січень ianuarie jan januar januari janvier janv enero ene gennaio gen janeiro stycznia styczen sty ianuarie январь января янв leden ledna sijecanj januar",
        "february φεβρουαριος φεβ subat sub helmikuu פברואר فبراير лютий februarie feb febr februar februari fevrier fevr febrero febbraio fevereiro fev luty lutego lut февраль февраля фев unor unora",
        "march μαρτιος μαρ mart maaliskuu מרץ مارس березень martie marcius mar marz maerz mrz maart mars marzo março marco marzec marca март марта мар brezen brezna",
        "april απριλιος απρ nisan nis huhtikuu אפריל أبريل ابريل квітень aprilie aprilis apr avril avr abril abr aprile kwiecien kwietnia kwi апрель апреля апр duben dubna",
        "may μαιος μαι mayis toukokuu מאי مايو травень majus mai mei mayo maggio mag maio maj maja май мая kveten kvetna",
        "june ιουνιος ιουν haziran haz kesakuu יוני يونيو червень iunie junius jun juni juin junio giugno giu junho czerwiec czerwca cze июнь июня июн cerven cervna",
        "july ιουλιος ιουλ temmuz tem heinakuu יולי يوليو липень iulie julius jul juli juillet juil julio luglio lug julho lipiec lipca lip июль июля июл cervenec cervence",
        "august αυγουστος αυγ agustos agu elokuu אוגוסט أغسطس اغسطس серпень aug aout agosto ago augusti augustus sierpien sierpnia sie август августа авг srpen srpna",
        "september σεπτεμβριος σεπ eylul eyl syyskuu ספטמבר سبتمبر вересень septembrie szeptember sep sept septembre septiembre settembre set setembro wrzesien wrzesnia wrz сентябрь сентября сен сент zari",
        "october οκτωβριος οκτ ekim eki lokakuu אוקטובר أكتوبر اكتوبر жовтень octombrie oct okt oktober octobre octubre ottobre ott outubro out pazdziernik pazdziernika paz октябрь октября окт rijen rijna",
        "november νοεμβριος νοε kasim kas marraskuu נובמבר نوفمبر листопад noiembrie nov novembre noviembre novembro listopad listopada lis ноябрь ноября ноя",
        "december δεκεμβριος δεκ aralik ara joulukuu דצמבר ديسمبر грудень decembrie dec dez dezember decembre décembre diciembre dic dicembre dezembro desember des grudzien grudnia gru декабрь декабря дек prosinec prosince",
    ];

    public static readonly FrozenDictionary<string, int> Months = MonthNames
        .SelectMany((names, index) => names.Split(' ').Select(name => (Name: Folding.Fold(name), Month: index + 1)))
        .GroupBy(pair => pair.Name).ToFrozenDictionary(group => group.Key, group => group.First().Month);

    /// <summary>ISO 8601-2 season numbers 21 to 24.</summary>
    public static readonly FrozenDictionary<string, int> Seasons = new (string Words, int Code)[]
    {
        ("spring fruhling fruhjahr printemps primavera lente voorjaar wiosna весна весной var forar våren jaro 春 varen foraret kevat tavasz ilkbahar bahar 봄 ανοιξη ربيع אביב весна primavara", 21),
        ("summer sommer ete verano estate zomer lato лето летом sommar verao leto 夏 sommaren sommeren kesa nyar yaz 여름 καλοκαιρι صيف קיץ літо vara", 22),
        ("autumn fall herbst automne otono outono autunno herfst najaar jesien осень осенью host efterar podzim 秋 hosten efteraret syksy osz sonbahar guz 가을 φθινοπωρο خريف סתיו осінь toamna", 23),
        ("winter hiver invierno inverno zima зима зимой vinter 冬 vintern vinteren talvi tel kis 겨울 χειμωνας شتاء חורף зима iarna", 24),
    }.SelectMany(row => row.Words.Split(' ').Select(word => (Word: Folding.Fold(word), row.Code)))
        .GroupBy(pair => pair.Word).ToFrozenDictionary(group => group.Key, group => group.First().Code);

    public static readonly FrozenSet<string> Before = Set("before pre prior until till vor bis avant antes prima voor przed до < ≤ by older");

    public static readonly FrozenSet<string> After = Set("after post since nach seit ab apres despues dopo na po после с > ≥ from");

    public static readonly FrozenSet<string> Early = Set("early beginning start anfang debut principios inizio begin начало");

    public static readonly FrozenSet<string> Mid = Set("mid middle mitte milieu mediados meta midden середина");

    public static readonly FrozenSet<string> Late = Set("late end ende fin finales fine eind конец");

    public static readonly FrozenSet<string> Between = Set("between zwischen entre tra tussen miedzy между");

    public static readonly FrozenSet<string> Or = Set("or oder ou o of lub или and und et");

    public static readonly FrozenSet<string> Weekdays = Set("mon monday tue tues tuesday wed wednesday thu thur thurs thursday fri friday sat saturday sun sunday montag dienstag mittwoch donnerstag freitag samstag sonntag mo di mi do fr sa so lundi mardi mercredi jeudi vendredi samedi dimanche");

    public static readonly FrozenSet<string> Christmas = Set("christmas xmas x-mas weihnachten noel navidad natale kerst");

    /// <summary>Words that may stand before a date without changing it.</summary>
    public static readonly FrozenSet<string> Filler = Set("in on the of year dated date anno im am le el il the th st nd rd st. jahr de del dell'anno di du do d da den r roku г года");

    private static FrozenSet<string> Set(string words) => words.Split(' ').Where(word => word.Length > 0).Select(Folding.Fold).ToFrozenSet();
}
