using Undercroft.Forecasts.Simulating;
using Undercroft.Forecasts.Story;
using Undercroft.Ledger;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Solving;

namespace Undercroft.Forecasts;

/// <summary>What share of a forecast's doubt one thing carries.</summary>
/// <param name="Input">In words.</param>
/// <param name="First">By itself, 0 to 1 but for the error of sampling.</param>
/// <param name="Total">With all that it does together with others.</param>
public sealed record InputShare(string Input, double First, double Total);

/// <summary>Where the doubt of one package's moisture comes from, before any measurement has spoken.</summary>
/// <remarks>It explains a band; what to measure is said by <see cref="Narrowing"/>, which knows how well each thing can be measured.</remarks>
public static class Sensitivity
{
    /// <summary>Samples that are enough for what a person is told.</summary>
    public const int LeastSamples = 2048;

    /// <summary>Drawn numbers by the end of their name; the first that fits counts.</summary>
    private static readonly (string Input, Func<string, bool> Fits)[] Inputs =
    [
        ("how the leaf holds water", name => name.EndsWith("/isotherm", StringComparison.Ordinal) || name.EndsWith("/heat", StringComparison.Ordinal)),
        ("moisture at closing", name => name.Contains("/moisture", StringComparison.Ordinal)),
        ("how much leaf", name => name.Contains("/net", StringComparison.Ordinal) || name.EndsWith("/capacity", StringComparison.Ordinal)),
        ("whether the closure is bad", name => name.Contains("/failure/", StringComparison.Ordinal)),
        ("humidity of the place", name => name.EndsWith("/moister", StringComparison.Ordinal)),
        ("warmth of the place", name => name.EndsWith("/warmer", StringComparison.Ordinal)),
        ("what the container lets through", name => !name.EndsWith("/uptake", StringComparison.Ordinal) && !name.EndsWith("/quotient", StringComparison.Ordinal) && !name.EndsWith("/q10", StringComparison.Ordinal)),
    ];

    /// <summary>Shares of the variance of moisture on a day, the largest first.</summary>
    /// <param name="cellar">As read.</param>
    /// <param name="id">Which package.</param>
    /// <param name="ask">Horizon and seed; the number of draws is <paramref name="samples"/>.</param>
    /// <param name="day">Days from today; null for the horizon.</param>
    /// <param name="samples">At least <see cref="LeastSamples"/>.</param>
    /// <exception cref="Refusal">Too few samples.</exception>
    public static IReadOnlyList<InputShare> Of(Cellar cellar, PackageId id, ForecastAsk ask, int? day = null, int samples = LeastSamples)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(ask);
        if (samples < LeastSamples)
            throw new Refusal($"{samples} samples say little of what matters: give at least {LeastSamples}.");
        var story = PackageStory.Of(cellar, cellar.Packages[id], ask.Today);
        var asked = day ?? Grid.Of(ask.Years)[^1];
        int[] days = asked > 0 ? [0, asked] : [0];
        double[] Answer(Func<string, bool>? swapped) =>
            Simulation.Run(cellar, story, ask with { Swapped = swapped, WaterOnly = true }, samples, days) is { } run ? run.Moisture[run.IndexOf(asked)] : [];
        var first = Answer(null);
        var second = Answer(_ => true);
        var mixed = Inputs.Select((input, n) => Answer(name => Array.FindIndex(Inputs, each => each.Fits(name)) == n)).ToArray();
        var indices = SensitivityIndices.Of(first, second, mixed);
        return [.. Inputs.Select((input, n) => new InputShare(input.Input, indices[n].First, indices[n].Total)).OrderByDescending(share => share.Total)];
    }
}
