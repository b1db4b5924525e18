namespace Undercroft.Forecasts;

/// <summary>The lines that a forecast is judged against. Defaults; a person may set others.</summary>
/// <param name="DryBelow">Moisture on wet basis, percent, under which a package counts as dry in dates and probabilities (common practice: 10–13 is dry).</param>
/// <param name="MoistAbove">Percent, over which leaf is moist to smoke (common practice).</param>
/// <param name="TooMoistActivity">Water activity not meant for long storage: mould in about half a year at 0.70–0.75 (Mutasa 1990, published).</param>
/// <param name="ActActivity">Water activity at which to act now (the same, and a contrary 11 days at 0.75).</param>
/// <param name="MouldRunDays">Days running above <paramref name="TooMoistActivity"/> that count as mould risk.</param>
public sealed record Limits(
    double DryBelow = 12,
    double MoistAbove = 18,
    double TooMoistActivity = 0.70,
    double ActActivity = 0.75,
    double MouldRunDays = 30);
