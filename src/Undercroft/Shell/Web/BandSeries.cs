namespace Undercroft.Shell.Web;

/// <summary>What a band chart shows: one quantity over time, forecast as a range, measured as points.</summary>
/// <param name="Title">What is drawn, such as "Moisture of the leaf".</param>
/// <param name="Unit">Of all values, such as "%".</param>
/// <param name="Start">The calendar day of day 0.</param>
/// <param name="Days">Of the forecast, rising; day 0 is <paramref name="Start"/>.</param>
/// <param name="P5">Lower edge at each day; null or not finite where nothing is known.</param>
/// <param name="P50">Middle at each day.</param>
/// <param name="P95">Upper edge at each day.</param>
/// <param name="Measured">Recorded measurements; days before day 0 are negative.</param>
/// <param name="Limits">Lines that matter, such as "dry below".</param>
public sealed record BandSeries(
    string Title,
    string Unit,
    DateOnly Start,
    IReadOnlyList<double> Days,
    IReadOnlyList<double?> P5,
    IReadOnlyList<double?> P50,
    IReadOnlyList<double?> P95,
    IReadOnlyList<MeasuredPoint> Measured,
    IReadOnlyList<LimitLine> Limits);

/// <summary>One recorded measurement.</summary>
/// <param name="Day">From day 0; negative before it.</param>
/// <param name="Value">In the unit of the chart.</param>
/// <param name="What">For the list beside the chart, such as "humidity reading".</param>
public sealed record MeasuredPoint(double Day, double Value, string What);

/// <summary>A value that matters.</summary>
/// <param name="Value">In the unit of the chart.</param>
/// <param name="Name">What it means, such as "dry below 12 %".</param>
public sealed record LimitLine(double Value, string Name);
