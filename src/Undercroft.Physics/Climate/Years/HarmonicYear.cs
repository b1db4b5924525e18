using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate.Years;

/// <summary>A mean, a wave of the year and a wave of the day.</summary>
/// <param name="Mean">Of the year.</param>
/// <param name="YearCosine">Of the year's wave, crest on 1 January.</param>
/// <param name="YearSine">Of the year's wave, crest a quarter later.</param>
/// <param name="DayCosine">Of the day's wave, crest at midnight.</param>
/// <param name="DaySine">Of the day's wave, crest at six.</param>
public readonly record struct Waves(double Mean, double YearCosine, double YearSine, double DayCosine, double DaySine)
{
    /// <summary>Half of highest minus lowest over the year, the day's wave left out.</summary>
    public double YearSwing => Math.Sqrt((YearCosine * YearCosine) + (YearSine * YearSine));

    /// <summary>Half of highest minus lowest over the day.</summary>
    public double DaySwing => Math.Sqrt((DayCosine * DayCosine) + (DaySine * DaySine));

    /// <summary>The value at a time.</summary>
    /// <param name="yearAngle">rad since 1 January.</param>
    /// <param name="dayAngle">rad since midnight.</param>
    public double At(double yearAngle, double dayAngle)
    {
        var (ys, yc) = Math.SinCos(yearAngle);
        var (ds, dc) = Math.SinCos(dayAngle);
        return Mean + (YearCosine * yc) + (YearSine * ys) + (DayCosine * dc) + (DaySine * ds);
    }
}

/// <summary>The year of a place as waves of temperature and of the logarithm of vapour pressure; relative humidity follows from both.</summary>
/// <param name="Celsius">Temperature, °C.</param>
/// <param name="LogVapour">ln(e/Pa).</param>
/// <param name="Pascals">Total pressure of the room.</param>
/// <param name="DayOfYearAtZero">Which day of the year, counted from 0, day 0 of <see cref="At"/> is.</param>
/// <remarks>
/// <para><b>Equation</b> T = 273.15 + waves; e = exp(waves); RH = e/psat(T), held within 1 and 99 %.</para>
/// <para><b>Source</b> the project's own statement; psat of <see cref="SaturationPressure"/>.</para>
/// <para><b>Valid</b> places that one wave a year and one a day describe; weather about them is kept apart as residual spread.</para>
/// <para><b>Error</b> that of describing weather by waves: heating that is switched on and off in a day bends the year.</para>
/// </remarks>
public sealed record HarmonicYear(Waves Celsius, Waves LogVapour, double Pascals, int DayOfYearAtZero = 0) : IPlaceClimate
{
    /// <summary>Length of the repeated year, days.</summary>
    public const int Days = 365;

    private const double Driest = 0.01;
    private const double Moistest = 0.99;

    /// <inheritdoc/>
    public int? PeriodDays => Days;

    /// <summary>Mean relative humidity over the year, fraction.</summary>
    public double MeanHumidity => Mean(moment => moment.RelativeHumidity);

    /// <summary>Half of moistest minus driest month-like stretch of the year: the wave of the year fitted to the relative humidity; above zero where it is moist when it is warm.</summary>
    public double HumiditySwing
    {
        get
        {
            var crest = Math.Atan2(Celsius.YearSine, Celsius.YearCosine);
            var wave = 0.0;
            for (var day = 0; day < Days; day++)
                wave += 2.0 / Days * DayMean(day, moment => moment.RelativeHumidity) * Math.Cos((Math.Tau * (day + DayOfYearAtZero) / Days) - crest);
            return wave;
        }
    }

    /// <summary>The same year, its day 0 another day of the year.</summary>
    public HarmonicYear From(int dayOfYear) => this with { DayOfYearAtZero = dayOfYear };

    /// <inheritdoc/>
    public RoomMoment At(double day)
    {
        var (year, hour) = (Math.Tau * (day + DayOfYearAtZero) / Days, Math.Tau * (day - Math.Floor(day)));
        var kelvin = Temperature.ZeroCelsius + Celsius.At(year, hour);
        var humidity = Math.Exp(LogVapour.At(year, hour)) / SaturationPressure.PascalOverWater(kelvin);
        return new(kelvin, Math.Clamp(humidity, Driest, Moistest), Pascals);
    }

    /// <summary>The mean of something over the year.</summary>
    public double Mean(Func<RoomMoment, double> of)
    {
        ArgumentNullException.ThrowIfNull(of);
        var sum = 0.0;
        for (var day = 0; day < Days; day++)
            sum += DayMean(day, of);
        return sum / Days;
    }

    /// <summary>Hours of one year, as a logger would have seen them.</summary>
    public LoggedAir Logged() => LoggedAir.Of(Enumerable.Range(0, (Days * 24) + 1).Select(hour => At(hour / 24.0) is var moment
        ? new LoggedMoment(hour * 3600.0, moment.Kelvin, moment.RelativeHumidity)
        : default));

    private double DayMean(int day, Func<RoomMoment, double> of)
    {
        const int Parts = 8;
        var sum = 0.0;
        for (var part = 0; part < Parts; part++)
            sum += of(At(day + (part / (double)Parts)));
        return sum / Parts;
    }
}
