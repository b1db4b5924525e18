using Undercroft.Forecasts.Drawing;
using Undercroft.Forecasts.Story;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Beliefs;

/// <summary>The leaf of one package at the start of its story, one value per draw.</summary>
/// <param name="DryKg">Dry leaf, kg.</param>
/// <param name="Moisture">Dry basis at sealing.</param>
/// <param name="Leaf">Isotherm of each draw.</param>
/// <param name="Assumptions">What these rest on.</param>
/// <param name="MassSaid">True where somebody stated or weighed how much leaf it is.</param>
public sealed record LeafDraws(double[] DryKg, double[] Moisture, Isotherm[] Leaf, IReadOnlyList<UsedAssumption> Assumptions, bool MassSaid)
{
    private const double LabelSd = 0.02;
    private const double MoistureSaidSd = 0.01;
    private const double UsualActivity = 0.65; // storage at 55–65 %, factory leaf at 60–68 % humidity: common practice, no source
    private const double UsualActivitySd = 0.05;
    private const double UsualMoisture = 0.155; // comfortable at 13–18 %, factory leaf at 13–16 %: common practice, no source
    private const double TreatedMoisture = 0.18; // humectant-treated leaf is packed moister: common practice, no source
    private const double UsualMoistureSd = 0.02;
    private const double HeatLogSd = 0.334; // ln(4200/1400)/(2 · 1.645): the derived range of the heat of sorption read as a 90 % interval
    private const double DriestStart = 0.50;
    private const double MoistestStart = 0.76;

    /// <summary>Draws of a package's leaf.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="story">Whose.</param>
    /// <param name="container">What it was first packed in.</param>
    /// <param name="capacities">Its inner volume in every draw, m³.</param>
    /// <param name="draws">Where the numbers come from.</param>
    public static LeafDraws Of(Cellar cellar, PackageStory story, ContainerBelief container, double[] capacities, SeededDraws draws)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(story);
        ArgumentNullException.ThrowIfNull(container);
        const string key = SeededDraws.OnePackage;
        var belief = LeafBelief.Of(cellar.BlendOf(story.Package));
        List<UsedAssumption> used =
        [
            new("how the leaf holds water", $"{belief.Name}; scale ± {100 * belief.ScaleLogSd:0} %", belief.Evidence),
            new("how warmth drives water out of the leaf", "2500 J/mol, 1400–4200 in nine cases of ten", new Evidence(
                Provenance.Derived, "", "from curves at several temperatures; one study reports the opposite sign")),
        ];
        var scale = draws.Normal(key + "/isotherm");
        var heat = draws.Normal(key + "/heat");
        Isotherm[] leaf = [.. scale.Select((z, i) => belief.Scaled(Math.Exp(belief.ScaleLogSd * z)) with { SorptionHeat = belief.Isotherm.SorptionHeat * Math.Exp(HeatLogSd * heat[i]) })];
        var moisture = MoistureOf(story.Package, leaf, draws, key, used);
        var net = NetOf(cellar, story, container, capacities, draws, key, used, out var said);
        var dry = new double[draws.Count];
        for (var i = 0; i < dry.Length; i++)
            dry[i] = net[i] / (1 + moisture[i]);
        return new(dry, moisture, leaf, used, said);
    }

    private static double[] MoistureOf(
        Package package, Isotherm[] leaf, SeededDraws draws, string key, List<UsedAssumption> used)
    {
        var z = draws.Normal(key + "/moisture");
        if (package.Moisture is { IsKnown: true, Low: { } low, High: { } high })
        {
            var u = draws.Uniform(key + "/moisture-between");
            used.Add(new("moisture at closing", $"{100 * low:0.#}–{100 * high:0.#} % as stated, ± 1 point", new Evidence(Provenance.Assumption, "", "the person's own word, taken as it stands; oven and finger count other volatiles as water")));
            return [.. z.Select((each, i) => Math.Clamp(low + ((high - low) * u[i]) + (MoistureSaidSd * each), 0.02, 0.6)).Select(Moist)];
        }

        used.Add(new(
            "moisture at closing", "not known: as people usually pack it, in balance with 65 ± 5 % humidity and comfortable between the fingers",
            new Evidence(Provenance.CommonPractice, "", "two rules of practice of about equal weight, averaged; leaf over 0.76 would not have stayed free of mould")));
        return UsualMoistures(leaf, z, draws.Normal(key + "/moisture-by-feel"));
    }

    /// <summary>
    /// Two rules of practice speak of the same moisture: the humidity it is in balance with, and how it feels. Each is drawn, and the two are averaged by
    /// precision, which gives the spread of both together.
    /// </summary>
    private static double[] UsualMoistures(Isotherm[] leaf, double[] byHumidity, double[] byFeel)
    {
        var wet = new double[leaf.Length];
        for (var i = 0; i < wet.Length; i++)
            wet[i] = leaf[i].MoistureAt(new(Math.Clamp(UsualActivity + (UsualActivitySd * byHumidity[i]), DriestStart, MoistestStart))).WetBasis;
        var mean = wet.Average();
        var variance = Math.Max(wet.Sum(each => (each - mean) * (each - mean)) / wet.Length, 1e-6);
        var felt = leaf[0] is HumectantIsotherm ? TreatedMoisture : UsualMoisture;
        var weight = 1 / variance / ((1 / variance) + (1 / (UsualMoistureSd * UsualMoistureSd)));
        var moistures = new double[wet.Length];
        for (var i = 0; i < wet.Length; i++)
        {
            var mixed = (weight * wet[i]) + ((1 - weight) * (felt + (UsualMoistureSd * byFeel[i])));
            var most = leaf[i].MoistureAt(new(MoistestStart)).WetBasis;
            moistures[i] = Moist(Math.Clamp(mixed, 0.05, most));
        }

        return moistures;
    }

    private static double Moist(double wetBasis) => wetBasis / (1 - wetBasis);

    private static double[] NetOf(
        Cellar cellar, PackageStory story, ContainerBelief container, double[] capacities, SeededDraws draws, string key, List<UsedAssumption> used, out bool said)
    {
        var u = draws.Uniform(key + "/net");
        var z = draws.Normal(key + "/net-scatter");
        var (package, tare) = (story.Package, story.Chapters[0].Container.Tare);
        var stated = package.Net.IsKnown ? (package.Net.Low!.Value, package.Net.High!.Value)
            : package.Gross.IsKnown && tare.IsKnown ? (package.Gross.Low!.Value - tare.High!.Value, package.Gross.High!.Value - tare.Low!.Value)
            : ((Mass, Mass)?)null;
        said = stated is var (least, _) && least.Kilograms > 0;
        if (said && stated is var (low, high))
        {
            var scatter = package.Net.By == SaidBy.Weighed || !package.Net.IsKnown ? 0.002 : LabelSd;
            return [.. u.Select((each, i) => Math.Max(1e-4, (low.Kilograms + ((high.Kilograms - low.Kilograms) * each)) * (1 + (scatter * z[i]))))];
        }

        var cut = Cuts.Find(cellar.BlendOf(package).Cut ?? "");
        used.Add(new("how much leaf", "not known: as much as usually goes into such a container", (cut ?? Cuts.All[1]).Evidence));
        return [.. u.Select((each, i) => Usual(container, new(capacities[i]), cut, i, each))];
    }

    private static double Usual(ContainerBelief container, Volume capacity, Cut? cut, int draw, double u)
    {
        if (cut is null && container.Of(draw).UsualContents is { } usual)
            return usual.Kilograms * (0.85 + (0.3 * u));
        var (low, high) = cut?.RangeIn(capacity) ?? (Cuts.All[1].RangeIn(capacity).Low, Cuts.All[^2].RangeIn(capacity).High);
        return low.Kilograms + ((high.Kilograms - low.Kilograms) * u);
    }
}
