using System.Buffers;
using System.Collections.Frozen;

namespace Undercroft.Importing.Cells;

/// <summary>The small words of a cell: unknown, the same, about, each, left, gone; folded.</summary>
internal static class SmallWords
{
    public static readonly FrozenSet<string> Unknown = Set("? ?? ??? ???? unknown unkn unk na n/a n.a. n.a nil none null tbd tbc dunno idk unclear unsure undated nodate inconnue inconnus unbekannte desconocida sconosciuta nieznana nieznany okant okand ukjent onbekende neznamy neznama неизвестна неизвестен невідомо nb biliniyor bilinmiyor ismeretlen tuntematon necunoscut 모름 미상 keine keins unbekannt k.a. k.a inconnu ? desconocido desconhecido sconosciuto onbekend nieznane nieznany okand ukendt neznamo neznámé неизвестно н/д 不明 未知 - -- --- . .. … × / x_x");

    public static readonly FrozenSet<string> Ditto = Set("\" '' \"\" ″ 〃 ״ do do. ditto dto dto. dito idem id. same sameasabove asabove s.o. -\"- -''- ~\"~ --\"-- ,, „ ” gleich wieoben то же тоже 同上 v v. ↓ ^ 々");

    public static readonly FrozenSet<string> About = Set("ca circa approx approximately about around roughly ок прибл περιπου yaklasik 약 くらい ごろ noin kb ungefahr etwa zirka env environ aprox aproximadamente cerca ongeveer okolo около примерно prox appr حوالي تقريبا περιπου unos unas est estimated estimate c maybe probably perhaps guess vielleicht wohl um vers 约 約 omkring hacia alrededor presso rond");

    public static readonly FrozenSet<string> Each = Set("each ea ea. per apiece je jeweils chacun chacune cada ciascuno ciascuna elk stuk kazda kazdy каждый каждая каждой по pro piece @ à stuck hver hvert styk καθε καθενα 各 每");

    public static readonly FrozenSet<string> Total = Set("total altogether combined insgesamt gesamt zusammen totale all totaal razem celkem всего итого sum summe tot overall");

    public static readonly FrozenSet<string> Left = Set("left remaining remain remains rest ubrig uebrig restant restante restantes reste resta rimasti rimasto rem leftover over zostalo осталось осталась ост остаток 剩 残り noch still nog tilbage igjen kvar restent resta quedan queda rimasta rimangono rimane bleibt verbleibend απομενουν متبق باقي 남음 restam sobram kaldi");

    public static readonly FrozenSet<string> Times = Set("x × * х ✕ ⨯");

    public static readonly FrozenSet<string> Of = Set("of of: a à de di da von with w/ @ - : je по per containing holding");

    public static readonly FrozenSet<string> Pieces = Set("pc pcs piece pieces stk stuck st ct 개 count ea units unit no nos item items шт штук 个 個 ks szt qty");

    public static readonly FrozenSet<string> Vague = Set("some few several couple many lots bit handful plenty pinch ein paar einige etwas algunos varios qualche quelques несколько bunch most half-full partial part");

    public static readonly FrozenSet<string> Gone = Set("finished gone empty emptied smoked sold traded given gifted gave discarded binned used up usedup consumed leer aufgeraucht verkauft verschenkt fini finie vide vendu terminado vacio vendido finito vuoto venduto op leeg выкурен выкурена пусто пустая пустой пуста продан продана подарен zuende done trashed tossed swapped tom tomt tomme solgt sald fumee fumes offert offerte donne vacia vacias vendida vendidas vendidos vuota venduta fumato fumata regalato regalata regalado regalada opgerookt verkocht weggegeven pusta pusty sprzedane αδειο αδεια κενο πουληθηκε 空 空き 用完 吸完 卖了 賣了 فارغ فارغة");

    public static readonly FrozenSet<string> Open = Set("open opened angebrochen offen geoffnet ouvert ouverte entame entamee entames abierto abierta aperto aperta popped cracked otwarty otwarta otwarte открыт открыта открыто вскрыт вскрыта вскрыто otevrena otevreny otevrene oppnad oppnat aben åben abnet apnet apen aangebroken geopend anbruch acik nyitott felbontott avattu deschis відкрито відкрита 開封済 開封済み 開封 已开封 已開封 开封 开封了 개봉 개봉함 ανοιχτο ανοιχτη ανοιχτος ανοιγμενο aberto aberta مفتوح مفتوحة angebrochene geoffnete offene");

    public static readonly FrozenSet<string> Closed = Set("sealed unopened closed verschlossen ungeoffnet ferme fermee cerrado cerrada sellado chiuso chiusa sigillato new intact запечатан закрыт запечатана закрыта zamkniete zamkniety zavrene uzavrene lukket forseglet stangd dicht ongeopend 未開封 未开封 미개봉");

    /// <summary>Words before an amount that say it is of each.</summary>
    public static readonly FrozenSet<string> EachBefore = Set("po em 각 je jeweils each по cada chaque ciascuno ogni elk elke hver hvert varje kazdy kazda καθε");

    /// <summary>Words before an amount that say it is what is left.</summary>
    public static readonly FrozenSet<string> LeftBefore = Set("restam sobra sobram pozostalo left noch only nur reste restent restant quedan queda restano resta rimasti rimasto rimasta rimangono nog tilbage kvar igjen осталось остаток осталась zostalo απομενουν 剩 残り متبق متبقي");

    /// <summary>Words before "empty" that leave some of it.</summary>
    public static readonly FrozenSet<string> Nearly = Set("nearly almost near mostly half halb halbwegs fast beinahe presque quasi casi mezzo mezza medio media meio meia bijna half naesten nastan halvt nesten почти наполовину prawie pol not nicht pas ei niet ikke inte non no");

    /// <summary>Words in a remark that say that leaf went, though not how much of it.</summary>
    public static readonly FrozenSet<string> Went = Set("smoked sold traded swapped gave given gifted finished emptied discarded binned tossed trashed aufgeraucht geraucht verkauft verschenkt getauscht leergeraucht fume fumes fumee vendu vendue vendus donne donnee offert offerte vendido vendida vendidos vendidas regalado regalada fumado fumada venduto venduta fumato fumata regalato regalata opgerookt verkocht weggegeven solgt foraeret sald gitt выкурен выкурена выкурил продан продана подарил подарен wypalone sprzedane πουληθηκε καπνιστηκε 吸完 用完 卖了 賣了");

    public static readonly FrozenSet<string> AtMost = Set("< ≤ under below less max maximum up weniger unter moins menos meno");

    public static readonly FrozenSet<string> Yes = Set("yes y x ja oui si да так tak sim evet ναι 是 はい 예 כן نعم igen kylla da true ✓ ✔ jo");

    public static readonly FrozenSet<string> No = Set("no n never nein non нет ні nie nao hayir οχι 否 いいえ 아니오 לא لا nej nee nem ei nu false ne");

    public static readonly FrozenDictionary<string, int> Numbers = new Dictionary<string, int>
    {
        ["one"] = 1, ["two"] = 2, ["three"] = 3, ["four"] = 4, ["five"] = 5, ["six"] = 6, ["seven"] = 7, ["eight"] = 8, ["nine"] = 9, ["ten"] = 10,
        ["eleven"] = 11, ["twelve"] = 12, ["dozen"] = 12, ["single"] = 1, ["pair"] = 2, ["couple"] = 2,
        ["ein"] = 1, ["eine"] = 1, ["zwei"] = 2, ["drei"] = 3, ["vier"] = 4, ["funf"] = 5, ["sechs"] = 6,
        ["deux"] = 2, ["trois"] = 3, ["quatre"] = 4, ["cinq"] = 5, ["dos"] = 2, ["tres"] = 3, ["due"] = 2, ["tre"] = 3,
        ["un"] = 1, ["une"] = 1, ["una"] = 1, ["uno"] = 1, ["um"] = 1, ["uma"] = 1, ["dois"] = 2, ["duas"] = 2, ["cuatro"] = 4, ["quatro"] = 4, ["quattro"] = 4, ["cinco"] = 5, ["cinque"] = 5, ["seis"] = 6, ["sei"] = 6, 
        ["een"] = 1, ["twee"] = 2, ["drie"] = 3, ["vijf"] = 5, ["zes"] = 6, ["en"] = 1, ["ene"] = 1, ["et"] = 1, ["ett"] = 1, ["tva"] = 2, ["fire"] = 4, ["fyra"] = 4, ["fem"] = 5, ["seks"] = 6, ["sex"] = 6,
        ["один"] = 1, ["одна"] = 1, ["два"] = 2, ["две"] = 2, ["три"] = 3, ["четыре"] = 4, ["пять"] = 5, ["шесть"] = 6, ["jeden"] = 1, ["jedna"] = 1, ["dwa"] = 2, ["dwie"] = 2, ["trzy"] = 3, ["cztery"] = 4,
        ["bir"] = 1, ["iki"] = 2, ["uc"] = 3, ["ενα"] = 1, ["μια"] = 1, ["δυο"] = 2, ["τρια"] = 3, ["τρεις"] = 3, ["τεσσερα"] = 4,
    }.ToFrozenDictionary();

    // Most cells begin like none of these words and need no closer look.
    private static readonly SearchValues<char> UnknownStarts = SearchValues.Create([.. Unknown.Select(word => word[0]), .. "–—−？…‐"]);

    private static readonly SearchValues<char> DittoStarts = SearchValues.Create([.. Ditto.Select(word => word[0]), .. "“„–—"]);

    /// <summary>True where the whole cell says that its value is not known.</summary>
    public static bool IsUnknown(string text)
    {
        if (text.Length > 24 || !UnknownStarts.Contains(char.ToLowerInvariant(text.AsSpan().TrimStart() is [var first, ..] ? first : ' ')))
            return false;
        var folded = Folding.Fold(Folding.Level(text));
        return folded.Length > 0 && folded.Length <= 16 && (Unknown.Contains(folded) || Unknown.Contains(folded.Replace(" ", "", StringComparison.Ordinal))
            || folded.AsSpan().Trim("?-–—. ").Length == 0);
    }

    /// <summary>True where the cell says that somebody should know and does not: <c>??</c>, <c>unknown</c>; a dash or <c>n/a</c> only leaves the cell blank.</summary>
    public static bool IsAsked(string text)
    {
        var folded = Folding.Fold(Folding.Level(text)).Trim('.', ' ');
        return folded.Contains('?', StringComparison.Ordinal) || (folded.Length >= 3 && folded.All(char.IsLetter) && folded is not ("nil" or "none" or "null" or "keine" or "keins"))
            || folded is "不明" or "未知";
    }

    /// <summary>True where the whole cell repeats the one above.</summary>
    public static bool IsDitto(string text)
    {
        if (text.Length > 16 || !DittoStarts.Contains(char.ToLowerInvariant(text.AsSpan().TrimStart() is [var first, ..] ? first : ' ')))
            return false;
        var folded = Folding.Fold(text).Replace(" ", "", StringComparison.Ordinal);
        return folded.Length > 0 && Ditto.Contains(folded);
    }

    private static FrozenSet<string> Set(string words) => words.Split(' ').Where(word => word.Length > 0).Select(Folding.Fold).ToFrozenSet();
}
