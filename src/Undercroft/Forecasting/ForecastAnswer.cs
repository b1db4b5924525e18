using Undercroft.Forecasts;

namespace Undercroft.Forecasting;

/// <summary>Three quantiles over the days of a forecast.</summary>
public sealed record Quantiles(double[] P5, double[] P50, double[] P95)
{
    /// <summary>Of a band.</summary>
    public static Quantiles Of(Band band) => new(band.P5, band.P50, band.P95);
}

/// <summary>One forecast as programs read it.</summary>
public sealed record ForecastLine(
    string? Id, string Verdict, string Condition, double[] Days, Quantiles MoistureWetBasisPct, Quantiles WaterActivity, Quantiles OxygenKPa, Quantiles PressureKPa,
    DryDay DryDay, double MouldRisk, Narrowing? NarrowedBy, IReadOnlyList<string> Reasons, object NextStep, IReadOnlyList<object> Assumptions, IReadOnlyList<string> Remarks)
{
    /// <summary>Shares of the variance of moisture at the horizon; null where not asked for.</summary>
    [System.Text.Json.Serialization.JsonIgnore(Condition = System.Text.Json.Serialization.JsonIgnoreCondition.WhenWritingNull)]
    public IReadOnlyList<InputShare>? Sensitivity { get; init; }

    /// <summary>Of a forecast.</summary>
    public static ForecastLine Of(PackageForecast forecast)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        return new(
            forecast.Id?.ToString(), forecast.Verdict, forecast.Condition.ToString().ToLowerInvariant(), forecast.Days, Quantiles.Of(forecast.Moisture),
            Quantiles.Of(forecast.Activity), Quantiles.Of(forecast.Oxygen), Quantiles.Of(forecast.Pressure), forecast.DryDay, forecast.MouldRisk, forecast.NarrowedBy,
            forecast.Reasons, new { on = forecast.Next.On.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture), what = forecast.Next.What },
            [.. forecast.Assumptions.Select(used => (object)new { used.What, used.Value, provenance = used.Evidence.Tag, source = used.Evidence.Source, remark = used.Evidence.Remark })],
            forecast.Remarks);
    }
}
