using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger;

/// <summary>The IDs that a fact speaks of and that must have been brought into the world before.</summary>
public static class Mentioned
{
    internal static IEnumerable<ShortId> By(Fact fact) => fact switch
    {
        Fact.PlaceAdded { Inside: { } inside } => [inside.Id],
        Fact.ClimateStated climate => [climate.Place.Id],
        Fact.OutdoorsStated outdoors => [outdoors.Place.Id],
        Fact.AltitudeStated altitude => [altitude.Place.Id],
        Fact.ReadingsImported readings => [readings.Place.Id],
        Fact.HygrometerChecked sensor => [sensor.Place.Id],
        Fact.LotValued valued => [valued.Lot.Id],
        Fact.PackagesAdded { Place: { } place } added => [added.Lot.Id, place.Id],
        Fact.PackagesAdded added => [added.Lot.Id],
        Fact.PackageMoved moved => [moved.Package.Id, moved.Place.Id],
        Fact.PaceStated { Package: { } package } => [package.Id],
        Fact.Noted { About: { } about } => [about],
        Fact.EventCorrected corrected => By(corrected.Replacement),
        _ => PackageOf(fact) is { } package ? [package.Id] : [],
    };

    /// <summary>The one package to which it happened; null where it is about something else.</summary>
    public static PackageId? PackageOf(Fact fact) => fact switch
    {
        Fact.PackageWeighed one => one.Package,
        Fact.HumidityRead one => one.Package,
        Fact.PackageLooked one => one.Package,
        Fact.PackageOpened one => one.Package,
        Fact.PackageClosed one => one.Package,
        Fact.LeafTaken one => one.Package,
        Fact.PackageMoved one => one.Package,
        Fact.PackageRepacked one => one.Package,
        Fact.ContainerStated one => one.Package,
        Fact.WaterAdded one => one.Package,
        Fact.PackageRemoved one => one.Package,
        Fact.PaceStated one => one.Package,
        Fact.Decided one => one.Package,
        Fact.PhotoKept one => one.Package,
        Fact.PhotoMarked one => one.Package,
        Fact.CellarCreated or Fact.PlaceAdded or Fact.ClimateStated or Fact.LotAdded or Fact.PackagesAdded or Fact.Noted or Fact.EventCorrected or Fact.EventUndone
            or Fact.SheetImported or Fact.RowDoubted or Fact.ReadingsImported or Fact.HygrometerChecked or Fact.RowAnswered
            or Fact.FilmDescribed or Fact.ContainerDescribed or Fact.RuleSwitched or Fact.OutdoorsStated or Fact.AltitudeStated or Fact.LotValued => null,
        _ => throw new InvalidOperationException($"Nobody said which package {fact.Type} is about."),
    };
}
