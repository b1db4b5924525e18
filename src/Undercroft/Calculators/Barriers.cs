using Undercroft.Ledger;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Quantities;

namespace Undercroft.Calculators;

/// <summary>Water through a film.</summary>
/// <param name="PermeanceKgPerM2SPa">At the temperature asked for.</param>
/// <param name="WaterMgPerDay">Outward positive.</param>
public sealed record WaterFilmFigures(double PermeanceKgPerM2SPa, double WaterMgPerDay);

/// <summary>Oxygen through a film.</summary>
/// <param name="PermeanceMolPerM2SPa">At the temperature asked for.</param>
/// <param name="OxygenMlPerDay">Inward positive; at the temperature asked for and 101 325 Pa.</param>
public sealed record OxygenFilmFigures(double PermeanceMolPerM2SPa, double OxygenMlPerDay);

/// <summary>Layers behind each other.</summary>
/// <param name="Transmission">In the unit of the layers.</param>
public sealed record LaminateFigures(double Transmission);

/// <summary>Oxygen through a hole.</summary>
/// <param name="OxygenMlPerDay">Inward positive; at the temperature asked for and 101 325 Pa.</param>
/// <param name="Regime">How molecules get through: <c>molecular</c>, <c>transition</c> or <c>continuum</c>.</param>
public sealed record PinholeFigures(double OxygenMlPerDay, string Regime);

/// <summary>A strip of stretch film round a seam.</summary>
/// <param name="LengthMm">To cut, before stretching.</param>
public sealed record StripFigures(double LengthMm);

/// <summary>Water that got into a closed container.</summary>
/// <param name="WaterMgPerDayL">Per day and litre.</param>
/// <param name="Class"><c>tight</c>, <c>well-closed</c> or <c>open</c>.</param>
public sealed record TightnessFigures(double WaterMgPerDayL, string Class);

/// <summary>Films, layers, holes and strips.</summary>
public static class Barriers
{
    /// <summary>A water-vapour rate of a data sheet, at home.</summary>
    /// <param name="gramsPerM2Day">Of the data sheet, above zero.</param>
    /// <param name="test">Its climate against a dry side.</param>
    /// <param name="area">Of film.</param>
    /// <param name="temperature">At home.</param>
    /// <param name="inside">Humidity inside.</param>
    /// <param name="outside">Humidity outside.</param>
    /// <param name="activationEnergy">J/mol of permeance; 0 for none.</param>
    /// <exception cref="Refusal">A test without a humidity to drive it, or a temperature outside −60 … 100 °C.</exception>
    public static WaterFilmFigures WaterThrough(
        double gramsPerM2Day, WaterTest test, Area area, Temperature temperature, RelativeHumidity inside, RelativeHumidity outside, double activationEnergy)
    {
        Written.AtHome(temperature);
        Written.AtHome(test.Temperature);
        if (!(test.WetSide.Fraction > 0))
            throw new Refusal("--test 0% drives no water through a film. Give the humidity of the moist side in the test, such as 38C/90%.");
        return Written.Within(() =>
        {
            var permeance = FilmTransmission.At(Permeance.FromGramsPerM2Day(gramsPerM2Day, test), test.Temperature, temperature, activationEnergy);
            return new WaterFilmFigures(
                permeance.WaterKilogramsPerM2SPa, 1e6 * FilmTransmission.WaterPerDay(permeance, area, temperature, inside, outside).Kilograms);
        });
    }

    /// <summary>An oxygen rate of a data sheet, at home.</summary>
    /// <param name="cm3PerM2DayAtm">cm³ at 0 °C and 101 325 Pa, above zero.</param>
    /// <param name="test">Temperature of the test.</param>
    /// <param name="area">Of film.</param>
    /// <param name="temperature">At home.</param>
    /// <param name="oxygenInside">Share of 101 325 Pa, 0 to 1.</param>
    /// <param name="activationEnergy">J/mol of permeance; 0 for none.</param>
    /// <exception cref="Refusal">A temperature outside −60 … 100 °C.</exception>
    public static OxygenFilmFigures OxygenThrough(
        double cm3PerM2DayAtm, Temperature test, Area area, Temperature temperature, double oxygenInside, double activationEnergy)
    {
        Written.AtHome(temperature);
        Written.AtHome(test);
        return Written.Within(() =>
        {
            var permeance = FilmTransmission.At(Permeance.FromCm3PerM2DayAtm(cm3PerM2DayAtm), test, temperature, activationEnergy);
            return new OxygenFilmFigures(permeance.MolPerM2SPa, FilmTransmission.OxygenPerDay(permeance, area, temperature, oxygenInside).Millilitres);
        });
    }

    /// <summary>Transmission of homogeneous layers behind each other, in their common unit.</summary>
    /// <exception cref="Refusal">A transmission that is not above zero.</exception>
    public static LaminateFigures InSeries(IReadOnlyList<double> layers) => Written.Within(() => new LaminateFigures(
        Laminate.InSeries([.. layers.Select(layer => new Layer.Homogeneous("layer", new Permeance(layer)))]).MolPerM2SPa));

    /// <summary>Oxygen through a round hole.</summary>
    /// <exception cref="Refusal">A temperature outside −60 … 100 °C.</exception>
    public static PinholeFigures ThroughPinhole(Length diameter, Length length, Temperature temperature, double oxygenInside)
    {
        Written.AtHome(temperature);
        return Written.Within(() => new PinholeFigures(
            FilmTransmission.OxygenPerDay(Pinhole.Conductance(Permeant.Oxygen, diameter, length, temperature), temperature, oxygenInside).Millilitres,
            Pinhole.RegimeOf(diameter, temperature) switch
            {
                PoreRegime.Molecular => "molecular",
                PoreRegime.Transition => "transition",
                PoreRegime.Continuum => "continuum",
                var other => throw new InvalidOperationException($"No word for {other}."),
            }));
    }

    /// <summary>Length of a strip that goes round a vessel.</summary>
    /// <param name="around">Once round.</param>
    /// <param name="turns">Above zero.</param>
    /// <param name="stretch">Length after over before, 1 to 4.</param>
    /// <param name="overlap">Unstretched end.</param>
    /// <exception cref="Refusal">Turns not above zero, or a stretch at which the film is slack or tears.</exception>
    public static StripFigures Strip(Length around, double turns, double stretch, Length overlap)
    {
        if (turns is not (> 0 and < double.PositiveInfinity))
            throw new Refusal("--turns must be above zero.");
        return stretch is >= 1 and <= 4
            ? Written.Within(() => new StripFigures(StripLength.Of(around, turns, stretch, overlap).Millimetres))
            : throw new Refusal($"--stretch {stretch.As("0.##")} is not possible: the film lies at 1 unstretched and tears at 3 to 4 times its length. Give 1 to 4.");
    }

    /// <summary>How tight a container is, from weighing it with a drying agent inside.</summary>
    public static TightnessFigures DesiccantRate(Volume volume, Mass gain, Mass control, double days) => Written.Within(() =>
    {
        var rate = DesiccantTest.MilligramsPerDayLitre(gain, control, days, volume);
        return new TightnessFigures(rate, DesiccantTest.Of(rate) switch
        {
            Tightness.Tight => "tight",
            Tightness.WellClosed => "well-closed",
            Tightness.Open => "open",
            var other => throw new InvalidOperationException($"No word for {other}."),
        });
    });
}
