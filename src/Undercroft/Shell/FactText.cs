using System.Globalization;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Undercroft.Shell.Web;

namespace Undercroft.Shell;

/// <summary>Facts in plain words, one short line each.</summary>
public static class FactText
{
    /// <summary>What happened.</summary>
    /// <param name="cellar">Names places and lines.</param>
    /// <param name="fact">The fact.</param>
    /// <param name="units">Turns an amount that the program words into the units that somebody likes; null leaves it. Words of a person are never turned.</param>
    public static string Of(Cellar cellar, Fact fact, Func<string, string>? units = null)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        string In(string amount) => units?.Invoke(amount) ?? amount;
        return fact switch
        {
            Fact.CellarCreated created => created.Demo ? "The demo cellar was begun." : "The cellar was begun.",
            Fact.PlaceAdded place => $"Place added: {cellar.PathOf(place.Place) ?? place.Name}{(place.RoomKind is { } kind ? $" ({RoomKinds.Find(kind)?.Name ?? kind})" : "")}.",
            Fact.ClimateStated climate => $"Climate of {cellar.PathOf(climate.Place)} stated{Tail(climate.Climate.Text, ": ")}.",
            Fact.OutdoorsStated outdoors => $"The year outdoors stated for {cellar.PathOf(outdoors.Place)}: twelve monthly means, {In(Number(outdoors.MonthlyTemperatureK.Average() - Temperature.ZeroCelsius) + " °C")} over the year{Tail(outdoors.Text, ", from ")}.",
            Fact.AltitudeStated altitude => $"Altitude of {cellar.PathOf(altitude.Place)} stated: {altitude.Altitude}.",
            Fact.LotAdded lot => $"Lot added: {lot.Blend.Name ?? "blend unknown"}{Tail(PackageWords.Cut(lot.Blend.Cut), ", ")}{(lot.Made.IsKnown ? $", made {lot.Made.InWords()}" : "")}{Tail(lot.Paid?.ToString(), ", paid ")}.",
            Fact.LotValued valued => $"Lot {valued.Lot} valued{Tail(valued.Replace?.ToString(), ": to replace ")}{Tail(valued.Sale?.ToString(), valued.Replace is null ? ": likely sale " : "; likely sale ")}{Tail(valued.Text, ". ")}.",
            Fact.PackagesAdded added => $"{Many(added.Packages)} added{Tail(PackageWords.Container(cellar, added.Container), ", in ")}{(added.Net.IsKnown ? $", {In(AmountText.Of(added.Net))} each" : "")}{(added.Sealed.IsKnown ? $", sealed {added.Sealed.InWords()}" : "")}{Tail(cellar.PathOf(added.Place), ", at ")}.",
            Fact.PackageWeighed weighed => $"{weighed.Package} weighed: {In(Grams(weighed.Mass))}{(weighed.Net ? " of leaf alone" : " altogether")}.",
            Fact.HumidityRead read => $"{read.Package}: humidity inside {Number(read.Humidity.Percent)} %{(read.Temperature is { } at ? $" at {In(Number(at.Celsius) + " °C")}" : "")}.",
            Fact.PackageLooked looked => $"{looked.Package} looked at: {Seen(looked, In)}{Tail(looked.Text, ". ")}.",
            Fact.PackageOpened opened => $"{opened.Package} opened{Tail(opened.Text, ": ")}.",
            Fact.PackageClosed closed => $"{closed.Package} closed{Tail(closed.Text, ": ")}.",
            Fact.LeafTaken taken => $"{In(AmountText.Of(taken.Mass))} taken from {taken.Package}{Tail(taken.Text, ": ")}.",
            Fact.PackageMoved moved => $"{moved.Package} moved to {cellar.PathOf(moved.Place)}{Tail(moved.Text, ": ")}.",
            Fact.PackageRepacked repacked => $"{repacked.Package} packed anew{Tail(PackageWords.Container(cellar, repacked.Container), ", in ")}{(repacked.Gross.IsKnown ? $", {In(AmountText.Of(repacked.Gross))} altogether" : "")}.",
            Fact.ContainerStated stated => $"{stated.Package}: container described{Tail(PackageWords.Container(cellar, stated.Container), " as ")}{(stated.Container.Tare.IsKnown ? $", {In(AmountText.Of(stated.Container.Tare))} empty" : "")}{(stated.Container.Capacity.IsKnown ? $", holds {In(AmountText.Of(stated.Container.Capacity))}" : "")}.",
            Fact.WaterAdded water => $"{In(AmountText.Of(water.Mass))} of water to {water.Package}{Tail(water.Text, ": ")}.",
            Fact.PackageRemoved removed => $"{removed.Package} left the cellar: {CodeWords.Of(removed.As)}{Tail(removed.Text, ". ")}.",
            Fact.Decided decided => $"{decided.Package}: {DecisionWords.Of(decided.As)}{(decided.LookAgain is { } day ? $", look again {DateText.Of(day)}" : "")}{Tail(decided.Text, ": ")}.",
            Fact.PhotoKept photo => $"Picture of {photo.Package}{Tail(photo.Text, ": ")}.",
            Fact.PhotoMarked marked => $"Leaf and grey card marked on a picture of {marked.Package}.",
            Fact.PaceStated pace => $"Pace of use stated: {In(AmountText.Of(pace.PerWeek))} a week.",
            Fact.Noted noted => $"Note: {noted.Text}",
            Fact.EventCorrected corrected => $"Line {NumberOf(cellar, corrected.Event)} corrected. It should read: {Of(cellar, corrected.Replacement, units)}",
            Fact.EventUndone undone => $"Line {NumberOf(cellar, undone.Event)} taken back.",
            Fact.SheetImported sheet => string.Create(CultureInfo.InvariantCulture, $"Sheet {sheet.File} imported: {sheet.RowsRead} rows, {sheet.RowsDoubtful} doubtful."),
            Fact.ReadingsImported readings => string.Create(CultureInfo.InvariantCulture,
                $"{readings.Count} readings{Tail(readings.Series, " of ")} imported for {cellar.PathOf(readings.Place)} from {readings.File}, {readings.First:yyyy-MM-dd} to {readings.Last:yyyy-MM-dd}{Tail(readings.Assumed, ". Assumed: ")}."),
            Fact.HygrometerChecked sensor => $"Hygrometer{Tail(sensor.Series, " ")} of {cellar.PathOf(sensor.Place)} checked: {string.Join("; ", sensor.Points.Select(point => $"showed {Number(point.Shown.Percent)} % at {Number(point.True.Percent)} %"))}{Tail(sensor.Text, ". ")}.",
            Fact.RowDoubted row => string.Create(CultureInfo.InvariantCulture, $"Row {row.Row} of {row.File} kept as a doubt: {row.Reason}"),
            Fact.FilmDescribed film => $"Own film described: {film.Name} ({film.Code}){Tail(film.Text, ", ")}.",
            Fact.ContainerDescribed kind => $"Own container described: {kind.Name} ({kind.Code}), like {PackageWords.KindName(cellar, kind.Like)}{Tail(kind.Text, ", ")}.",
            Fact.RuleSwitched rule => $"Rule of practice {rule.Rule} switched {(rule.On ? "on" : "off")}{Tail(rule.Text, ": ")}.",
            Fact.RowAnswered answer => $"Answered: {answer.Question} {answer.Answer}",
            _ => throw new InvalidOperationException($"No words for {fact.Type}."),
        };
    }

    /// <summary>The packages that a fact names.</summary>
    public static IReadOnlyList<PackageId> PackagesOf(Fact fact) => fact switch
    {
        Fact.PackagesAdded added => added.Packages,
        Fact.PackageWeighed weighed => [weighed.Package],
        Fact.HumidityRead read => [read.Package],
        Fact.PackageLooked looked => [looked.Package],
        Fact.PackageOpened opened => [opened.Package],
        Fact.PackageClosed closed => [closed.Package],
        Fact.LeafTaken taken => [taken.Package],
        Fact.PackageMoved moved => [moved.Package],
        Fact.PackageRepacked repacked => [repacked.Package],
        Fact.ContainerStated stated => [stated.Package],
        Fact.WaterAdded water => [water.Package],
        Fact.PackageRemoved removed => [removed.Package],
        Fact.Decided decided => [decided.Package],
        Fact.PhotoKept photo => [photo.Package],
        Fact.PhotoMarked marked => [marked.Package],
        _ => [],
    };

    private static string Seen(Fact.PackageLooked looked, Func<string, string> units)
    {
        List<string> words = [.. looked.Findings.Select(finding => CodeWords.Of(finding).Replace('-', ' '))];
        if (looked.Bulge is { } height)
            words.Add($"dome {units(Number(height.Millimetres) + " mm")}");
        if (looked.Feel is { } feel)
            words.Add($"leaf {CodeWords.Of(feel).Replace('-', ' ')}");
        return words.Count == 0 ? "nothing said" : string.Join(", ", words);
    }

    private static string Many(IReadOnlyList<PackageId> ids) => ids.Count switch
    {
        1 => ids[0].ToString(),
        <= 4 => string.Join(", ", ids),
        _ => string.Create(CultureInfo.InvariantCulture, $"{ids.Count} packages ({ids[0]} … {ids[^1]})"),
    };

    private static string NumberOf(Cellar cellar, Guid id) =>
        cellar.Lines.FirstOrDefault(line => line.Event.Id == id)?.Event.Version.ToString(CultureInfo.InvariantCulture) ?? "?";

    private static string Grams(Mass mass) => Number(mass.Grams) + " g";

    private static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    private static string Tail(string? text, string lead) => string.IsNullOrWhiteSpace(text) ? "" : lead + text.TrimEnd('.');
}
