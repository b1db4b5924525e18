using System.Collections.Frozen;

namespace Undercroft.Importing.Cells;

/// <summary>Units as people write them in a cell or in the head of a column, folded.</summary>
/// <remarks>Ounce and pound are avoirdupois and exact; fluid measures are those of the United States, as canning jars are sold; a pound named in German, Dutch, Danish or French and a catty are the metric ones of 500 g.</remarks>
internal static class UnitWords
{
    public const double OunceGrams = 28.349523125;
    public const double PoundGrams = 453.59237;
    public const double FluidOunceMl = 29.5735295625;
    public const double PintMl = 473.176473;

    public static readonly FrozenDictionary<string, double> Grams = Table(
        (1, "g gr grs gm gms gram grams gramm gramme grammes grammi grammo gramo gramos grama gramas gramow gramy gramu г гр грам грамм грамма граммов грамів 克 公克 グラム γρ γραμμαρια γραμμαριο גרם גר غرام جرام غم 그램 그람 gramos gramm غ غم غر"),
        (1000, "kg kgs chilo chili quilo quilos kilo kilos kilogram kilograms kilogramm kilogramme кг кило 公斤 千克 キロ κιλο"),
        (10, "dag dkg deka"),
        (100, "hg hekto etto etti ettogrammo"),
        (0.001, "mg"),
        (OunceGrams, "oz ozs ounce ounces onza onzas once onces onca oncas oncia once unze unzen unce uncje унция унции унций オンス 盎司"),
        (PoundGrams, "lb lbs pound pounds libra libras libbra libbre funt фунт фунта"),
        (500, "pfund pfd pond pondje pund livre livres 斤 市斤"));

    public static readonly FrozenDictionary<string, double> Millilitres = Table(
        (1, "ml mls cc cm³ millilitre millilitres milliliter milliliters мл 毫升"),
        (10, "cl"),
        (100, "dl"),
        (1000, "l lt ltr ltrs liter liters litre litres litro litros litri литр литра л リットル 升"),
        (FluidOunceMl, "floz"),
        (PintMl, "pint pints pt pts"),
        (2 * PintMl, "quart quarts qt qts"),
        (8 * PintMl, "gallon gallons gal"));

    public static readonly FrozenDictionary<string, string> Currencies = new Dictionary<string, string>
    {
        ["$"] = "$",
        ["€"] = "EUR",
        ["£"] = "GBP",
        ["¥"] = "¥",
        ["₽"] = "RUB",
        ["usd"] = "USD",
        ["us$"] = "USD",
        ["dollar"] = "$",
        ["dollars"] = "$",
        ["bucks"] = "$",
        ["eur"] = "EUR",
        ["euro"] = "EUR",
        ["euros"] = "EUR",
        ["gbp"] = "GBP",
        ["pounds sterling"] = "GBP",
        ["chf"] = "CHF",
        ["fr"] = "Fr",
        ["cad"] = "CAD",
        ["aud"] = "AUD",
        ["nzd"] = "NZD",
        ["dkk"] = "DKK",
        ["sek"] = "SEK",
        ["nok"] = "NOK",
        ["kr"] = "kr",
        ["pln"] = "PLN",
        ["zl"] = "PLN",
        ["czk"] = "CZK",
        ["kc"] = "CZK",
        ["jpy"] = "JPY",
        ["円"] = "JPY",
        ["rub"] = "RUB",
        ["руб"] = "RUB",
        ["dm"] = "DEM",
        ["₪"] = "ILS",
        ["tl"] = "TRY",
        ["₺"] = "TRY",
        ["₩"] = "KRW",
        ["원"] = "KRW",
        ["元"] = "CNY",
        ["ft"] = "HUF",
        ["lei"] = "RON",
        ["₴"] = "UAH",
        ["грн"] = "UAH",
        ["₹"] = "INR",
    }.ToFrozenDictionary();

    /// <summary>True for an ounce, the one word that is a weight and a volume.</summary>
    public static bool IsOunce(string word) => Grams.TryGetValue(word, out var grams) && grams == OunceGrams;

    /// <summary>True for pint, quart and gallon, which name jars as much as volumes.</summary>
    public static bool NamesJars(string word) => Millilitres.TryGetValue(word, out var ml) && ml is PintMl or (2 * PintMl) or (8 * PintMl);

    private static FrozenDictionary<string, double> Table(params (double Factor, string Words)[] rows)
    {
        var table = new Dictionary<string, double>();
        foreach (var (factor, words) in rows)
        {
            foreach (var word in words.Split(' '))
                table[Folding.Fold(word)] = factor;
        }

        return table.ToFrozenDictionary();
    }
}
