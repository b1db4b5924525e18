using Undercroft.Physics.Air;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Inference;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate.Years;

/// <summary>The year outdoors as somebody stated it: monthly means.</summary>
/// <param name="Celsius">Twelve, January first, °C.</param>
/// <param name="Humidity">Twelve, fraction; null where not stated.</param>
/// <param name="DailySwing">Half of afternoon minus night, K; null where not stated.</param>
public sealed record OutdoorYear(IReadOnlyList<double> Celsius, IReadOnlyList<double>? Humidity = null, double? DailySwing = null)
{
    /// <summary>Humidity of outdoor air where nobody states it, fraction: winter and summer of a temperate climate (assumption).</summary>
    private const double UsualHumidity = 0.78;
    private const double UsualHumiditySwing = -0.07;

    private static readonly double[] Middles = [15.5, 45, 74.5, 105, 135.5, 166, 196.5, 227.5, 258, 288.5, 319, 349.5];

    /// <summary>Twelve months, checked.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not twelve, or values that no outdoors has.</exception>
    public OutdoorYear Checked()
    {
        if (Celsius.Count != 12 || Celsius.Any(value => !(value is >= -70 and <= 60)))
            throw new ArgumentOutOfRangeException(nameof(Celsius), Celsius.Count, "Twelve monthly means from −70 to 60 °C.");
        if (Humidity is { } humid && (humid.Count != 12 || humid.Any(value => !(value is > 0 and <= 1))))
            throw new ArgumentOutOfRangeException(nameof(Humidity), humid.Count, "Twelve monthly means of humidity above 0 and up to 100 %.");
        return this;
    }

    /// <summary>Temperature as waves, °C: a month's mean takes 1.1 % off the year's wave, which is given back.</summary>
    public Waves Temperature => Fitted(Celsius);

    /// <summary>Relative humidity as waves, fraction.</summary>
    public Waves RelativeHumidity
    {
        get
        {
            if (Humidity is not null)
                return Fitted(Humidity);
            var warm = Temperature;
            var scale = warm.YearSwing > 0 ? UsualHumiditySwing / warm.YearSwing : 0;
            return new(UsualHumidity, warm.YearCosine * scale, warm.YearSine * scale, 0, 0);
        }
    }

    private static Waves Fitted(IReadOnlyList<double> months)
    {
        const double MonthMean = 0.98862; // sin(π/12)/(π/12)
        var (squares, products) = (new double[3, 3], new double[3]);
        for (var m = 0; m < 12; m++)
        {
            var (sin, cos) = Math.SinCos(Math.Tau * Middles[m] / 365);
            double[] row = [1, cos * MonthMean, sin * MonthMean];
            for (var i = 0; i < 3; i++)
            {
                products[i] += row[i] * months[m];
                for (var j = 0; j < 3; j++)
                    squares[i, j] += row[i] * row[j];
            }
        }

        var found = Cholesky.Of(squares).Solve(products);
        return new(found[0], found[1], found[2], 0, 0);
    }
}

/// <summary>What a room makes of the year outdoors.</summary>
/// <remarks>
/// <para><b>Equation</b> heated rooms: T = S + w ln[1 + exp((To + G − S)/w)], S the set point, G the gain of a closed house, w = 2 K; unheated: T = Tm + g (To − Tm) + G; below ground by
/// <see cref="GroundTemperature"/> at 1.5 m and a share of the house above. e = eo + excess from people, less where windows stand open; RH = e/psat(T), at most 95 %.</para>
/// <para><b>Source</b> equal vapour pressure indoors and out is [Ashrae2017]; set points, gains and excess are assumptions, chosen so that a temperate outdoors (10 ± 8.5 °C) gives the
/// figures of the room kinds.</para>
/// <para><b>Valid</b> for a first guess: the spread of the room kind stays on all of it.</para>
/// <para><b>Error</b> that spread; air conditioning is not foreseen.</para>
/// </remarks>
public static class RoomOutdoors
{
    private const double Softness = 2;
    private const double CellarDepth = 1.5;
    private const double Moistest = 0.95;

    private sealed record Behaviour(double SetPoint, double Gain, double Through, double Ground, double ExcessPascals);

    private static Behaviour? Of(string code) => code switch
    {
        "living-room" => new(20.3, 5, 1, 0, 330),
        "bedroom" => new(17.3, 5, 1, 0, 280),
        "cupboard" => new(19.2, 5, 1, 0, 300),
        "basement" => new(19, 4, 1, 0.5, 230),
        "cellar" => new(double.NaN, 2, 1, 0.85, 60),
        "attic" => new(double.NaN, 8, 1, 0, 250),
        "garage" => new(double.NaN, 3, 0.88, 0, 60),
        "shed" => new(double.NaN, 1.5, 0.94, 0, 0),
        "unknown" => new(18.5, 5, 1, 0, 300),
        _ => null, // a cooled cabinet makes its own year
    };

    /// <summary>What is believed of a room of a kind, under a stated outdoors.</summary>
    public static YearPrior Prior(RoomKind kind, OutdoorYear outdoors)
    {
        ArgumentNullException.ThrowIfNull(kind);
        ArgumentNullException.ThrowIfNull(outdoors);
        if (Of(kind.Code) is not { } behaviour)
            return YearPrior.Of(kind) with { MayBeSouthern = false };
        var (warm, moist) = (outdoors.Checked().Temperature, outdoors.RelativeHumidity);
        var coldest = (Math.Atan2(warm.YearSine, warm.YearCosine) + Math.PI) * 365 / Math.Tau;
        var (temperature, humidity) = (new double[365], new double[365]);
        for (var day = 0; day < 365; day++)
        {
            var angle = Math.Tau * day / 365;
            var outside = warm.At(angle, 0) - warm.DayCosine;
            var above = double.IsNaN(behaviour.SetPoint)
                ? warm.Mean + (behaviour.Through * (outside - warm.Mean)) + behaviour.Gain
                : behaviour.SetPoint + (Softness * Math.Log(1 + Math.Exp((outside + behaviour.Gain - behaviour.SetPoint) / Softness)));
            var ground = GroundTemperature.At(
                Temperature.FromCelsius(warm.Mean + (double.IsNaN(behaviour.SetPoint) ? behaviour.Gain : 2 * behaviour.Gain)), warm.YearSwing, new Length(CellarDepth), day, coldest).Celsius;
            temperature[day] = ((1 - behaviour.Ground) * above) + (behaviour.Ground * ground);
            var airing = 1 / (1 + Math.Exp((18 - outside) / 3)); // share of open windows: shut at 10 °C, open at 25
            var vapour = (Math.Clamp(moist.At(angle, 0) - moist.DayCosine, 0.05, 1) * SaturationPressure.PascalOverWater(Temperature.ZeroCelsius + outside)) + (behaviour.ExcessPascals * (1 - airing));
            humidity[day] = Math.Min(Moistest, vapour / SaturationPressure.PascalOverWater(Temperature.ZeroCelsius + temperature[day]));
        }

        var swing = outdoors.DailySwing is { } daily ? kind with { DailySwing = new(kind.DailySwing.Middle * Math.Clamp(daily / 4, 0.3, 2.5), kind.DailySwing.Sd) } : kind;
        return YearPrior.Of(swing, Project(temperature), Project(humidity), mayBeSouthern: false);
    }

    private static Waves Project(double[] days)
    {
        var (cosine, sine) = (0.0, 0.0);
        for (var day = 0; day < days.Length; day++)
        {
            var (sin, cos) = Math.SinCos(Math.Tau * day / days.Length);
            cosine += 2 * days[day] * cos / days.Length;
            sine += 2 * days[day] * sin / days.Length;
        }

        return new(days.Average(), cosine, sine, 0, 0);
    }
}
