using CsCheck;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Climate.Exposures;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Climate;

public sealed class ExposureTests
{
    private static readonly Gen<LoggedMoment[]> Rows = Gen.Select(Gen.Int[0, 400], Gen.Double[-10, 35], Gen.Double[0.1, 1]).Array[2, 60]
        .Select(rows => Array.ConvertAll(rows, row => new LoggedMoment(row.Item1 * 600, Kelvin(row.Item2), row.Item3)));

    /// <summary>Own computation by the definition: the surface's relative humidity beside room air (regression).</summary>
    [Theory]
    [InlineData(20, 60, 14, 87.78)]
    [InlineData(20, 60, 12, 100.05)]
    [InlineData(22, 65, 16, 94.54)]
    public void Surface_humidity_keeps_its_computed_values(double air, double percent, double wall, double expected) => Assert.Equal(
        expected, SurfaceCondensation.HumidityAt(Temperature.FromCelsius(air), RelativeHumidity.FromPercent(percent), Temperature.FromCelsius(wall)).Percent, 0.02);

    /// <summary>The definition of ISO 9223:1992, above 80 % and above 0 °C: exactly on either line is not counted.</summary>
    [Theory]
    [InlineData(20, 0.50, 0)]
    [InlineData(5, 0.85, 300)]
    [InlineData(-3, 0.90, 0)]
    [InlineData(5, 0.80, 0)]
    [InlineData(0, 0.90, 0)]
    public void Wetness_counts_as_it_is_defined(double celsius, double humidity, double hours)
    {
        var wet = TimeOfWetness.Of(Steady(celsius, humidity, 300));
        Assert.Equal(hours, wet.Hours, 1e-6);
        Assert.Equal(300, wet.WatchedHours, 1e-6);
    }

    /// <summary>Source: Corrosion Engineering p. 394 for T1 to T3; T4 and T5 from memory. Both ends of each bin.</summary>
    [Theory]
    [InlineData(10, 1)]
    [InlineData(10.1, 2)]
    [InlineData(250, 2)]
    [InlineData(300, 3)]
    [InlineData(2500, 3)]
    [InlineData(2501, 4)]
    [InlineData(5501, 5)]
    public void Matches_Iso9223_1992_wetness_classes(double hours, int wetness) => Assert.Equal(wetness, TimeOfWetness.Class(hours));

    /// <summary>Source: a maker's page that quotes ISO 9223; first-year loss of carbon steel in µm.</summary>
    [Theory]
    [InlineData(1.3, "C1")]
    [InlineData(1.4, "C2")]
    [InlineData(25, "C2")]
    [InlineData(50, "C3")]
    [InlineData(80, "C4")]
    [InlineData(200, "C5")]
    [InlineData(201, "CX")]
    public void Matches_the_quoted_corrosion_bins(double micrometres, string category) => Assert.Equal(category, Corrosivity.Of(new Length(micrometres * 1e-6)));

    [Fact]
    public void Time_beyond_a_limit_is_cut_within_a_step()
    {
        var air = LoggedAir.Of([new(0, Kelvin(20), 0.5), new(3600, Kelvin(24), 0.7)]);
        Assert.Equal(0.25, TimeBeyond.Warmer(air, Kelvin(23)).Hours, 1e-9);
        Assert.Equal(0.5, TimeBeyond.Moister(air, 0.6).Hours, 1e-9);
        Assert.Equal(0.5, TimeBeyond.Drier(air, 0.6).Hours, 1e-9);
    }

    [Fact]
    public void The_order_of_rows_is_irrelevant_to_every_measure() => Rows.Holds(
        rows =>
        {
            var (one, other) = (LoggedAir.Of(rows), LoggedAir.Of(rows.Reverse()));
            return Same(TimeBeyond.Warmer(one, Kelvin(18)).Hours, TimeBeyond.Warmer(other, Kelvin(18)).Hours)
                && Same(TimeOfWetness.Of(one).Hours, TimeOfWetness.Of(other).Hours)
                && Same(MouldIndex.Of(one, MouldClass.VerySensitive).Highest, MouldIndex.Of(other, MouldClass.VerySensitive).Highest)
                && Same(AgeingRate.Of(one), AgeingRate.Of(other))
                && Same(Swings.Of(one).HeadspacesPerYear, Swings.Of(other).HeadspacesPerYear)
                && Same(SurfaceCondensation.Time(one, 3).Hours, SurfaceCondensation.Time(other, 3).Hours);
        }, 200);

    [Fact]
    public void Mean_kinetic_temperature_of_a_log_is_never_below_its_mean() => Rows.Holds(
        rows =>
        {
            var spans = LoggedAir.Of(rows).Spans.Select(span => (span.Hours, new Temperature(span.Start.Kelvin), new Temperature(span.End.Kelvin))).ToList();
            return spans.Sum(span => span.Hours) is not > 0
                || MeanKineticTemperature.OfSpans(spans).Kelvin >= (spans.Sum(span => span.Hours * 0.5 * (span.Item2.Kelvin + span.Item3.Kelvin)) / spans.Sum(span => span.Hours)) - 1e-9;
        }, 300);

    [Fact]
    public void Gaps_are_watched_by_nobody()
    {
        var air = LoggedAir.Of([new(0, Kelvin(30), 0.5), new(3600, Kelvin(30), 0.5), new(36000, Kelvin(30), 0.5), new(39600, Kelvin(30), 0.5), new(43200, Kelvin(30), 0.5)]);
        Assert.Equal(3, TimeBeyond.Warmer(air, Kelvin(25)).WatchedHours, 1e-9);
    }

    [Fact]
    public void Two_channels_on_their_own_clocks_are_joined_but_not_across_gaps()
    {
        LoggedMoment Warm(double hour) => new(hour * 3600, Kelvin(20 + hour), double.NaN);
        LoggedMoment Moist(double hour) => new(hour * 3600, double.NaN, 0.5);
        var air = LoggedAir.Of([Warm(0), Warm(1), Warm(2), Warm(30), Moist(0.5), Moist(1.5), Moist(2.5), Moist(29)]);
        Assert.Equal(Kelvin(20.5), air.Moments.Single(moment => moment.Seconds == 1800).Kelvin, 1e-9);
        Assert.True(double.IsNaN(air.Moments.Single(moment => moment.Seconds == 29 * 3600).Kelvin));
    }

    /// <summary>Gas law, own computation (regression): 10 and 30 °C drive 6.60 % of the headspace.</summary>
    [Fact]
    public void One_cycle_breathes_what_the_gas_law_says()
    {
        Assert.Equal(0.0660, Breathing.PerCycle(Temperature.FromCelsius(10), Temperature.FromCelsius(30)), 5e-5);
        Assert.Equal(0.01, Breathing.ByPressure(new Pressure(1000), new Pressure(100_000)), 1e-12);
    }

    [Fact]
    public void Swings_of_a_sine_are_its_own()
    {
        var air = LoggedAir.Of(Enumerable.Range(0, 24 * 365).Select(hour => new LoggedMoment(
            hour * 3600.0, Kelvin(15 + (8 * Math.Sin(Math.Tau * hour / 8760)) + (2 * Math.Sin(Math.Tau * hour / 24))), 0.5)));
        var swings = Swings.Of(air);
        Assert.Equal(4, swings.DailyKelvin, 0.1);
        Assert.InRange(swings.SeasonalKelvin!.Value, 15.8, 16.2);
        Assert.Null(Swings.Of(air.Between(0, 60 * 86400)).SeasonalKelvin);
    }

    /// <summary>
    /// Source: the lifetime multiplier as documented in public code, with E = 100 kJ/mol and 70 (own computation of it); "double the life for each five-degree drop" is the
    /// title of Michalski 2002, which 15 °C must meet within a tenth.
    /// </summary>
    [Theory]
    [InlineData(15, 2.0380, 1.6460)]
    [InlineData(10, 4.2591, 2.7575)]
    [InlineData(25, 0.5025, 0.6178)]
    public void Ageing_keeps_its_computed_values(double celsius, double paper, double varnish)
    {
        Assert.Equal(paper, 1 / AgeingRate.At(Temperature.FromCelsius(celsius)), 2e-4 * paper);
        Assert.Equal(varnish, 1 / AgeingRate.At(Temperature.FromCelsius(celsius), AgeingRate.Varnish), 2e-4 * varnish);
        Assert.InRange(1 / AgeingRate.At(Temperature.FromCelsius(15)), 1.9, 2.1);
    }

    /// <summary>Reciprocity as a maker of lamps prints it: 50 lx for 10 h is 250 lx for 2 h. Reflection by Fresnel with n = 1.52: own computation.</summary>
    [Fact]
    public void Light_adds_up_and_is_cut()
    {
        Assert.Equal(LightDose.LuxHours(50, 10), LightDose.LuxHours(250, 2));
        Assert.Equal(0.9183, LightDose.ClearGlass, 5e-5);
        Assert.Equal(0, LightDose.MostBlue(LightCover.ClosedBox));
        Assert.True(LightDose.MostBlue(LightCover.TintedGlass) < LightDose.MostBlue(LightCover.ClearGlass));
    }

    [Fact]
    public void Nonsense_is_refused()
    {
        var air = Steady(20, 0.5, 10);
        Assert.Throws<ArgumentOutOfRangeException>(() => LoggedAir.Of([new(double.NaN, 290, 0.5)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => LoggedAir.Of([new(0, -1, 0.5)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => LoggedAir.Of([new(0, 290, 1.5)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => TimeBeyond.Warmer(air, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => SurfaceCondensation.Time(air, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => TimeOfWetness.Class(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Corrosivity.Of(new Length(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => AgeingRate.At(default));
        Assert.Throws<ArgumentOutOfRangeException>(() => LightDose.LuxHours(-1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Breathing.PerCycle(Temperature.FromCelsius(30), Temperature.FromCelsius(10)));
    }

    internal static LoggedAir Steady(double celsius, double humidity, int hours) =>
        LoggedAir.Of(Enumerable.Range(0, hours + 1).Select(hour => new LoggedMoment(hour * 3600.0, Kelvin(celsius), humidity)));

    private static double Kelvin(double celsius) => celsius + Temperature.ZeroCelsius;

    private static bool Same(double one, double other) => one == other || (double.IsNaN(one) && double.IsNaN(other));
}
