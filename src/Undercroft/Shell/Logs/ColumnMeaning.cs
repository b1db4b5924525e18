using System.Text.RegularExpressions;

namespace Undercroft.Shell.Logs;

/// <summary>What a column of a log holds.</summary>
public enum ColumnMeaning
{
    /// <summary>Nothing that is used: an index, a battery, a quantity worked out from others.</summary>
    Other,

    /// <summary>The heading does not say.</summary>
    Unknown,

    /// <summary>Air temperature.</summary>
    Temperature,

    /// <summary>Relative humidity.</summary>
    Humidity,

    /// <summary>Dew point.</summary>
    DewPoint,

    /// <summary>Air pressure.</summary>
    Pressure,

    /// <summary>Illuminance.</summary>
    Light,

    /// <summary>Name or number of the sensor.</summary>
    Sensor,

    /// <summary>Names the quantity of a row.</summary>
    Quantity,

    /// <summary>The value of the row's quantity.</summary>
    Value,

    /// <summary>The unit of the row's value.</summary>
    Unit,

    /// <summary>A date, a time or both.</summary>
    Time,
}

/// <summary>Which of several figures of one quantity a column holds.</summary>
internal enum Statistic
{
    /// <summary>Not said: the reading itself.</summary>
    None,

    /// <summary>The mean of an interval.</summary>
    Mean,

    /// <summary>Its lowest or highest.</summary>
    Extreme,
}

/// <summary>What headings say, in the languages that loggers speak.</summary>
internal static partial class HeadingWords
{
    // The order decides: what is worked out from temperature and humidity carries their words.
    private static readonly (ColumnMeaning Meaning, string[] Parts)[] Parts =
    [
        (ColumnMeaning.Other, ["vpd", "deficit", "defizit", "heat ind", "hitzeindex", "feels", "gefuhl", "ressenti", "humidex", "wet bulb", "wetbulb", "feuchtkugel", "bulbo hum", "bulbe hum", "absolut", "abs.",
            "g/m", "g/kg", "mixing", "enthalp", "kinetic", "alarm", "limit", "setpoint", "sollwert", "grenzw", "seuil", "co2", "co₂", "tvoc", "pm2", "pm10", "ppm", "rssi", "signal", "batt", "volt", "akku",
            "bateri", "pila ", "noise", "larm ", "schall", "bewegung", "motion", "wind speed", "wind dir", "specific hum", "elapsed", "duration", "dauer", "laufzeit", "runtime", "uptime", "ecoule", "transcurrid", "trascors"]),
        (ColumnMeaning.DewPoint, ["dew", "taupunkt", "rosee", "rocio", "rugiada", "dauwpunt", "orvalho", "daggpunkt", "dugpunkt", "duggpunkt", "kastepiste", "rosn", "harmatpont", "росы", "露点", "frost p"]),
        (ColumnMeaning.Temperature, ["temp", "teplot", "lampotila", "homerseklet", "sicaklik", "температур", "温度", "気温", "溫度", "온도", "θερμοκρασ", "suhu", "nhiệt", "อุณหภูมิ", "तापमान", "حرار", "טמפרטורה", "celsius", "fahrenheit", "kelvin"]),
        (ColumnMeaning.Humidity, ["humid", "feucht", "humed", "umid", "vocht", "fukt", "fugt", "wilgot", "vlhk", "kosteus", "paratart", "vlaz", "vlaga", "mitrum", "niisk", "dregm", "влажн", "волог", "kelembab", "ẩm", "ความชื้น", "आर्द्रता", "رطوب", "לחות", "湿度", "濕度", "습도", "υγρασ", "%rh", "% rh", "%rf", "% rf",
            "%hr", "% hr", "% r.h", "%r.h", "r.h.", "r.f.", "rel. f", "hygro"]),
        (ColumnMeaning.Pressure, ["press", "druck", "presion", "pressao", "druk", "tryk", "tryck", "ilmanpaine", "tlak", "cisnien", "basinc", "давлен", "気圧", "气压", "баро", "baro", "hpa", "mbar", "kpa", "inhg", "mmhg"]),
        (ColumnMeaning.Light, ["lux", "light", "licht", "lumin", "lumi", "illum", "beleucht", "helligkeit", "ljus", "lys", "valaist", "свет", "освещ", "照度", "iluminac"]),
        (ColumnMeaning.Temperature, ["°c", "°f", "℃", "℉", "ºc", "ºf", "degc", "degf", "deg c", "deg f", "˚c", "˚f"]),
    ];

    private static readonly (ColumnMeaning Meaning, string[] Words)[] Whole =
    [
        (ColumnMeaning.Other, ["uv", "voc", "wind", "rain", "regen", "soil", "boden", "index", "no", "nr", "record", "rec", "lfd", "status", "flag", "event", "note", "comment", "bemerkung", "v", "mv", "db", "ah", "mkt", "wb", "wbt", "row", "count", "seq", "num", "numero"]),
        (ColumnMeaning.DewPoint, ["td", "dp", "tdew"]),
        (ColumnMeaning.Humidity, ["rh", "hr", "ur", "rf", "rv", "hum", "nem", "h", "φ", "rh1", "feu"]),
        (ColumnMeaning.Temperature, ["t", "tc", "tf", "ta", "c", "f", "k", "t1", "tair", "tmp"]),
        (ColumnMeaning.Pressure, ["pa", "p", "mb"]),
        (ColumnMeaning.Light, ["lx", "klx", "luz", "luce"]),
        (ColumnMeaning.Quantity, ["quantity", "parameter", "measure", "measurement", "variable", "metric", "messgrosse", "grosse", "grandeur", "magnitud", "attribute", "kind", "type", "typ", "grandezza", "grootheid", "property", "field", "messwert art"]),
        (ColumnMeaning.Value, ["value", "wert", "messwert", "valeur", "valor", "valore", "waarde", "state", "reading", "mesure", "varde", "verdi"]),
        (ColumnMeaning.Unit, ["unit", "units", "einheit", "unite", "unidad", "unita", "eenheid", "enhet", "uom"]),
        (ColumnMeaning.Sensor, ["sensor", "device", "gerat", "logger", "channel", "kanal", "probe", "fuhler", "name", "location", "ort", "raum", "room", "place", "station", "serial", "mac", "entity", "entity_id", "sonde", "capteur",
            "sensore", "messstelle", "standort", "sonda", "dispositivo", "appareil", "id", "deviceid", "sensorid", "serie", "node", "tag", "point"]),
        (ColumnMeaning.Time, ["date", "time", "datum", "zeit", "uhrzeit", "datetime", "timestamp", "heure", "fecha", "hora", "data", "ora", "tijd", "zeitstempel", "utc", "gmt", "zeitpunkt", "horodatage", "dato", "tid", "pvm", "klo", "дата", "время", "日付", "時刻", "时间", "日期"]),
    ];

    private static readonly string[] Means = ["avg", "average", "mean", "mittel", "moy", "media", "gem", "snitt", "средн", "durchschn"];
    private static readonly string[] Extremes = ["min", "max", "high", "low", "hoch", "tief", "peak", "std", "stddev", "delta"];

    /// <summary>What a folded heading means.</summary>
    public static ColumnMeaning Meaning(string heading)
    {
        if (heading.Length == 0)
            return ColumnMeaning.Unknown;
        foreach (var (meaning, parts) in Parts)
        {
            if (Array.Exists(parts, part => heading.Contains(part, StringComparison.Ordinal)))
                return meaning;
        }

        var words = Words(heading);
        foreach (var (meaning, whole) in Whole)
        {
            if (Array.Exists(words, word => Array.IndexOf(whole, word) >= 0))
                return meaning;
        }

        return heading is "%" or "[%]" or "(%)" ? ColumnMeaning.Humidity : heading is "#" ? ColumnMeaning.Other : ColumnMeaning.Unknown;
    }

    /// <summary>Whether a folded heading names a mean or an extreme.</summary>
    public static Statistic StatisticOf(string heading)
    {
        var words = Words(heading);
        return Array.Exists(words, word => Array.Exists(Extremes, one => word == one || (one.Length > 3 && word.StartsWith(one, StringComparison.Ordinal)) || word is "minimum" or "maximum" or "minimal" or "maximal" or "tmin" or "tmax")) ? Statistic.Extreme
            : Array.Exists(words, word => Array.Exists(Means, one => word.StartsWith(one, StringComparison.Ordinal))) ? Statistic.Mean : Statistic.None;
    }

    /// <summary><c>C</c>, <c>F</c> or <c>K</c> where a folded text names a unit of temperature, and one alone.</summary>
    public static char? TemperatureUnit(string text)
    {
        var found = TemperatureUnits().Matches(text).Select(match => match.Value.Contains("fahr", StringComparison.Ordinal) ? 'F' : match.Value.Contains("cels", StringComparison.Ordinal) ? 'C'
            : match.Value.Contains("kelvin", StringComparison.Ordinal) ? 'K' : match.Value.Contains('℃') ? 'C' : match.Value.Contains('℉') ? 'F' : char.ToUpperInvariant(match.Value.Trim(' ', ')', ']', ',', ';')[^1])).Distinct().ToList();
        return found.Count == 1 ? found[0] : null;
    }

    /// <summary>Pascals in the unit of pressure that a folded text names; null where it names none.</summary>
    public static double? PressureUnit(string text) =>
        text.Contains("hpa", StringComparison.Ordinal) || text.Contains("mbar", StringComparison.Ordinal) || Words(text).Contains("mb") ? 100
        : text.Contains("kpa", StringComparison.Ordinal) ? 1000
        : text.Contains("inhg", StringComparison.Ordinal) || text.Contains("in hg", StringComparison.Ordinal) ? 3386.389
        : text.Contains("mmhg", StringComparison.Ordinal) || text.Contains("torr", StringComparison.Ordinal) ? 133.3224
        : Words(text).Contains("pa") ? 1 : null;

    /// <summary>What one in a cell is worth where a folded heading says that it is a tenth or a hundredth; 1 where it says nothing.</summary>
    /// <param name="heading">Folded.</param>
    /// <param name="beyond">True where the numbers as they stand can be no reading: only then do <c>x10</c> and the like count, which may be a part of a name.</param>
    public static double Scale(string heading, bool beyond) => Tenths().Match(heading) is { Success: true } part ? part.Groups["zeros"].Length switch { 0 => 0.1, 1 => 0.01, _ => 0.001 }
        : beyond && Times().Match(heading) is { Success: true } times ? 1 / double.Parse(times.Groups["times"].Value, System.Globalization.CultureInfo.InvariantCulture) : 1;

    private static string[] Words(string heading) => heading.Split([' ', '(', ')', '[', ']', '/', '_', '-', ':', ';', ',', '.', '#', '=', '{', '}', '"', '\''], StringSplitOptions.RemoveEmptyEntries);

    [GeneratedRegex(@"\b0[.,](?<zeros>0{0,2})1\s?(?:[°º˚%]|deg)", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Tenths();

    [GeneratedRegex(@"(?:[x×*]|1/)\s?(?<times>10|100)\b", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Times();

    [GeneratedRegex(@"[°º˚\uFFFD?]\s?[cfk]\b|℃|℉|\bdeg\.?\s?[cfk]\b|celsius|fahrenheit|kelvin|[(\[,_ ]\s?[cfk]\s?(?=[)\]]|$)|^[cfk]$|\bt[cf]\b", RegexOptions.CultureInvariant)]
    private static partial Regex TemperatureUnits();
}
