using System.Text.Json.Serialization;

namespace Undercroft.Ledger.Events;

/// <summary>
/// What can happen in a cellar: a closed list. Facts are as observed, in SI units, with the words as entered where there were any; nothing computed is stored.
/// </summary>
/// <remarks>
/// The registered name and version of each fact stand here and nowhere else; they are stored for decades and never change. A changed fact is a new case with the next version,
/// and the old one stays readable. To add one: a nested record, a line here, an arm of the fold in <see cref="Cellar"/>, a line in the snapshot test.
/// </remarks>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "type")]
[JsonDerivedType(typeof(CellarCreated), "cellar-created/1")]
[JsonDerivedType(typeof(PlaceAdded), "place-added/1")]
[JsonDerivedType(typeof(ClimateStated), "climate-stated/1")]
[JsonDerivedType(typeof(LotAdded), "lot-added/1")]
[JsonDerivedType(typeof(PackagesAdded), "packages-added/1")]
[JsonDerivedType(typeof(PackageWeighed), "package-weighed/1")]
[JsonDerivedType(typeof(HumidityRead), "humidity-read/1")]
[JsonDerivedType(typeof(PackageLooked), "package-looked/1")]
[JsonDerivedType(typeof(PackageOpened), "package-opened/1")]
[JsonDerivedType(typeof(PackageClosed), "package-closed/1")]
[JsonDerivedType(typeof(LeafTaken), "leaf-taken/1")]
[JsonDerivedType(typeof(PackageMoved), "package-moved/1")]
[JsonDerivedType(typeof(PackageRepacked), "package-repacked/1")]
[JsonDerivedType(typeof(WaterAdded), "water-added/1")]
[JsonDerivedType(typeof(PackageRemoved), "package-removed/1")]
[JsonDerivedType(typeof(PaceStated), "pace-stated/1")]
[JsonDerivedType(typeof(Noted), "noted/1")]
[JsonDerivedType(typeof(EventCorrected), "event-corrected/1")]
[JsonDerivedType(typeof(EventUndone), "event-undone/1")]
[JsonDerivedType(typeof(SheetImported), "sheet-imported/1")]
[JsonDerivedType(typeof(RowDoubted), "row-doubted/1")]
[JsonDerivedType(typeof(ContainerStated), "container-stated/1")]
[JsonDerivedType(typeof(ReadingsImported), "readings-imported/1")]
[JsonDerivedType(typeof(HygrometerChecked), "hygrometer-checked/1")]
[JsonDerivedType(typeof(RowAnswered), "row-answered/1")]
[JsonDerivedType(typeof(Decided), "decided/1")]
[JsonDerivedType(typeof(PhotoKept), "photo-kept/1")]
[JsonDerivedType(typeof(PhotoMarked), "photo-marked/1")]
[JsonDerivedType(typeof(FilmDescribed), "film-described/1")]
[JsonDerivedType(typeof(ContainerDescribed), "container-described/1")]
[JsonDerivedType(typeof(RuleSwitched), "rule-switched/1")]
[JsonDerivedType(typeof(OutdoorsStated), "outdoors-stated/1")]
[JsonDerivedType(typeof(AltitudeStated), "altitude-stated/1")]
[JsonDerivedType(typeof(LotValued), "lot-valued/1")]
public abstract partial record Fact
{
    private Fact()
    {
    }

    /// <summary>The registered name with its version, such as <c>package-weighed/1</c>.</summary>
    [JsonIgnore]
    public string Type => FactNames.Of(GetType());
}
