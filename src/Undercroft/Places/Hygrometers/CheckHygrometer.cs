using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Quantities;
using Undercroft.Shell;

namespace Undercroft.Places.Hygrometers;

/// <summary>One reference as a person says it: a salt or a humidity, and what the hygrometer showed.</summary>
/// <param name="Reference">Formula of a salt, such as <c>NaCl</c>, or a humidity, such as <c>75.5%</c>.</param>
/// <param name="Shown">What the hygrometer showed.</param>
public sealed record PointSaid(string Reference, RelativeHumidity Shown);

/// <summary>One reference as it was taken.</summary>
/// <param name="Salt">Formula; null where no salt made the humidity.</param>
/// <param name="TruePct">Humidity there.</param>
/// <param name="UncertaintyPct">Points, k = 2; null where nobody gives one.</param>
/// <param name="ShownPct">As shown.</param>
/// <param name="Source">Key of the bibliography; null where the person states the humidity.</param>
public sealed record PointTaken(string? Salt, double TruePct, double? UncertaintyPct, double ShownPct, string? Source);

/// <summary>A check and what follows from it.</summary>
/// <param name="Place">Where the hygrometer stands.</param>
/// <param name="On">Readings count as corrected from this day on.</param>
/// <param name="Points">One or two.</param>
/// <param name="Gain">True humidity is gain times shown plus offset.</param>
/// <param name="OffsetPct">Points, after the gain.</param>
/// <param name="UncertaintyPct">Points, k = 2, of the references; null where none gives one.</param>
/// <param name="Verdict">First line.</param>
/// <param name="Event">Number of the line; null in a dry run.</param>
public sealed record HygrometerAccount(string Place, string On, IReadOnlyList<PointTaken> Points, double Gain, double OffsetPct, double? UncertaintyPct, string Verdict, string? Event);

/// <summary>Holds a hygrometer against one or two known humidities and writes the correction down, dated.</summary>
public static class CheckHygrometer
{
    /// <summary>An offset beyond this, in points, is no correction but a broken instrument or a spoilt test: an assumption; household instruments promise 2 to 5.</summary>
    public const double LargestOffset = 20;

    /// <summary>The highest plausible temperature of a test, above which people mean °F.</summary>
    private static readonly Temperature Warmest = Temperature.FromCelsius(40);

    /// <summary>Works the correction out.</summary>
    /// <param name="points">One or two, in any order.</param>
    /// <param name="temperature">Of salt and air; needed for salts.</param>
    /// <exception cref="Refusal">A correction that makes no sense, with the reason.</exception>
    public static (HygrometerCorrection Correction, IReadOnlyList<PointTaken> Points) Of(IReadOnlyList<PointSaid> points, Temperature? temperature)
    {
        ArgumentNullException.ThrowIfNull(points);
        if (points.Count is 0 or > 2)
            throw new Refusal("A check has one point or two. Leave out the others: keep those on either side of the humidity that matters, such as MgCl2 and NaCl.");
        if (temperature is { } warmth && !(warmth.Kelvin >= Temperature.ZeroCelsius && warmth <= Warmest))
            throw new Refusal($"A test at {warmth.Celsius.ToString("0.#", CultureInfo.InvariantCulture)} °C says nothing: the salts are known from 0 to 40 °C. Check at room temperature.");
        var taken = points.Select(point => Taken(point, temperature)).ToList();
        foreach (var point in taken)
        {
            if (!(point.ShownPct is >= 0 and <= 100))
                throw new Refusal("A hygrometer shows from 0 to 100 %. Write what it showed, such as 73%.");
            if (Math.Abs(point.TruePct - point.ShownPct) > LargestOffset)
            {
                throw new Refusal(string.Create(CultureInfo.InvariantCulture,
                    $"{point.ShownPct:0.#} % shown where {point.TruePct:0.#} % is true is off by more than {LargestOffset:0} points: the instrument is broken, the box was not tight, the wait too short or the salt another one. No correction mends that. Test again, or replace it."));
            }
        }

        if (taken.Count == 1)
            return (HygrometerCorrection.From(True(taken[0]), Shown(taken[0])), taken);
        return (Line(taken[0], taken[1]), taken);
    }

    /// <summary>Works it out and writes it down.</summary>
    /// <exception cref="Refusal">Unknown place, a day that has not come, or a correction that makes no sense; nothing is written.</exception>
    public static async ValueTask<HygrometerAccount> Write(
        ICellars cellars, string place, IReadOnlyList<PointSaid> points, Temperature? temperature, string? on, string? sensor, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        ArgumentNullException.ThrowIfNull(presentOf);
        var (correction, taken) = Of(points, temperature);
        UnevenDate when = default;
        Place? found = null;
        var change = await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            when = present.When(on);
            if (when.Earliest is null || when.Earliest != when.Latest)
                throw new Refusal("The day of the check is needed, since readings count as corrected from it on. Write it as 2026-05-01.");
            found = cellar.FindPlace(place);
            CellarEvent[] lines = [CellarEvent.New(
                new Fact.HygrometerChecked(
                    found.Id, [.. taken.Select(point => new HygrometerPoint(True(point), Shown(point), point.Salt))], sensor, correction.Gain, correction.Offset, temperature), when, present.Now)];
            Rules.Check(cellar, lines);
            return lines;
        });
        return Account(found!, when, taken, correction, change.Events[^1].Version.ToString(CultureInfo.InvariantCulture));
    }

    private static HygrometerAccount Account(Place place, UnevenDate when, IReadOnlyList<PointTaken> taken, HygrometerCorrection correction, string? number)
    {
        var at = correction.Correct(RelativeHumidity.FromPercent(60)).Percent;
        var uncertainty = taken.Max(point => point.UncertaintyPct);
        var day = when.Earliest!.Value.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        var off = Math.Abs(at - 60);
        var verdict = string.Create(CultureInfo.InvariantCulture,
            $"Where it shows 60 %, {at:0.#} % is true{(off < 1 ? ": as good as right" : "")}. Readings of {place.Name} count as corrected from {day} on; those before stay as shown.");
        return new(place.Name, day, taken, correction.Gain, 100 * correction.Offset, uncertainty, verdict, number);
    }

    /// <summary>Reads <c>NaCl=73%</c> or <c>75.5%=73%</c>.</summary>
    /// <exception cref="Refusal">Not such a pair.</exception>
    public static PointSaid Point(string text)
    {
        var at = (text ?? "").IndexOf('=', StringComparison.Ordinal);
        return at > 0 && at < text!.Length - 1 ? new(text[..at].Trim(), Humidity(text[(at + 1)..]))
            : throw new Refusal($"'{text}' is no point. Write the salt or the true humidity, and what was shown: NaCl=73% or 75.5%=73%.");
    }

    /// <summary>Reads a humidity such as <c>73%</c>.</summary>
    /// <exception cref="Refusal">None, or outside 0 to 100 %.</exception>
    public static RelativeHumidity Humidity(string text) =>
        QuantityText.OfPercent.TryRead(text.Trim(), out var why) is not { } fraction ? throw new Refusal($"'{text}' is no humidity: {why}")
        : fraction is >= 0 and <= 1 ? new(fraction) : throw new Refusal($"{text} is not possible: a humidity lies from 0 to 100 %.");

    /// <summary>Reads a temperature such as <c>20C</c>; null where none is given.</summary>
    /// <exception cref="Refusal">No temperature.</exception>
    public static Temperature? TemperatureOf(string? text) => string.IsNullOrWhiteSpace(text) ? null
        : QuantityText.OfTemperature.TryRead(text.Trim(), out var why) is { } kelvin ? new Temperature(kelvin) : throw new Refusal($"'{text}' is no temperature: {why}");

    private static PointTaken Taken(PointSaid said, Temperature? temperature)
    {
        var shown = Math.Round(said.Shown.Percent, 9);
        if (said.Reference.TrimEnd().EndsWith('%'))
        {
            return new(null, Math.Round(Humidity(said.Reference).Percent, 9), null, shown, null);
        }

        var salt = SaturatedSalts.Names.FirstOrDefault(name => string.Equals(name, said.Reference.Trim(), StringComparison.OrdinalIgnoreCase))
            ?? throw new Refusal($"'{said.Reference}' is neither a salt that is known here nor a humidity. Known: {string.Join(", ", SaturatedSalts.Names)}; or write a humidity, such as 75.5%.");
        if (temperature is not { } warmth)
            throw new Refusal("The humidity over a salt depends on its temperature. Say it with --temperature, such as --temperature 20C.");
        var (lowest, highest) = SaturatedSalts.RangeOf(salt);
        if (warmth.Celsius < lowest.Celsius - 1e-9 || warmth.Celsius > highest.Celsius + 1e-9)
            throw new Refusal(string.Create(CultureInfo.InvariantCulture, $"{salt} is no reference at {warmth.Celsius:0.#} °C: its humidity is known from {lowest.Celsius:0} to {highest.Celsius:0} °C. Check at room temperature, or take another salt."));
        var point = SaturatedSalts.At(salt, warmth);
        return new(point.Salt, Math.Round(point.Humidity.Percent, 9), point.Uncertainty?.Percent, shown, point.Source);
    }

    private static HygrometerCorrection Line(PointTaken one, PointTaken other)
    {
        if (one.Salt is not null && one.Salt == other.Salt)
            throw new Refusal($"Both points are {one.Salt}. Two points need two salts, such as MgCl2 and NaCl; or give one point alone.");
        if (Math.Abs(one.TruePct - other.TruePct) < 100 * HygrometerCorrection.LeastDistance || Math.Abs(one.ShownPct - other.ShownPct) < 100 * HygrometerCorrection.LeastDistance - 1e-9)
        {
            throw new Refusal(string.Create(CultureInfo.InvariantCulture,
                $"The two points are less than {100 * HygrometerCorrection.LeastDistance:0} % apart, true ({one.TruePct:0.#} and {other.TruePct:0.#}) or shown ({one.ShownPct:0.#} and {other.ShownPct:0.#}): that cannot tell a slope from an error of reading. Take salts further apart, or one point alone."));
        }

        if ((one.TruePct - other.TruePct) * (one.ShownPct - other.ShownPct) < 0)
            throw new Refusal("The damper of the two salts showed the lower humidity: the two readings are the wrong way round. Look which was which.");
        try
        {
            return HygrometerCorrection.From(True(one), Shown(one), True(other), Shown(other));
        }
        catch (ArgumentOutOfRangeException)
        {
            var gain = (other.TruePct - one.TruePct) / (other.ShownPct - one.ShownPct);
            throw new Refusal(string.Create(CultureInfo.InvariantCulture,
                $"The two points ask for a slope of {gain:0.##}, and a sound hygrometer lies between {HygrometerCorrection.LowestGain:0.0} and {HygrometerCorrection.HighestGain:0.0}: the readings were mixed up, one box was not ready, or the instrument is broken. Test again."));
        }
    }

    private static RelativeHumidity True(PointTaken point) => RelativeHumidity.FromPercent(point.TruePct);

    private static RelativeHumidity Shown(PointTaken point) => RelativeHumidity.FromPercent(point.ShownPct);
}
