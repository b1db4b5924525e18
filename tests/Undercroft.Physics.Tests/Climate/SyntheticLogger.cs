using Undercroft.Physics.Air;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Tests.Climate;

/// <summary>A room whose true year is known, and what a logger in it would have written: truth drawn from the room kind's own spread, weather that remembers itself, noise of a sensor.</summary>
internal sealed class SyntheticLogger
{
    private readonly Random random;

    public SyntheticLogger(int seed, RoomKind? kind = null)
    {
        random = new Random(seed);
        Kind = kind ?? RoomKinds.All[random.Next(RoomKinds.All.Count)];
        Mean = Drawn(Kind.MeanCelsius);
        Swing = Math.Abs(Drawn(Kind.AnnualSwing));
        WarmestDay = 200 + (15 * Normal());
        DaySwing = Math.Abs(Drawn(Kind.DailySwing));
        Humidity = Math.Clamp(Drawn(Kind.MeanHumidity) / 100, 0.2, 0.9);
        HumiditySwing = Drawn(Kind.AnnualHumiditySwing) / 100;
        Scatter = (0.5 + (0.12 * Kind.AnnualSwing.Middle)) * Math.Exp(0.7 * Normal());
        MemoryDays = 6 * Math.Exp(0.7 * Normal());
        YearToYear = (0.2 + (0.06 * Kind.AnnualSwing.Middle)) * Normal();
    }

    public RoomKind Kind { get; }

    public double Mean { get; }

    public double Swing { get; }

    public double WarmestDay { get; }

    public double DaySwing { get; }

    public double Humidity { get; }

    public double HumiditySwing { get; }

    public double Scatter { get; }

    public double MemoryDays { get; }

    private double YearToYear { get; }

    /// <summary>Readings from a day of the year on, within one calendar year, so that one year's own mean is in all of them.</summary>
    public LoggedAir Log(int firstDay, int days, double stepMinutes)
    {
        var perDay = (int)(1440 / stepMinutes);
        var keep = Math.Exp(-1.0 / perDay / MemoryDays);
        var (weather, vapour) = (Scatter * Normal(), 0.12 * Normal());
        List<LoggedMoment> moments = [];
        for (var n = 0; n <= days * perDay; n++)
        {
            var day = firstDay + (n / (double)perDay);
            var year = Math.Tau * (day - WarmestDay) / 365.25;
            weather = (keep * weather) + (Math.Sqrt(1 - (keep * keep)) * Scatter * Normal());
            vapour = (keep * vapour) + (Math.Sqrt(1 - (keep * keep)) * 0.12 * Normal());
            var slow = Mean + YearToYear + (Swing * Math.Cos(year));
            var kelvin = Temperature.ZeroCelsius + slow + weather + (DaySwing * Math.Cos(Math.Tau * (day - (15.0 / 24)))) + (0.1 * Normal());
            var calm = Math.Clamp(Humidity + (HumiditySwing * Math.Cos(year)), 0.05, 0.98) * SaturationPressure.PascalOverWater(Temperature.ZeroCelsius + slow);
            moments.Add(new(day * 86400, kelvin, Math.Clamp((calm * Math.Exp(vapour) / SaturationPressure.PascalOverWater(kelvin)) + (0.005 * Normal()), 0.01, 1)));
        }

        return LoggedAir.Of(moments);
    }

    private double Drawn(RoomFigure figure) => figure.Middle + (figure.Sd * Normal());

    private double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(Math.Tau * random.NextDouble());
}
