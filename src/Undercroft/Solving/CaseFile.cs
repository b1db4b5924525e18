using System.Globalization;
using System.Text.Json;
using Undercroft.Ledger;
using Undercroft.Physics.Air;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Solving;

/// <summary>A model case as read from its file: bare numbers made into a package, a place and days.</summary>
/// <param name="Name">As the file says.</param>
/// <param name="Model">The package.</param>
/// <param name="Start">At day 0.</param>
/// <param name="Climate">The place.</param>
/// <param name="Days">Days to report, rising.</param>
public sealed record ModelCase(string Name, PackageModel Model, PackageState Start, SinusoidClimate Climate, IReadOnlyList<double> Days);

/// <summary>Reads a model case and refuses, by the name of the field, what no package or room can be.</summary>
public sealed class CaseFile
{
    private const double SecondsPerDay = 86400;
    private const int MostRows = 100_000;
    private const double LongestDays = 200_000;

    private readonly string file;

    private CaseFile(string file) => this.file = file;

    /// <summary>Reads the text of a case.</summary>
    /// <param name="text">JSON.</param>
    /// <param name="file">Its name, for messages.</param>
    /// <exception cref="Refusal">Not JSON, a field missing or not a number, or a quantity that cannot be.</exception>
    public static ModelCase Read(string text, string file)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            return new CaseFile(file).Case(document.RootElement);
        }
        catch (JsonException wrong)
        {
            throw new Refusal(
                $"{file} is not read: it is not JSON ({wrong.Message}). Write numbers plainly (NaN and Infinity are none) and see the form in the guide.");
        }
    }

    private ModelCase Case(JsonElement root)
    {
        Object(root, "the case");
        var name = Text(root, "name");
        var leaf = Leaf(Part(root, "isotherm"));
        var activity = Between(root, "startWaterActivity", 0, 1, open: true);
        var dryMass = Positive(root, "dryMassG");
        var volume = Volume.FromMillilitres(Positive(root, "headspaceMl"));
        var sealedAt = Warmth(Number(root, "sealedAtC"), "sealedAtC");
        List<ExchangePath> paths = [];
        foreach (var path in Array(root, "paths"))
            paths.Add(Way(path, "paths[" + paths.Count.ToString(CultureInfo.InvariantCulture) + "]"));
        var air = Part(root, "air");
        RoomAir room = new(
            Between(air, "o2Fraction", 0, 1), Between(air, "co2Fraction", 0, 1), Between(air, "n2Fraction", 0, 1), Moist: false);
        var sum = room.Oxygen + room.CarbonDioxide + room.Nitrogen;
        if (!(sum is > 0 and < 1.01))
            throw Impossible("air", sum, "the fractions of oxygen, carbon dioxide and nitrogen add up to more than nothing and at most 1");
        var uptake = Part(root, "uptake");
        OxygenUptake taken = new(
            NotNegative(uptake, "perDayAt23C") / SecondsPerDay,
            Conductance.ReferenceKelvin,
            Positive(uptake, "q10"),
            NotNegative(uptake, "respiratoryQuotient"),
            UptakeBasis.PerMole);
        PackageModel model = new(Mass.FromGrams(dryMass), leaf, new Headspace.Rigid(volume), paths, taken, room);
        var climate = Climate(Part(root, "climate"), Positive(air, "pressurePa"));
        var days = Days(Part(root, "outputs"));
        try
        {
            var moisture = leaf.MoistureAt(new(activity));
            if (!double.IsFinite(moisture.DryBasis))
                throw Impossible("startWaterActivity", activity, "the isotherm gives no finite moisture there");
            var start = PackageState.Sealed(model.Checked(), moisture, sealedAt, Pressure.FromAtmospheres(1));
            return new(name, model, start, climate, days);
        }
        catch (ArgumentOutOfRangeException beyond)
        {
            throw Refused($"the package cannot be: {beyond.Message}", "Correct the field and solve again.");
        }
    }

    private Isotherm Leaf(JsonElement isotherm)
    {
        var kind = Text(isotherm, "kind");
        var heat = Number(isotherm, "heatOfSorptionJPerMol");
        try
        {
            return kind switch
            {
                "gab" => new GabIsotherm(Positive(isotherm, "monolayer"), Positive(isotherm, "c"), Positive(isotherm, "k"), heat),
                "oswin" => new OswinIsotherm(Positive(isotherm, "a"), Positive(isotherm, "b"), heat),
                _ => throw Refused($"isotherm.kind is '{kind}', which no leaf here has", "Write \"gab\" or \"oswin\"."),
            };
        }
        catch (ArgumentOutOfRangeException beyond)
        {
            throw Refused($"isotherm: {beyond.Message}", "Correct the constant and solve again.");
        }
    }

    private ExchangePath Way(JsonElement path, string where)
    {
        Conductance Of(string species, string unit, double perMole)
        {
            var one = Part(path, species, where);
            return new(NotNegative(one, unit) * perMole / SecondsPerDay, Number(one, "activationJPerMol"));
        }

        return new(
            where,
            Of("water", "gPerDayPa", 1e-3 / PhysicalConstants.MolarMassOfWater),
            Of("oxygen", "molPerDayPa", 1),
            Of("carbonDioxide", "molPerDayPa", 1),
            Of("nitrogen", "molPerDayPa", 1));
    }

    private SinusoidClimate Climate(JsonElement climate, double pascals)
    {
        var kind = Text(climate, "kind");
        if (kind != "sinusoid")
            throw Refused($"climate.kind is '{kind}', which is not known", "Write \"sinusoid\".");
        SinusoidClimate read = new(
            Number(climate, "meanC"), Number(climate, "annualC"), Number(climate, "dailyC"), Number(climate, "annualPhaseRad"),
            Number(climate, "meanRh"), Number(climate, "annualRh"), Number(climate, "annualRhPhaseRad"), Positive(climate, "yearDays"), pascals);
        if (!(read.LowestHumidity >= 0 && read.HighestHumidity <= 1))
            throw Impossible("climate", read.LowestHumidity < 0 ? read.LowestHumidity : read.HighestHumidity, "relative humidity stays from 0 to 1 all year");
        var (lowest, highest) = read.CelsiusBounds;
        Warmth(lowest, "climate (coldest)");
        Warmth(highest, "climate (warmest)");
        return read;
    }

    private double[] Days(JsonElement outputs)
    {
        var every = Positive(outputs, "everyDays");
        var count = Number(outputs, "count");
        if (!(count >= 1 && count <= MostRows && count == Math.Floor(count)))
            throw Impossible("outputs.count", count, $"the number of rows is a whole number from 1 to {MostRows}");
        if (!(every * count <= LongestDays))
            throw Impossible("outputs", every * count, $"a course lasts at most {LongestDays} days");
        return [.. Enumerable.Range(1, (int)count).Select(row => row * every)];
    }

    private double Warmth(double celsius, string field) =>
        celsius >= SaturationPressure.Lowest.Celsius && celsius <= SaturationPressure.HighestOverWater.Celsius
            ? celsius + Temperature.ZeroCelsius
            : throw Impossible(field, celsius, "temperatures lie from −100 to 200 °C, where the saturation pressure is known");

    private double Positive(JsonElement of, string field) =>
        Number(of, field) is var value && value > 0 ? value : throw Impossible(field, value, "it is above zero");

    private double NotNegative(JsonElement of, string field) =>
        Number(of, field) is var value && value >= 0 ? value : throw Impossible(field, value, "it is not negative");

    private double Between(JsonElement of, string field, double least, double most, bool open = false)
    {
        var value = Number(of, field);
        var holds = open ? value > least && value < most : value >= least && value <= most;
        return holds ? value : throw Impossible(field, value, open ? "it lies between 0 and 1, both excluded" : "it lies from 0 to 1");
    }

    private double Number(JsonElement of, string field)
    {
        var member = Member(of, field);
        if (member.ValueKind != JsonValueKind.Number || !member.TryGetDouble(out var value) || !double.IsFinite(value))
            throw Refused($"'{field}' is {member.GetRawText()}, not a finite number", "Write a plain number.");
        return value;
    }

    private string Text(JsonElement of, string field)
    {
        var member = Member(of, field);
        return member.ValueKind == JsonValueKind.String
            ? member.GetString()!
            : throw Refused($"'{field}' is {member.GetRawText()}, not a text", "Write it in quotation marks.");
    }

    private JsonElement.ArrayEnumerator Array(JsonElement of, string field)
    {
        var member = Member(of, field);
        return member.ValueKind == JsonValueKind.Array
            ? member.EnumerateArray()
            : throw Refused($"'{field}' is not a list", "Write it in square brackets; an empty list is a perfect seal.");
    }

    private JsonElement Part(JsonElement of, string field, string where = "")
    {
        var part = Member(of, field, where);
        Object(part, $"'{field}'");
        return part;
    }

    private JsonElement Member(JsonElement of, string field, string where = "")
    {
        Object(of, where.Length > 0 ? where : "what holds '" + field + "'");
        return of.TryGetProperty(field, out var member) && member.ValueKind != JsonValueKind.Null
            ? member
            : throw Refused($"the field '{field}' is missing{(where.Length > 0 ? " in " + where : "")}", "Add it; the guide shows the form.");
    }

    private void Object(JsonElement element, string what)
    {
        if (element.ValueKind != JsonValueKind.Object)
            throw Refused($"{what} is a JSON {element.ValueKind.ToString().ToLowerInvariant()}, not an object", "Write it in curly brackets.");
    }

    private Refusal Impossible(string field, double value, string rule) =>
        Refused($"'{field}' is {value.ToString("R", CultureInfo.InvariantCulture)}, but {rule}", "Correct it and solve again.");

    private Refusal Refused(string why, string instead) => new($"{file} is not solved: {why}. {instead}");
}
