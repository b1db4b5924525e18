namespace Undercroft.Calculators;

/// <summary>What a calculator rests on, and an example that a test works out anew.</summary>
/// <param name="Title">Heading of its page.</param>
/// <param name="Formula">As one writes it.</param>
/// <param name="Sources">Keys of the bibliography; empty where it is plain arithmetic or practice.</param>
/// <param name="Known">How it is known, in a sentence.</param>
/// <param name="Example">Fields of the worked example, name and value.</param>
/// <param name="Gives">Name of the number that the example is about, as in JSON.</param>
/// <param name="Value">What comes out.</param>
/// <param name="Within">To what that holds: the source's own accuracy.</param>
/// <param name="ExampleSource">Where the answer of the example comes from.</param>
internal sealed record CalculatorNote(
    string Title, string Formula, IReadOnlyList<string> Sources, string Known, IReadOnlyList<(string Name, string Value)> Example, string Gives, double Value, double Within,
    string ExampleSource);

/// <summary>A note for every calculator.</summary>
internal static class CalculatorNotes
{
    private static readonly Dictionary<string, CalculatorNote> ByName = new()
    {
        ["air"] = new(
            "What air holds", "e = RH · psat(T); absolute humidity = e·M/(R·T); mixing ratio = 0.621945·e/(p − e); the dew point is where psat = e", ["HylandWexler1983", "Ashrae2017", "MurphyKoop2005"],
            "published", [("temperature", "25C"), ("humidity", "100%"), ("pressure", "95461Pa")], "mixingRatioGPerKg", 21.3604, 21.36 * 4e-4,
            "the test suite of a public psychrometric library: 0.0213604 kg/kg for 3169.7 Pa at 95 461 Pa"),
        ["warm-air"] = new(
            "Air brought in and warmed", "RH₂ = RH₁ · psat(T₁)/psat(T₂): the vapour pressure stays", ["HylandWexler1983"], "published", [("from", "0C/90%"), ("to", "20C")], "humidityPct", 23, 1,
            "an engineering page: about 23 %"),
        ["mkt"] = new(
            "Mean kinetic temperature", "T_K = (E/R)/−ln[Σ wᵢ·exp(−E/(R·Tᵢ))/Σ wᵢ], E = 83.144 kJ/mol", ["UspMkt", "Haynes1971", "IsopharmMkt"], "published for medicines; its energy is an assumption for leaf",
            [("temperature", "20C*2\n2C*4\n25C*1")], "meanKineticTemperatureC", 15.7, 0.05, "the worked example of a maker of monitoring systems"),
        ["water"] = new(
            "Water to add or to lose", "Δm = m·(w₂ − w₁)/(1 − w₂), wet basis", [], "arithmetic: the dry mass stays", [("mass", "50g"), ("from", "10%"), ("to", "14%")], "waterG", 2.3, 0.05,
            "worked by hand: 45 g dry are 86 % of 52.3 g"),
        ["isotherm"] = new(
            "Moisture in balance with air", "Oswin: X = A·(a/(1 − a))^B at 22 °C; a(T) = a₂₂·exp[(q/R)(1/295.15 − 1/T)]", ["Oswin1946", "Kim2004", "Mutasa1990"],
            "derived: our fit through published points, so that agreeing with those points is a check of the fit only", [("leaf", "burley"), ("humidity", "75%")], "moistureWetBasisPct", 18, 0.3,
            "burley holds 18 % at 0.75 [Mutasa1990]; a fit check"),
        ["humectant"] = new(
            "Humidity over glycerol", "a = x_w·exp(−1.16·x_g²), mole fractions", ["Norrish1966", "IntJDent2010"], "published", [("glycerol", "50%")], "humidityPct", 81, 2,
            "derived by hand: x_g 0.1636, x_w 0.8364, times exp(−0.0310)"),
        ["film"] = new(
            "What a film passes at home", "permeance = rate/Δp of the test · exp[−(E/R)(1/T − 1/T_test)]; flow = permeance · area · Δp at home", ["Moyls1998", "FitnessU12"],
            "published form; data sheet and measurement differ by 17 to 74 % [Moyls1998]",
            [("water", "0.9"), ("test", "38C/90%"), ("area", "300cm2"), ("temperature", "20C"), ("inside", "65%"), ("outside", "45%"), ("activation", "33.5")], "waterMgPerDay", 0.955, 0.001,
            "derived: 5967 Pa in the test against 468 Pa at home, and a factor of 0.45 by temperature"),
        ["laminate"] = new(
            "Layers behind each other", "1/P = Σ 1/Pᵢ, homogeneous layers only", ["SupplierSheets", "FitnessU12"],
            "derived; never for foil, metallised or coated film: metallised polyester 2.0 with polyethylene 8000 would give 2.0, and was measured at 0.6", [("layer", "140\n3560")], "transmission", 134.7, 0.1,
            "derived from two published layers: polyester 12 µm and polyethylene 50 µm"),
        ["pinhole"] = new(
            "Oxygen through a hole", "G = D_eff·A/[R·T·(L + π·d/4)], 1/D_eff = 1/D + 1/D_K, D_K = d·v/3", ["FitnessU46"], "published speeds; the end correction is exact for a thin wall",
            [("diameter", "10um"), ("length", "0.2mm"), ("temperature", "25C")], "oxygenMlPerDay", 0.1383, 0.0005, "worked by hand: D_eff 2.022·10⁻⁵ m²/s, area 7.854·10⁻¹¹ m², length 2.0785·10⁻⁴ m; treated as molecular flow it would be 76 times as much"),
        ["strip"] = new(
            "Stretch film to cut", "L = turns · perimeter/stretch + overlap", [], "geometry; a stretch of 1.5 to 2 is common practice", [("diameter", "80mm"), ("turns", "2"), ("stretch", "2")], "lengthMm", 271, 0.5,
            "worked by hand: π·80 mm + 20 mm"),
        ["headspace"] = new(
            "Gas beside the leaf", "V = container − m·[(1 − w)/1450 + w/1000]; oxygen = 0.2095·V", [], "derived; the density of dry leaf is from memory",
            [("container", "473ml"), ("leaf", "100g"), ("moisture", "13%")], "oxygenMl", 83.8, 0.1, "worked by hand: 73 ml of solid leave 400 ml of gas"),
        ["pressure"] = new(
            "Pressure after warming or a move", "p₂ = (p₁ − a·psat(T₁))·T₂/T₁ + a·psat(T₂), less the air outside", ["GasLawExample"], "published",
            [("from", "0C"), ("to", "60C")], "gaugeKPa", 22.27, 0.1, "an engineering page: 1013.25 mbar become 1235.94"),
        ["bulge"] = new(
            "What a bulge can mean", "Δp = heat + altitude − vacuum + m·R·T/(M·V); F = Δp·π·d²/4", ["GasLawExample"], "published gas law; how much gas leaf sets free nobody has measured",
            [("from", "25C"), ("to", "25C"), ("gas", "10mg"), ("headspace", "100ml"), ("lid", "80mm")], "gasKPa", 5.6, 0.05, "derived by hand: 10 mg of carbon dioxide in 100 ml at 25 °C"),
        ["tightness"] = new(
            "How tight a container is", "rate = [(T_f − T_i) − (C_f − C_i)]/(days · volume)", ["Usp671"], "formula and limits from memory of an older edition",
            [("volume", "120ml"), ("gain", "110mg"), ("control", "5mg"), ("days", "14")], "waterMgPerDayL", 62.5, 1e-9, "worked by hand: 105 mg in 14 days in 0.12 l"),
        ["salt"] = new(
            "Humidity over a salt", "certified table, interpolated; elsewhere RH = A·exp(B/T)", ["OimlR121", "Greenspan1977", "CrcHandbook"], "published", [("salt", "NaCl"), ("temperature", "20C")], "humidityPct", 75.5, 0.2,
            "[OimlR121], table 1: 75.5 ± 0.2 %"),
        ["hygrometer"] = new(
            "Correct a hygrometer", "true = gain · shown + offset, through one or two known points", [], "common practice, no source", [("point", "33.1%=36.0%\n75.5%=73.0%"), ("reading", "60%")], "correctedPct", 60.6027, 1e-3,
            "worked by hand: gain 42.4/37, line through both points"),
    };

    /// <summary>The note of a calculator.</summary>
    /// <exception cref="KeyNotFoundException">It has none: add it.</exception>
    public static CalculatorNote Of(string name) => ByName.TryGetValue(name, out var note) ? note : throw new KeyNotFoundException($"The calculator '{name}' has no note: add one to CalculatorNotes.cs.");
}
