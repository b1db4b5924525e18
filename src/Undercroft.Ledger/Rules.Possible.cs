using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Events;

namespace Undercroft.Ledger;

public static partial class Rules
{
    /// <summary>Checks a fact by itself: masses above zero, shares between nothing and the whole.</summary>
    /// <exception cref="Refusal">It is impossible.</exception>
    private static void Possible(Fact fact)
    {
        switch (fact)
        {
            case Fact.CellarCreated: break;
            case Fact.PlaceAdded one:
                Said(one.Name, "A place needs a name.");
                Possible(one.Climate);
                break;
            case Fact.ClimateStated one: Possible(one.Climate); break;
            case Fact.OutdoorsStated one: Possible(one); break;
            case Fact.AltitudeStated one:
                if (!one.Altitude.IsKnown || !(one.Altitude.Si.First >= -450 && one.Altitude.Si.Second <= 9000))
                    throw new Refusal("An altitude lies from 450 m below the sea to 9000 m above it. Write for example 500m.");
                break;
            case Fact.LotAdded one:
                Positive(one.Net.Si, "The net mass");
                Possible(one.Blend);
                break;
            case Fact.PackagesAdded one:
                if (one.Packages.Count == 0)
                    throw new Refusal("There is no package to add: the count must be at least one.");
                Possible(one.Container);
                Positive(one.Net.Si, "The net mass");
                Positive(one.Gross.Si, "The gross mass");
                Moisture(one.Moisture.Si);
                break;
            case Fact.PackageWeighed one:
                Positive(one.Mass.Kilograms, "A weight");
                if (one.Resolution is { } step)
                    Positive(step.Kilograms, "The step of a scale");
                break;
            case Fact.HumidityRead one:
                Share(one.Humidity.Fraction, one.Humidity.Fraction, "Humidity");
                if (one.Temperature is { } warmth)
                    Warmth(warmth.Kelvin);
                break;
            case Fact.PackageLooked one: Possible(one); break;
            case Fact.PackageOpened or Fact.PackageClosed or Fact.PackageMoved or Fact.PackageRemoved: break;
            case Fact.LeafTaken one: Positive(one.Mass.Si, "What was taken"); break;
            case Fact.PackageRepacked one:
                Possible(one.Container);
                Positive(one.Gross.Si, "The gross mass");
                Positive(one.Net.Si, "The net mass");
                break;
            case Fact.ContainerStated one:
                if (one.Container == Container.Unknown)
                    throw new Refusal("Nothing was said of the container. State its kind, its capacity or its tare.");
                Possible(one.Container);
                break;
            case Fact.WaterAdded one:
                if (one.Mass.IsKnown && one.Mass.Si.First == 0 && one.Mass.Si.Second == 0)
                    throw new Refusal("No water was added: the mass is zero. Write more than zero for water added, less for leaf dried.");
                break;
            case Fact.PaceStated one:
                if (one.PerWeek.Si is { IsKnown: true, First: < 0 } || one.OpeningsPerWeek is { } openings && !(openings >= 0 && double.IsFinite(openings)))
                    throw new Refusal("A pace cannot be negative. Write zero where nothing is used.");
                break;
            case Fact.Decided: break;
            case Fact.PhotoKept one: Digest(one.Sha256); break;
            case Fact.PhotoMarked one:
                Digest(one.Sha256);
                if (!one.Leaf.LiesWithin || !one.Card.LiesWithin)
                    throw new Refusal("A mark on a picture lies within it and has a width and a height. Mark it again.");
                break;
            case Fact.LotValued { Replace: null, Sale: null }: throw new Refusal("No figure was given: say what it would cost to replace, what it would likely fetch, or both.");
            case Fact.LotValued: break;
            case Fact.Noted one: Said(one.Text, "A note needs words."); break;
            case Fact.EventCorrected one: Possible(one.Replacement); break;
            case Fact.EventUndone: break;
            case Fact.SheetImported one: Said(one.File, "An import needs the name of its file."); break;
            case Fact.ReadingsImported one: Possible(one); break;
            case Fact.HygrometerChecked one: Possible(one); break;
            case Fact.RowDoubted one: Said(one.Reason, "A doubtful row needs its reason."); break;
            case Fact.FilmDescribed one: PossibleFilm(one); break;
            case Fact.ContainerDescribed one: PossibleKind(one); break;
            case Fact.RuleSwitched one: Said(one.Rule, "A rule that is switched needs its code."); break;
            case Fact.RowAnswered one: Said(one.Answer, "An answer needs words."); break;
            default: throw new InvalidOperationException($"Nobody said what is possible for {fact.Type}.");
        }
    }

    private static void Possible(Fact.PackageLooked look)
    {
        if (look.Bulge is { } bulge && !(bulge.Metres >= 0 && double.IsFinite(bulge.Metres)))
            throw new Refusal("The height of a bulge cannot be negative. Measure from the rim upwards.");
        if (look.Findings.Count == 0 && look.Bulge is null && look.Feel is null && string.IsNullOrWhiteSpace(look.Text))
            throw new Refusal($"Nothing was said of what was seen. Say {CodeWords.Of(Finding.AllWell)}, or one of: {string.Join(", ", CodeWords.All<Finding>())}.");
        if (look.Findings.Contains(Finding.AllWell) && look.Findings.Any(IsAmiss))
            throw new Refusal($"'{CodeWords.Of(Finding.AllWell)}' and '{CodeWords.Of(look.Findings.First(IsAmiss))}' contradict each other. Leave one of them out.");
    }

    private static void Digest(string sha256)
    {
        if (sha256.Length != 64 || !sha256.All(char.IsAsciiHexDigitLower))
            throw new Refusal("This does not name a kept picture. Take or choose it again.");
    }

    private static void Possible(Fact.ReadingsImported readings)
    {
        Said(readings.File, "An import needs the name of its file.");
        if (readings.Batch == Guid.Empty || readings.Count < 1 || readings.Last < readings.First || readings.Sha256.Length != 64 || readings.Repeated < 0 || readings.Rejected < 0)
            throw new Refusal("This import does not tell which readings came with it. Import the file again.");
    }

    private static void Possible(Fact.HygrometerChecked sensor)
    {
        if (sensor.Points.Count == 0 && sensor.OffsetFraction is null)
            throw new Refusal("A check needs at least one point: what the hygrometer showed at which humidity. Write for example 75.5%=73.0%.");
        foreach (var point in sensor.Points)
        {
            Share(point.True.Fraction, point.True.Fraction, "The true humidity");
            Share(point.Shown.Fraction, point.Shown.Fraction, "The humidity shown");
        }

        if (sensor.Gain is { } gain && !(gain > 0 && double.IsFinite(gain)) || sensor.OffsetFraction is { } offset && !(offset is >= -1 and <= 1))
            throw new Refusal("A correction has a gain above zero and an offset of less than 100 points.");
        if (sensor.Temperature is { } warmth)
            Warmth(warmth.Kelvin);
    }

    /// <summary>True for a finding that something is not as it should be; crystals and darkening are ordinary.</summary>
    public static bool IsAmiss(Finding finding) => finding is not (Finding.AllWell or Finding.Crystals or Finding.Darkened);

    private static void Possible(Blend blend)
    {
        foreach (var part in blend.Leaf)
        {
            Said(part.Kind, "A part of a blend needs the name of its leaf.");
            if (part.Share.IsKnown)
                Share(part.Share.Si.First, part.Share.Si.Second, $"The share of {part.Kind}");
        }

        if (blend.Leaf.Sum(part => part.Share.Si.First) > 1.01 && blend.Leaf.All(part => part.Share.Si.Evenness is Evenness.Exact or Evenness.Unknown))
            throw new Refusal("The shares of the blend add up to more than 100 %. Correct one, or leave unsure ones blank.");
    }

    private static void Possible(Container container)
    {
        Positive(container.Capacity.Si, "The capacity");
        Positive(container.Tare.Si, "The tare");
    }

    private static void Possible(StatedClimate? climate)
    {
        if (climate is { Humidity: { IsKnown: true } humidity })
            Share(humidity.Si.First, humidity.Si.Second, "Humidity");
        if (climate is { Temperature: { IsKnown: true } band })
        {
            Warmth(band.Si.First);
            Warmth(band.Si.Second);
        }
    }

    private static void Possible(Fact.OutdoorsStated year)
    {
        if (year.MonthlyTemperatureK.Count != 12 || year.MonthlyTemperatureK.Any(kelvin => !(kelvin is >= 200 and <= 335)))
            throw new Refusal("The year outdoors is twelve monthly means, January first, each from -73 to 61 °C. Write for example 1,2,5,9,14,17,19,18,15,10,5,2.");
        if (year.MonthlyHumidityFraction is { } humid && (humid.Count != 12 || humid.Any(fraction => !(fraction is > 0 and <= 1))))
            throw new Refusal("The humidity outdoors is twelve monthly means, January first, each above 0 and up to 100 %. Leave it out where nobody knows.");
        if (year.DailySwingK is { } swing && !(swing is >= 0 and <= 30))
            throw new Refusal("Half the swing of a day outdoors lies from 0 to 30 K. Leave it out where nobody knows.");
    }

    private static void Moisture(Stated moisture)
    {
        if (moisture.IsKnown && !(moisture.First >= 0 && moisture.Second < 1))
            throw new Refusal("Moisture lies from 0 % up to, but not including, 100 % of the whole mass: leaf that is all water is no leaf. Write for example 14%.");
    }

    private static void Share(double low, double high, string what)
    {
        if (!(low >= 0 && high <= 1))
            throw new Refusal($"{what} lies between 0 % and 100 %. Write for example 65%.");
    }

    private static void Warmth(double kelvin)
    {
        if (!(kelvin > 0 && double.IsFinite(kelvin)))
            throw new Refusal("There is no temperature below absolute zero (-273.15 °C). Write for example 20C.");
    }

    private static void Positive(Stated amount, string what)
    {
        if (amount.IsKnown)
            Positive(amount.First, what);
    }

    private static void Positive(double si, string what)
    {
        if (!(si > 0 && double.IsFinite(si)))
            throw new Refusal($"{what} must be more than zero. Write what the scale or the label shows, or leave it blank where nobody knows.");
    }

    private static void Said(string? text, string refusal)
    {
        if (string.IsNullOrWhiteSpace(text))
            throw new Refusal(refusal);
    }
}
