using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Comparing;

/// <summary>Three quantiles of one number.</summary>
/// <param name="P5">One draw in twenty lies below.</param>
/// <param name="P50">The middle.</param>
/// <param name="P95">One draw in twenty lies above.</param>
public sealed record Spot(double P5, double P50, double P95)
{
    /// <summary>The last day of a band: the horizon.</summary>
    public static Spot AtEnd(Band band)
    {
        ArgumentNullException.ThrowIfNull(band);
        return new(band.P5[^1], band.P50[^1], band.P95[^1]);
    }
}

/// <summary>What becomes of a lot in one kind of container.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Containers">How many of them the lot fills.</param>
/// <param name="Each">Leaf in one of them.</param>
/// <param name="Forecast">Of one of them.</param>
/// <param name="OxygenMlPerGYear">What it lets in at most, with no oxygen left inside, at 20 °C and one atmosphere, mean over the horizon.</param>
/// <param name="OxygenShutInMlPerG">What is closed in with the leaf.</param>
/// <param name="WaterMgPerGYear">What a difference of 20 points of humidity at the place's temperature would drive out a year: the same quantity for every kind.</param>
/// <param name="YearsKept">Until it is dry, cut off at the horizon, mean over the draws.</param>
/// <param name="CostPerYear">Packing cost of all of them over the years kept, middle of the range, in the unit of the kind's cost; null where it comes with the leaf or keeps nothing.</param>
/// <param name="Litres">Of shelf, for all of them.</param>
public sealed record KindOutcome(
    ContainerKind Kind, int Containers, Mass Each, PackageForecast Forecast, Spot OxygenMlPerGYear, double OxygenShutInMlPerG, Spot WaterMgPerGYear, double YearsKept,
    double? CostPerYear, double Litres)
{
    /// <summary>Moisture at the horizon, wet basis, percent.</summary>
    public Spot Moisture => Spot.AtEnd(Forecast.Moisture);

    /// <summary>Water activity at the horizon.</summary>
    public Spot Activity => Spot.AtEnd(Forecast.Activity);

    /// <summary>Oxygen inside at the horizon, kPa.</summary>
    public Spot Oxygen => Spot.AtEnd(Forecast.Oxygen);
}
