using System.Collections.Frozen;

namespace Undercroft.Importing.Cells;

/// <summary>What leaf is kept in, as far as a sheet's words tell.</summary>
public enum VesselKind
{
    /// <summary>A container, and no word says which.</summary>
    Unsaid,

    /// <summary>Glass with a lid.</summary>
    Jar,

    /// <summary>Glass with a wire clamp.</summary>
    ClampJar,

    /// <summary>Metal.</summary>
    Tin,

    /// <summary>Heat-sealed film.</summary>
    Pouch,

    /// <summary>Film with a zip, a fold or a clip.</summary>
    Bag,

    /// <summary>Anything else: crock, box, humidor, tub.</summary>
    Other,
}

/// <summary>Words for containers in the languages that sheets are kept in, folded.</summary>
internal static class VesselWords
{
    /// <summary>Word to vessel; the flag tells a plural.</summary>
    public static readonly FrozenDictionary<string, (VesselKind Vessel, bool Plural)> Vessels = Build();

    /// <summary>Words before a container that only describe it.</summary>
    public static readonly FrozenSet<string> Adjectives = Set(
        "mason canning glass preserving jam wide mouth regular screw top lid lidded small large big medium little round square rectangular oval tall clear amber brown blue new old sealed unopened opened open full empty vacuum vac foil zip zipper heat plastic metal pull tab slip flat original factory loose bulk wire bail clamp swing kleine kleines grosse grosses runde eckige leere volle kleiner grosser the of");

    /// <summary>Marks of a jar with a wire clamp.</summary>
    public static readonly FrozenSet<string> ClampMarks = Set("clamp bail wire swing bugel bugelglas bugelverschluss drahtbugel latch ermetico fliptop clip");

    /// <summary>Marks of film without air.</summary>
    public static readonly FrozenSet<string> VacuumMarks = Set("vacuum vac vacuumed vakuum vakuumiert vacuumsealed sousvide vide vuoto вакуум вакуумный evacuated");

    /// <summary>Marks of foil laminate.</summary>
    public static readonly FrozenSet<string> FoilMarks = Set("foil folie alu aluminium aluminum metallised metallized laminate laminated");

    /// <summary>Marks of a zip.</summary>
    public static readonly FrozenSet<string> ZipMarks = Set("zip zipper ziplock zipped freezer sandwich resealable druckverschluss zipp");

    /// <summary>True where a container's words name its sort and say nothing that is not understood: <c>2 large jars</c>, not <c>cookie tin</c>.</summary>
    public static bool SayNoMore(Vessel vessel) => Tokens.Of(vessel.Words).TrueForAll(token => token.Kind != TokenKind.Word || token.Text is "x" || Vessels.ContainsKey(token.Text) || Adjectives.Contains(token.Text)
        || UnitWords.NamesJars(token.Text) || UnitWords.Grams.ContainsKey(token.Text) || UnitWords.Millilitres.ContainsKey(token.Text));

    private static FrozenDictionary<string, (VesselKind, bool)> Build()
    {
        var table = new Dictionary<string, (VesselKind, bool)>();
        void Add(VesselKind vessel, bool plural, string words)
        {
            foreach (var word in words.Split(' '))
                table[Folding.Fold(word)] = (vessel, plural);
        }

        Add(VesselKind.Jar, false, "jar glas glass einmachglas schraubglas bocal pot tarro frasco barattolo vaso vasetto pote vidro sloik słoik sklenice glasburk burk syltetøysglass банка стекло баночка 瓶 玻璃罐 びん 瓶子 βαζο צנצנת kavanoz 병 유리병 مرطبان برطمان uveg befottesuveg lasipurkki borcan");
        Add(VesselKind.Jar, true, "jars glaser gläser einmachglaser schraubglaser bocaux pots tarros frascos barattoli vasi vasetti potes vidros potten sloiki słoiki sloikow słoików burkar банки банок βαζα βαζακια");
        Add(VesselKind.ClampJar, false, "bugelglas clampjar drahtbugelglas");
        Add(VesselKind.ClampJar, true, "bugelglaser");
        Add(VesselKind.Tin, false, "tin can dose blechdose buchse boite lata latta lattina scatola scatoletta blik blikje puszka dåse dase burkje boks plechovka жестянка банкажесть 罐 缶 铁盒 κουτι קופסה פחית teneke kutu 캔 틴 علبة doboz femdoboz purkki cutie бляшанка");
        Add(VesselKind.Tin, true, "tins cans dosen blechdosen buchsen boites latas latte lattine scatole scatolette blikken blikjes puszki puszek dåser daser bokse bokser жестянки жестянок κουτια");
        Add(VesselKind.Pouch, false, "pouch sachet pochette pouche busta torebka blague кисет пакетик パウチ");
        Add(VesselKind.Pouch, true, "pouches sachets pochettes buste torebki blagues");
        Add(VesselKind.Bag, false, "bag baggie beutel tute tüte sac sachetzip bolsa sacchetto sacco zak zakje worek woreczek pose påse pase пакет мешок 袋 poset torba 봉지 كيس tasak zacsko pussi punga שקית σακουλα σακουλακι");
        Add(VesselKind.Bag, true, "bags baggies tuten tüten sacs bolsas sacchetti zakken zakjes worki woreczki poser пакеты пакета пакетов мешки σακουλες σακουλακια");
        Add(VesselKind.Other, false, "box crock humidor tub canister bucket container carton caja karton kiste schachtel envelope коробка 盒");
        Add(VesselKind.Other, true, "boxes crocks tubs canisters buckets containers cartons kisten schachteln");
        return table.ToFrozenDictionary();
    }

    private static FrozenSet<string> Set(string words) => words.Split(' ').Select(Folding.Fold).ToFrozenSet();
}
