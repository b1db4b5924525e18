using System.Globalization;
using System.Text.Json;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Tests.Reference;

/// <summary>One of the eleven model cases with the answer of an independent stiff solver.</summary>
public sealed record ReferenceCase(string Name, PackageModel Model, PackageState Start, SinusoidClimate Climate, double[] Days, StorageRow[] Expected)
{
    public static readonly string[] Names = ["00", "03", "05", "08", "11", "13", "17", "19", "20", "21", "22"];

    public static ReferenceCase Read(string number)
    {
        var folder = Path.Combine(AppContext.BaseDirectory, "Reference", "forecast");
        using var document = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, $"case-{number}.json")));
        var root = document.RootElement;
        double Number(JsonElement of, string name) => of.GetProperty(name).GetDouble();

        var isotherm = root.GetProperty("isotherm");
        var heat = Number(isotherm, "heatOfSorptionJPerMol");
        Isotherm leaf = isotherm.GetProperty("kind").GetString() == "gab"
            ? new GabIsotherm(Number(isotherm, "monolayer"), Number(isotherm, "c"), Number(isotherm, "k"), heat)
            : new OswinIsotherm(Number(isotherm, "a"), Number(isotherm, "b"), heat);
        var air = root.GetProperty("air");
        RoomAir room = new(Number(air, "o2Fraction"), Number(air, "co2Fraction"), Number(air, "n2Fraction"), Moist: false);
        var uptake = root.GetProperty("uptake");
        var volume = Volume.FromMillilitres(Number(root, "headspaceMl"));
        List<ExchangePath> paths = [];
        foreach (var path in root.GetProperty("paths").EnumerateArray())
        {
            Conductance Of(string species, string unit, double perMole) => new(
                Number(path.GetProperty(species), unit) * perMole / 86400, Number(path.GetProperty(species), "activationJPerMol"));
            paths.Add(new(
                "path",
                Of("water", "gPerDayPa", 1e-3 / PhysicalConstants.MolarMassOfWater),
                Of("oxygen", "molPerDayPa", 1),
                Of("carbonDioxide", "molPerDayPa", 1),
                Of("nitrogen", "molPerDayPa", 1)));
        }

        PackageModel model = new(
            Mass.FromGrams(Number(root, "dryMassG")),
            leaf,
            new Headspace.Rigid(volume),
            paths,
            new(Number(uptake, "perDayAt23C") / 86400, 296.15, Number(uptake, "q10"), Number(uptake, "respiratoryQuotient"), UptakeBasis.PerMole),
            room);
        var weather = root.GetProperty("climate");
        SinusoidClimate climate = new(
            Number(weather, "meanC"), Number(weather, "annualC"), Number(weather, "dailyC"), Number(weather, "annualPhaseRad"),
            Number(weather, "meanRh"), Number(weather, "annualRh"), Number(weather, "annualRhPhaseRad"), Number(weather, "yearDays"),
            Number(air, "pressurePa"));
        var start = PackageState.Sealed(
            model, leaf.MoistureAt(new(Number(root, "startWaterActivity"))), Number(root, "sealedAtC") + 273.15, Pressure.FromAtmospheres(1));
        var expected = File.ReadLines(Path.Combine(folder, $"case-{number}.expected.csv")).Skip(1).Select(Row).ToArray();
        return new("case-" + number, model, start, climate, [.. expected.Select(row => row.Day)], expected);
    }

    private static StorageRow Row(string line)
    {
        var cells = line.Split(',').Select(cell => double.Parse(cell, CultureInfo.InvariantCulture)).ToArray();
        return new(cells[0], new(cells[1]), new(cells[2]), new(cells[3]), new(cells[4]), new(cells[5]), new(cells[6]));
    }
}
