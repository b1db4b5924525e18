using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate;

/// <summary>A year and a day as sine waves: what a stated guess about a room comes to.</summary>
/// <param name="MeanCelsius">Mean temperature, °C.</param>
/// <param name="AnnualCelsius">Half the swing of the year, °C.</param>
/// <param name="DailyCelsius">Half the swing of the day, °C.</param>
/// <param name="AnnualPhase">Phase of the year's temperature wave at day 0, rad.</param>
/// <param name="MeanHumidity">Mean relative humidity, fraction over liquid water.</param>
/// <param name="AnnualHumidity">Half the swing of the year, fraction.</param>
/// <param name="AnnualHumidityPhase">Phase of the year's humidity wave at day 0, rad.</param>
/// <param name="YearDays">Length of the year, days.</param>
/// <param name="Pascals">Total pressure, Pa.</param>
/// <remarks>
/// <para><b>Equation</b> T = 273.15 + mean + annual·sin(2πt/year + φ) + daily·sin(2πt); RH = mean + annual·sin(2πt/year + φ').</para>
/// <para><b>Source</b> the project's own statement of a model case.</para>
/// <para><b>Valid</b> humidities that stay from 0 to 1: <see cref="LowestHumidity"/>, <see cref="HighestHumidity"/>.</para>
/// <para><b>Error</b> that of describing weather by two sine waves.</para>
/// </remarks>
public sealed record SinusoidClimate(
    double MeanCelsius,
    double AnnualCelsius,
    double DailyCelsius,
    double AnnualPhase,
    double MeanHumidity,
    double AnnualHumidity,
    double AnnualHumidityPhase,
    double YearDays = 365,
    double Pascals = PhysicalConstants.StandardAtmosphere) : IPlaceClimate
{
    /// <summary>Lowest relative humidity of the year.</summary>
    public double LowestHumidity => MeanHumidity - Math.Abs(AnnualHumidity);

    /// <summary>Highest relative humidity of the year.</summary>
    public double HighestHumidity => MeanHumidity + Math.Abs(AnnualHumidity);

    /// <summary>A bound that the temperature never passes, °C.</summary>
    public (double Lowest, double Highest) CelsiusBounds
    {
        get
        {
            var swing = Math.Abs(AnnualCelsius) + Math.Abs(DailyCelsius);
            return (MeanCelsius - swing, MeanCelsius + swing);
        }
    }

    /// <inheritdoc/>
    public int? PeriodDays => YearDays == Math.Floor(YearDays) && YearDays is > 0 and < 100_000 ? (int)YearDays : null;

    /// <inheritdoc/>
    public RoomMoment At(double day)
    {
        var year = Math.Tau * day / YearDays;
        var kelvin = Temperature.ZeroCelsius + MeanCelsius + (AnnualCelsius * Math.Sin(year + AnnualPhase)) + (DailyCelsius * Math.Sin(Math.Tau * day));
        return new(kelvin, MeanHumidity + (AnnualHumidity * Math.Sin(year + AnnualHumidityPhase)), Pascals);
    }
}
