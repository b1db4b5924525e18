using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Physics.Quantities;

namespace Undercroft.Calculators;

/// <summary>What a person wrote behind an option, as a quantity, or a refusal that says how to write it.</summary>
internal static class Written
{
    private const double Largest = 1e12; // in SI, or in the unit of a bare number
    private const double Smallest = 1e-15;

    /// <summary>A temperature above absolute zero.</summary>
    public static Temperature Temperature(string option, string text)
    {
        var kelvin = Si(QuantityText.OfTemperature, option, text);
        return kelvin > 0 ? new(kelvin) : throw new Refusal($"{option} {text} lies below absolute zero. Check sign and unit.");
    }

    /// <summary>A share from 0 to 100 %.</summary>
    public static double Share(string option, string text, string what)
    {
        var fraction = Si(QuantityText.OfPercent, option, text);
        return fraction is >= 0 and <= 1 ? fraction : throw new Refusal($"{option} {text} is not possible: {what} lies from 0 to 100 %.");
    }

    /// <summary>A relative humidity from 0 to 100 %.</summary>
    public static RelativeHumidity Humidity(string option, string text) => new(Share(option, text, "a relative humidity"));

    /// <summary>Leaf moisture on wet basis, below 100 %.</summary>
    public static Moisture Moisture(string option, string text)
    {
        var fraction = Si(QuantityText.OfPercent, option, text);
        return fraction is >= 0 and < 1
            ? Physics.Quantities.Moisture.FromWetBasis(fraction)
            : throw new Refusal($"{option} {text} is not possible: moisture is water over the whole mass, from 0 % up to, but not including, 100 %.");
    }

    /// <summary>A mass above zero.</summary>
    public static Mass Mass(string option, string text) => new(AboveZero(QuantityText.OfMass, option, text, "a mass"));

    /// <summary>A volume above zero.</summary>
    public static Volume Volume(string option, string text) => new(AboveZero(QuantityText.OfVolume, option, text, "a volume"));

    /// <summary>A length above zero.</summary>
    public static Length Length(string option, string text) => new(AboveZero(QuantityText.OfLength, option, text, "a length"));

    /// <summary>A length that may be zero.</summary>
    public static Length LengthOrZero(string option, string text)
    {
        var metres = Si(QuantityText.OfLength, option, text);
        return metres >= 0 ? new(metres) : throw new Refusal($"{option} {text} is not possible: a length is not negative.");
    }

    /// <summary>An altitude, also below the sea.</summary>
    public static Length Altitude(string option, string text)
    {
        var altitude = new Length(Si(QuantityText.OfLength, option, text));
        return altitude >= Physics.Air.StandardAtmosphere.Lowest && altitude <= Physics.Air.StandardAtmosphere.Highest
            ? altitude
            : throw new Refusal($"{option} {text} is outside the standard atmosphere used here, −5000 to 11000 m. Check number and unit.");
    }

    /// <summary>An area above zero.</summary>
    public static Area Area(string option, string text) => new(AboveZero(QuantityText.OfArea, option, text, "an area"));

    /// <summary>A pressure above zero.</summary>
    public static Pressure Pressure(string option, string text) => new(AboveZero(QuantityText.OfPressure, option, text, "an absolute pressure"));

    /// <summary>A difference of pressure that may be zero.</summary>
    public static Pressure PressureOrZero(string option, string text) => new(OrZero(QuantityText.OfPressure, option, text, "a vacuum"));

    /// <summary>A mass that may be zero.</summary>
    public static Mass MassOrZero(string option, string text) => new(OrZero(QuantityText.OfMass, option, text, "a mass"));

    /// <summary>A bare number.</summary>
    public static double Number(string option, string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number)
            ? Meant(option, text, number)
            : throw new Refusal($"{option} '{text}' is not a number. Write digits with a decimal point, such as 33.5, without a unit.");

    /// <summary>A bare number above zero.</summary>
    public static double NumberAboveZero(string option, string text)
    {
        var number = Number(option, text);
        return number > 0 ? number : throw new Refusal($"{option} {text} is not possible: it must be above zero.");
    }

    /// <summary>A water activity, as 0.6 or 60%.</summary>
    public static WaterActivity Activity(string option, string text)
    {
        var fraction = text.TrimEnd().EndsWith('%') ? Si(QuantityText.OfPercent, option, text) : Number(option, text);
        return fraction is >= 0 and <= 1 ? new(fraction) : throw new Refusal($"{option} {text} is not possible: an activity lies from 0 to 1.");
    }

    /// <summary>The two sides of text such as <c>38C/90%</c>.</summary>
    public static (string Left, string Right) Pair(string option, string text, char between, string example)
    {
        var parts = text.Split(between);
        return parts.Length == 2 && parts[0].Trim().Length > 0 && parts[1].Trim().Length > 0
            ? (parts[0], parts[1])
            : throw new Refusal($"{option} '{text}' is not understood: write it as {example}.");
    }

    /// <summary>A temperature and a humidity such as <c>38C/90%</c>.</summary>
    public static (Temperature Temperature, RelativeHumidity Humidity) Climate(string option, string text)
    {
        var (left, right) = Pair(option, text, '/', "a temperature and a humidity, such as 38C/90%");
        return (Temperature(option, left), Humidity(option, right));
    }

    /// <summary>Runs a formula; what it says about its range becomes a refusal.</summary>
    public static T Within<T>(Func<T> formula)
    {
        try
        {
            return formula();
        }
        catch (ArgumentOutOfRangeException outside)
        {
            var reason = outside.Message.Split(" (Parameter", 2)[0].Split(Environment.NewLine, 2)[0];
            throw new Refusal($"No answer is given: {reason} Check the numbers and their units.");
        }
    }

    /// <summary>Refuses what lies outside of the range in which the formulas hold.</summary>
    public static void AtHome(params IEnumerable<Temperature> temperatures)
    {
        foreach (var temperature in temperatures)
        {
            if (temperature.Celsius is not (>= -60 and <= 100))
                throw new Refusal($"{temperature.Celsius.As("0.##")} °C is outside −60 to 100 °C, where these formulas hold. Check number and unit.");
        }
    }

    /// <summary>Refuses what is larger or smaller than anything that can be meant, and would come out as no number at all.</summary>
    private static double Meant(string option, string text, double value) => Math.Abs(value) is 0 or (>= Smallest and <= Largest)
        ? value
        : throw new Refusal($"{option} {(text.Length > 40 ? text[..40] + "…" : text)} is {(Math.Abs(value) > 1 ? "larger" : "smaller")} than anything that is kept or measured here. Check the number and its unit.");

    private static double AboveZero(QuantityText dimension, string option, string text, string what)
    {
        var si = Si(dimension, option, text);
        return si > 0 ? si : throw new Refusal($"{option} {text} is not possible: {what} is above zero.");
    }

    private static double OrZero(QuantityText dimension, string option, string text, string what)
    {
        var si = Si(dimension, option, text);
        return si >= 0 ? si : throw new Refusal($"{option} {text} is not possible: {what} is not negative.");
    }

    private static double Si(QuantityText dimension, string option, string text) =>
        Meant(option, text, dimension.TryRead(text, out var why) ?? throw new Refusal($"{option}: {why}"));
}
