namespace Undercroft.Physics.Climate.Exposures;

/// <summary>How readily a material moulds, in four classes that were fitted to building materials.</summary>
/// <param name="Name">For people.</param>
/// <param name="Early">Rate below index 1, relative to pine sapwood.</param>
/// <param name="Late">Rate from index 1 on.</param>
/// <param name="A">Of the highest index that humidity allows.</param>
/// <param name="B">Of the same.</param>
/// <param name="C">Of the same.</param>
/// <param name="LeastHumidity">Below it nothing grows at 20 °C and above, percent.</param>
/// <param name="Decline">Rate of decline relative to pine sapwood.</param>
public sealed record MouldClass(string Name, double Early, double Late, double A, double B, double C, double LeastHumidity, double Decline)
{
    /// <summary>Pine sapwood.</summary>
    public static MouldClass VerySensitive { get; } = new("very sensitive", 1, 2, 1, 7, 2, 80, 1);

    /// <summary>Planed wood, paper.</summary>
    public static MouldClass Sensitive { get; } = new("sensitive", 0.578, 0.386, 0.3, 6, 1, 80, 0.5);

    /// <summary>Concrete and the like.</summary>
    public static MouldClass Medium { get; } = new("medium resistant", 0.072, 0.097, 0, 5, 1.5, 85, 0.25);

    /// <summary>Glass, metal.</summary>
    public static MouldClass Resistant { get; } = new("resistant", 0.033, 0.014, 0, 3, 1, 85, 0.1);
}

/// <summary>Growth of mould on a surface in the air of a place, as an index from 0 (none) over 1 (microscopic) and 3 (visible) to 6.</summary>
/// <remarks>
/// <para><b>Equation</b> RHcrit = −0.00267 T³ + 0.160 T² − 3.13 T + 100 up to 20 °C, the class's least above. tm = exp(−0.68 ln T − 13.9 ln RH + 66.02) weeks;
/// dM/dt = k₁k₂/(7 tm) a day where RH ≥ RHcrit and 0 &lt; T &lt; 50 °C, k₂ = max(0, 1 − exp[2.3 (M − Mmax)]), Mmax = A + Bx − Cx², x = (RHcrit − RH)/(RHcrit − 100).
/// Else decline: 0.032 a day for the first 6 h, nothing to 24 h, 0.016 a day after, times the class's factor.</para>
/// <para><b>Source</b> [HukkaViitanen1999], [ViitanenOjanen2007], as carried by two independent public codes that agree; papers not read.</para>
/// <para><b>Valid</b> fitted to pine and spruce, later to building materials. There is no class for tobacco: use it to rank places, never to promise leaf.</para>
/// <para><b>Error</b> unknown for leaf; a later study calls the form unreliable for another material. The hour at which decline changes pace is counted after the step, which moves M by up to 0.0013.</para>
/// </remarks>
public sealed class MouldIndex(MouldClass material)
{
    private double hoursDry;

    /// <summary>The index now.</summary>
    public double Value { get; private set; }

    /// <summary>The highest it ever was.</summary>
    public double Highest { get; private set; }

    /// <summary>Humidity below which nothing grows, percent.</summary>
    public static double CriticalHumidity(double celsius, double least = 80) =>
        celsius <= 20 ? Math.Max(least, (-0.00267 * celsius * celsius * celsius) + (0.160 * celsius * celsius) - (3.13 * celsius) + 100) : least;

    /// <summary>Weeks to index 1 on the most sensitive wood.</summary>
    public static double WeeksToGermination(double celsius, double percent) => Math.Exp((-0.68 * Math.Log(celsius)) - (13.9 * Math.Log(percent)) + 66.02);

    /// <summary>Weeks to index 3 on the most sensitive wood.</summary>
    public static double WeeksToVisible(double celsius, double percent) => Math.Exp((-0.74 * Math.Log(celsius)) - (12.72 * Math.Log(percent)) + 61.50);

    /// <summary>The highest index that a humidity allows.</summary>
    public double Ceiling(double celsius, double percent)
    {
        var critical = CriticalHumidity(celsius, material.LeastHumidity);
        var x = (critical - percent) / (critical - 100);
        return material.A + (material.B * x) - (material.C * x * x);
    }

    /// <summary>One hour in air of this temperature and humidity.</summary>
    /// <param name="celsius">°C.</param>
    /// <param name="percent">0 to 100.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not a temperature or humidity.</exception>
    public void Hour(double celsius, double percent)
    {
        if (!double.IsFinite(celsius) || percent is not (>= 0 and <= 100))
            throw new ArgumentOutOfRangeException(nameof(percent), percent, "A finite temperature and a humidity from 0 to 100 %.");
        if (celsius is > 0 and < 50 && percent >= CriticalHumidity(celsius, material.LeastHumidity))
        {
            hoursDry = 0;
            var room = Math.Max(0, 1 - Math.Exp(2.3 * (Value - Ceiling(celsius, percent))));
            Value += (Value < 1 ? material.Early : material.Late) * room / (7 * WeeksToGermination(celsius, percent)) / 24;
        }
        else
        {
            hoursDry++;
            var fall = hoursDry <= 6 ? 0.032 : hoursDry <= 24 ? 0 : 0.016;
            Value = Math.Max(0, Value - (material.Decline * fall / 24));
        }

        Highest = Math.Max(Highest, Value);
    }

    /// <summary>Over a log, hour by hour; in a gap the index stands still.</summary>
    /// <returns>The highest index, and the hours that were watched.</returns>
    public static (double Highest, double WatchedHours) Of(LoggedAir air, MouldClass material)
    {
        ArgumentNullException.ThrowIfNull(air);
        MouldIndex index = new(material);
        var (carried, hours) = (0.0, 0.0);
        foreach (var span in air.Spans.Where(span => !double.IsNaN(span.Start.Humidity + span.End.Humidity + span.Start.Kelvin + span.End.Kelvin)))
        {
            hours += span.Hours;
            // whole hours from where the last one ended; each takes the air of its middle
            var at = 1 - carried;
            carried += span.Hours;
            while (carried >= 1)
            {
                var share = Math.Clamp((at - 0.5) / span.Hours, 0, 1);
                index.Hour(
                    span.Start.Kelvin + (share * (span.End.Kelvin - span.Start.Kelvin)) - Quantities.Temperature.ZeroCelsius,
                    100 * (span.Start.Humidity + (share * (span.End.Humidity - span.Start.Humidity))));
                carried--;
                at++;
            }
        }

        return (index.Highest, hours);
    }
}
