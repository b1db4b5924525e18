using System.Globalization;
using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Comparing;

/// <summary>Container kinds side by side for one lot: each is forecast with the same leaf, the same place and the same random numbers.</summary>
public static class Comparer
{
    /// <summary>More containers than this are no question about a shelf at home.</summary>
    public const int MostContainers = 10_000;

    private const double GoodFill = 0.15; // what is left over is pressed into the others where it is less than this share of one container

    /// <summary>
    /// Kinds to compare where nobody names any: a jar that fits, and one of each other sort that a person can close at home. What a maker closed, and a tin once opened, is no choice for loose leaf;
    /// whoever has leaf in one names it.
    /// </summary>
    public static IReadOnlyList<string> UsualKinds(Mass mass)
    {
        string[] jars = ["jar-118", "jar-237", "jar-355", "jar-473"];
        var fits = jars.FirstOrDefault(code => CountOf(ContainerKinds.Find(code)!, mass, null) == 1) ?? "jar-946";
        return [fits, "clamp-500-rubber", "tin-slip-wrapped", "pouch-vacuum", "pouch-metallised", "pouch-foil", "bag-zip"];
    }

    /// <summary>Each kind with what becomes of the lot in it, in the order asked.</summary>
    /// <param name="cellar">Whose places and own kinds.</param>
    /// <param name="question">The lot.</param>
    /// <param name="codes">Container kinds, each once.</param>
    /// <param name="ask">Today, horizon, draws, seed.</param>
    /// <exception cref="Refusal">An unknown code, or numbers that cannot be.</exception>
    public static IReadOnlyList<KindOutcome> Of(Cellar cellar, LotQuestion question, IReadOnlyList<string> codes, ForecastAsk ask)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(question);
        ArgumentNullException.ThrowIfNull(codes);
        ArgumentNullException.ThrowIfNull(ask);
        ContainerKind[] kinds = [.. codes.Select(code => KnownKinds.Get(cellar, code)).DistinctBy(kind => kind.Code)];
        foreach (var kind in kinds)
            question.In(kind, question.Mass).ToCellar(ask.Today, cellar); // refuses what cannot be, before anything is worked out
        Forecaster.Check(ask);
        return [.. kinds.AsParallel().AsOrdered().Select(kind => Of(cellar, question, kind, ask))];
    }

    /// <summary>How many containers a lot fills.</summary>
    /// <param name="kind">Which.</param>
    /// <param name="mass">The lot.</param>
    /// <param name="cut">How it is cut; null where nobody says.</param>
    public static int CountOf(ContainerKind kind, Mass mass, Cut? cut)
    {
        ArgumentNullException.ThrowIfNull(kind);
        var usual = Usual(kind, cut);
        var count = Math.Ceiling((mass.Kilograms / usual.Kilograms) - (kind.FactorySealed ? 1e-9 : GoodFill));
        return count > MostContainers
            ? throw new Refusal($"{mass.Kilograms:0.#} kg would take {count:0} of {kind.Code}: compare a part of it.")
            : Math.Max(1, (int)count);
    }

    /// <summary>A remark where leaf is more than usually goes into one container.</summary>
    internal static IEnumerable<string> TooMuchFor(ContainerKind kind, Mass mass, Cut? cut)
    {
        var usual = Usual(kind, cut);
        if (mass.Kilograms > usual.Kilograms * (1 + GoodFill))
            yield return string.Create(CultureInfo.InvariantCulture, $"{mass.Grams:0} g is more than the {usual.Grams:0} g that usually go into one: it takes about {Math.Ceiling((mass.Kilograms / usual.Kilograms) - GoodFill):0} of them.");
    }

    /// <summary>Leaf that usually goes into one. What a maker closed holds what its label says; soft ones and opened tins are filled by habit, denser cuts more of it.</summary>
    private static Mass Usual(ContainerKind kind, Cut? cut)
    {
        var ribbon = Cuts.Find("ribbon")!;
        if (kind.UsualContents is not { } usual)
            return (cut ?? ribbon).TypicalIn(kind.Capacity);
        return kind.FactorySealed || cut is null ? usual : usual * (cut.Typical / ribbon.Typical);
    }

    private static KindOutcome Of(Cellar cellar, LotQuestion question, ContainerKind kind, ForecastAsk ask)
    {
        var count = CountOf(kind, question.Mass, question.Cut is { } cut ? Cuts.Find(cut) : null);
        var each = question.Mass * (1.0 / count);
        var one = question.In(kind, each).ToCellar(ask.Today, cellar);
        var package = one.Here.Single();
        var forecast = Forecaster.Of(one, package.Id, ask) with { Id = null };
        var (oxygen, water) = Supply.Of(one, package, ask, each);
        var kept = forecast.MeanDaysUntilDry / Grid.DaysPerYear;
        double? cost = kind.Cost is { } packing && kept > 0 ? count * (double)(packing.Low + packing.High) / 2 / kept : null;
        return new(kind, count, each, forecast, oxygen, ShutIn(kind, each, forecast), water, kept, cost, count * ShelfSpace.Of(kind, each).Litres);
    }

    private static double ShutIn(ContainerKind kind, Mass each, PackageForecast forecast)
    {
        var leaf = LeafVolume.Of(each, Moisture.FromWetBasisPercent(forecast.Moisture.P50[0]));
        var pressure = (kind.ResidualPressure?.Pascals ?? 101325) / 101325;
        var gas = kind.Flexible && kind.ResidualPressure is null ? 0.5 * kind.Capacity.Millilitres : Math.Max(0, kind.Capacity.Millilitres - leaf.Millilitres);
        if (kind is { Flexible: true, ResidualPressure: not null })
            gas = 0.6 * leaf.Millilitres;
        return gas * pressure * PhysicalConstants.OxygenInDryAir / each.Grams;
    }
}
