using System.Globalization;
using Undercroft.Ledger.Events;

namespace Undercroft.Ledger.Backups;

/// <summary>What an export leaves out.</summary>
/// <param name="Prices">True leaves out what was paid and got.</param>
/// <param name="Places">True leaves out where things stand.</param>
public readonly record struct Redaction(bool Prices = false, bool Places = false)
{
    /// <summary>Leaves out nothing.</summary>
    public static Redaction None => default;
}

/// <summary>A cellar as plain tables: one row a thing, ISO 8601 dates, and the unit in the name of the column. Blank is unknown.</summary>
public static class Tables
{
    /// <summary>File names and their text.</summary>
    /// <param name="cellar">What to tell.</param>
    /// <param name="redaction">What to leave out.</param>
    public static IReadOnlyDictionary<string, string> Of(Cellar cellar, Redaction redaction = default)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var tables = new Dictionary<string, string>
        {
            ["packages.csv"] = Packages(cellar, redaction),
            ["lots.csv"] = Lots(cellar, redaction),
            ["measurements.csv"] = Measurements(cellar),
        };
        if (!redaction.Places)
        {
            tables["places.csv"] = Places(cellar);
            if (cellar.Readings.Count > 0)
                tables["readings.csv"] = ReadingTables.Batches(cellar);
            if (cellar.HygrometerChecks.Count > 0)
                tables["hygrometers.csv"] = ReadingTables.Hygrometers(cellar);
        }

        if (redaction == Redaction.None)
            tables["history.csv"] = History(cellar);
        return tables;
    }

    private static string Packages(Cellar cellar, Redaction redaction)
    {
        var csv = new CsvText(
            "id", "lot", "blend", "leaf", "cut", "container", "container_text", "net_low_g", "net_high_g", "net_said_by", "tare_low_g", "tare_high_g", "capacity_low_ml", "capacity_high_ml",
            "moisture_low_wet_basis_pct", "moisture_high_wet_basis_pct", "sealed", "undisturbed_since", redaction.Places ? null : "place", "open", "removed_as", "removed", "book_net_low_g", "book_net_high_g");
        foreach (var package in cellar.Packages.Values)
        {
            var blend = cellar.BlendOf(package);
            csv.Add(
                package.Id.ToString(), package.Lot.ToString(), blend.Name, Leaf(blend), blend.Cut, package.Container.Kind, package.Container.Text, package.Net.Low?.Grams, package.Net.High?.Grams,
                package.Net.IsKnown ? CodeWords.Of(package.Net.By) : null, package.Container.Tare.Low?.Grams, package.Container.Tare.High?.Grams, package.Container.Capacity.Low?.Millilitres,
                package.Container.Capacity.High?.Millilitres, package.Moisture.Low * 100, package.Moisture.High * 100, Date(package.Sealed), Date(package.UndisturbedSince), cellar.PathOf(package.Place),
                package.IsOpen, package.Removed is { } gone ? CodeWords.Of(gone.Fact.As) : null, package.Removed is { } left ? Date(left.Entry.Happened) : null, package.BookNet.Low?.Grams, package.BookNet.High?.Grams);
        }

        return csv.ToString();
    }

    private static string Lots(Cellar cellar, Redaction redaction)
    {
        var csv = new CsvText(
            "id", "blend", "leaf", "cut", "casing", "made", "net_low_g", "net_high_g", "net_said_by", redaction.Prices ? null : "paid_low", redaction.Prices ? null : "paid_high",
            redaction.Prices ? null : "currency", "source", redaction == Redaction.None ? "text" : null);
        foreach (var lot in cellar.Lots.Values)
        {
            csv.Add(
                lot.Id.ToString(), lot.Blend.Name, Leaf(lot.Blend), lot.Blend.Cut, lot.Blend.Casing, Date(lot.Made), lot.Net.Low?.Grams, lot.Net.High?.Grams,
                lot.Net.IsKnown ? CodeWords.Of(lot.Net.By) : null, lot.Paid?.Low, lot.Paid?.High, lot.Paid?.Currency, lot.Source, lot.Text);
        }

        return csv.ToString();
    }

    private static string Places(Cellar cellar)
    {
        var csv = new CsvText("id", "path", "room_kind", "altitude_low_m", "altitude_high_m", "temperature_low_c", "temperature_high_c", "humidity_low_pct", "humidity_high_pct");
        foreach (var place in cellar.Places.Values)
        {
            csv.Add(
                place.Id.ToString(), cellar.PathOf(place.Id), place.RoomKind, place.Altitude.Low?.Metres, place.Altitude.High?.Metres, place.Climate?.Temperature.Low?.Celsius,
                place.Climate?.Temperature.High?.Celsius, place.Climate?.Humidity.Low * 100, place.Climate?.Humidity.High * 100);
        }

        return csv.ToString();
    }

    private static string Measurements(Cellar cellar)
    {
        var csv = new CsvText("package", "happened", "what", "value", "unit", "text");
        foreach (var (package, entry) in cellar.Packages.Values.SelectMany(package => package.Timeline.Select(entry => (package.Id, entry))))
        {
            switch (entry.Fact)
            {
                case Fact.PackageWeighed fact: csv.Add(package.ToString(), Date(entry.Happened), fact.Net ? "net" : "gross", fact.Mass.Grams, "g", fact.Text); break;
                case Fact.HumidityRead fact: csv.Add(package.ToString(), Date(entry.Happened), "humidity", fact.Humidity.Percent, "%", fact.Text); break;
                case Fact.PackageLooked fact: csv.Add(package.ToString(), Date(entry.Happened), "look", string.Join(' ', fact.Findings.Select(CodeWords.Of)), null, fact.Text); break;
            }
        }

        return csv.ToString();
    }

    private static string History(Cellar cellar)
    {
        var csv = new CsvText("version", "event", "type", "happened", "recorded_utc", "who", "corrected_by", "undone_by", "fact");
        foreach (var line in cellar.Lines)
        {
            csv.Add(
                line.Event.Version, line.Event.Id.ToString(), line.Event.Fact.Type, Date(line.Happened), line.Event.Recorded.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
                line.Event.Who, line.CorrectedBy?.ToString(), line.UndoneBy?.ToString(), EventLine.WriteFact(line.Fact));
        }

        return csv.ToString();
    }

    internal static string? Date(Dates.UnevenDate date) => date.IsKnown ? date.ToString() : null;

    private static string Leaf(Blend blend) => string.Join("; ", blend.Leaf.Select(part => part.Share.IsKnown ? $"{part.Kind} {part.Share}" : part.Kind));
}
