using Undercroft.Keeping.Adding;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Keeping.Measuring;

/// <summary>What a person measures or sees on a package. Surprising values are kept and flagged, impossible ones refused.</summary>
public static class Measure
{
    /// <summary>A scale showed a mass.</summary>
    /// <param name="mass">Such as <c>612.3g</c>.</param>
    /// <param name="net">True where the leaf alone was weighed.</param>
    /// <param name="scale">The last step of the scale, such as <c>0.1g</c>.</param>
    /// <exception cref="Refusal">Not a mass, or not above zero.</exception>
    public static Said Weighed(Package package, Present present, string mass, bool net = false, string? scale = null, string? on = null) =>
        new(
            new Fact.PackageWeighed(
                package.Id, Mass(mass), net, scale is null ? null : Mass(scale), mass),
            present.When(on));

    /// <summary>A hygrometer in the closed package showed a humidity.</summary>
    /// <param name="humidity">Such as <c>62%</c>.</param>
    /// <param name="temperature">Such as <c>20C</c>.</param>
    /// <exception cref="Refusal">Outside 0–100 %, or not readable.</exception>
    public static Said Humidity(Package package, Present present, string humidity, string? temperature = null, string? on = null)
    {
        return new(
            new Fact.HumidityRead(
                package.Id,
                Fraction(humidity),
                temperature is null ? null : new Temperature(Read(QuantityText.OfTemperature, temperature)),
                humidity),
            present.When(on));
    }

    /// <summary>The findings of a look: a dome whose height is said was seen, and where nothing at all was said all is well.</summary>
    internal static IReadOnlyList<Finding> Seen(IEnumerable<string> findings, string? bulge = null, string? feel = null)
    {
        List<Finding> seen = [.. findings.Select(Words.Of<Finding>).Distinct()];
        if (bulge is not null && !seen.Contains(Finding.Bulge))
            seen.Add(Finding.Bulge);
        if (seen.Count == 0 && feel is null)
            seen.Add(Finding.AllWell);
        return seen;
    }

    /// <summary>A height of a dome, such as <c>4mm</c>.</summary>
    /// <exception cref="Refusal">Not a length.</exception>
    internal static Length Dome(string height) => new(Read(QuantityText.OfLength, height));

    /// <summary>Somebody looked.</summary>
    /// <param name="findings">Words of the list, such as <c>lid-loose</c>; none at all means that all is well.</param>
    /// <param name="bulge">Height of a dome over the rim, such as <c>4mm</c>.</param>
    /// <param name="feel">How the leaf felt, such as <c>springs-back</c>.</param>
    public static Said Looked(
        Package package, Present present, IReadOnlyList<string> findings, string? bulge = null, string? feel = null, string? on = null, string? note = null)
    {
        return new(
            new Fact.PackageLooked(
                package.Id,
                Seen(findings, bulge, feel),
                bulge is null ? null : Dome(bulge),
                feel is null ? null : Words.Of<Feel>(feel),
                note),
            present.When(on));
    }

    /// <summary>The container that a package is in was measured or recognised; nothing was repacked.</summary>
    /// <param name="size">How large, heavy and of what kind it is.</param>
    /// <exception cref="Refusal">Nothing was said, one weight without the other, or two volumes.</exception>
    public static Said Contained(Package package, Cellar cellar, Present present, ContainerSize size, string? on = null)
    {
        ArgumentNullException.ThrowIfNull(size);
        var named = AddPackages.ContainerOf(cellar, size.Kind, size.Tare, SaidBy.Weighed);
        return new(new Fact.ContainerStated(package.Id, named with { Capacity = size.Volume() }), present.When(on));
    }

    /// <summary>A mass from text.</summary>
    /// <exception cref="Refusal">Not readable.</exception>
    public static Mass Mass(string text) => new(Read(QuantityText.OfMass, text));

    /// <summary>A relative humidity from text in percent.</summary>
    /// <exception cref="Refusal">Not readable.</exception>
    public static RelativeHumidity Fraction(string text) => new(Read(QuantityText.OfPercent, text));

    private static double Read(QuantityText units, string text) => units.TryRead(text, out var why) ?? throw new Refusal(why);
}
