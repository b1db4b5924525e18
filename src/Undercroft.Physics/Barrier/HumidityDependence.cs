using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>How the oxygen permeance of nylon and EVOH depends on the humidity at that layer.</summary>
/// <param name="Name">Of the film.</param>
/// <param name="Points">Humidity in percent and cm³/(m²·day·atm) of 20 µm at 23 °C, rising.</param>
/// <remarks>
/// <para><b>Equation</b> ln Π linear in humidity between the printed points; below the lowest point its value is kept, above the highest the last slope: both are extrapolation.</para>
/// <para><b>Source</b> Printed points at 60, 80 and 90 %, 23 °C, 20 µm: [ResinMakerMxd6]; the interpolation is our own.</para>
/// <para><b>Valid</b> 60 to 90 %. Polyethylene, polypropylene, polyester and PVDC do not depend on humidity. Dry EVOH is better than its 60 % value, so below 60 % the answer errs on the leaky side; for nylon other tables give 100 dry for the same thickness, within a factor of 2.5.</para>
/// <para><b>Error</b> Exact at the points; factor 1.35 elsewhere inside, 2 outside.</para>
/// </remarks>
public sealed record HumidityDependence(string Name, IReadOnlyList<(double HumidityPercent, double Rate)> Points)
{
    /// <summary>Oriented nylon 6.</summary>
    public static HumidityDependence Nylon6 { get; } = new("oriented nylon 6", [(60, 40), (80, 52), (90, 90)]);

    /// <summary>Ethylene vinyl alcohol, 32 mol % ethylene.</summary>
    public static HumidityDependence Evoh32 { get; } = new("EVOH, 32 mol % ethylene", [(60, 0.5), (80, 4.5), (90, 50)]);

    /// <summary>Ethylene vinyl alcohol, 44 mol % ethylene.</summary>
    public static HumidityDependence Evoh44 { get; } = new("EVOH, 44 mol % ethylene", [(60, 2.0), (80, 8.5), (90, 42.5)]);

    /// <summary>Thickness of the printed films.</summary>
    public static Length PrintedThickness => Length.FromMicrometres(20);

    /// <summary>Oxygen permeability at the layer's own humidity, 23 °C.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Humidity outside 0 to 100 %.</exception>
    public Permeability OxygenAt(RelativeHumidity layer) => new(Permeance.FromCm3PerM2DayAtm(RateAt(layer)).MolPerM2SPa * PrintedThickness.Metres);

    /// <summary>cm³/(m²·day·atm) of 20 µm at 23 °C.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Humidity outside 0 to 100 %.</exception>
    public double RateAt(RelativeHumidity layer)
    {
        var percent = layer.Percent;
        if (!(percent is >= 0 and <= 100.0000001))
            throw new ArgumentOutOfRangeException(nameof(layer), percent, "Humidity lies within 0 to 100 %.");
        if (percent <= Points[0].HumidityPercent)
            return Points[0].Rate;
        var upper = 1;
        while (upper < Points.Count - 1 && percent > Points[upper].HumidityPercent)
            upper++;
        var (h0, p0) = Points[upper - 1];
        var (h1, p1) = Points[upper];
        return Math.Exp(Math.Log(p0) + (Math.Log(p1 / p0) * (percent - h0) / (h1 - h0)));
    }
}
