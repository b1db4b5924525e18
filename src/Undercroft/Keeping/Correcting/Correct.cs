using Undercroft.Keeping.Adding;
using Undercroft.Keeping.Measuring;
using Undercroft.Ledger;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;
using Undercroft.Ledger.Events;
using Undercroft.Shell;

namespace Undercroft.Keeping.Correcting;

/// <summary>What should have been written instead; null leaves a part as it stands.</summary>
public sealed record Correction(
    string? On = null, string? Mass = null, string? Humidity = null, string? Net = null, string? Gross = null, string? Tare = null, string? Moisture = null,
    string? Container = null, string? Made = null, string? Sealed = null, string? Place = null, string? Blend = null, string? Leaf = null, string? Cut = null,
    string? Paid = null, string? Note = null, string? Room = null, string? Holds = null,
    string? Findings = null, string? Bulge = null, string? Feel = null);

/// <summary>Corrects a line of the ledger by a new line that says how it should have read.</summary>
public static class Correct
{
    /// <summary>Writes the correction.</summary>
    /// <param name="cellars">Where.</param>
    /// <param name="line">Number of the line.</param>
    /// <param name="correction">What changes.</param>
    /// <param name="presentOf">The present for the cellar as read.</param>
    /// <exception cref="Refusal">No such line, or a part that it does not have.</exception>
    public static async ValueTask<Change> Line(ICellars cellars, string line, Correction correction, Func<Cellar, Present> presentOf)
    {
        ArgumentNullException.ThrowIfNull(cellars);
        return await cellars.ChangeAsync(cellar =>
        {
            var present = presentOf(cellar);
            var was = Lines.Find(cellar, line);
            var replacement = Replaced(was.Fact, correction, cellar, present);
            var on = correction.On is null ? UnevenDate.Unknown : present.When(correction.On);
            if (replacement == was.Fact && correction.On is null)
                throw new Refusal("Nothing would change: say what should read differently.");
            var fact = new Fact.EventCorrected(was.Event.Id, replacement, correction.On is not null, on, correction.Note);
            return Recording.Checked(cellar, CellarEvent.New(fact, UnevenDate.On(present.Today), present.Now));
        });
    }

    private static Fact Replaced(Fact fact, Correction say, Cellar cellar, Present present) => fact switch
    {
        Fact.PackageWeighed weighed when Only(say, say.Mass) =>
            say.Mass is null ? weighed : weighed with { Mass = Measure.Mass(say.Mass), Text = say.Mass },
        Fact.HumidityRead read when Only(say, say.Humidity) =>
            say.Humidity is null ? read : read with { Humidity = Measure.Fraction(say.Humidity), Text = say.Humidity },
        Fact.PackageLooked looked when Only(say, say.Findings, say.Bulge, say.Feel) => Looked(looked, say),
        Fact.LeafTaken taken when Only(say, say.Mass) =>
            say.Mass is null ? taken : taken with { Mass = StatedMass.Parse(say.Mass, SaidBy.Weighed) },
        Fact.WaterAdded water when Only(say, say.Mass) =>
            say.Mass is null ? water : water with { Mass = StatedMass.Parse(say.Mass, SaidBy.Weighed) },
        Fact.PackageMoved moved when Only(say, say.Place) =>
            say.Place is null ? moved : moved with { Place = cellar.FindPlace(say.Place).Id },
        Fact.PackageRepacked repacked when Only(say, say.Net, say.Gross, say.Tare, say.Container) => repacked with
        {
            Container = ContainerOf(cellar, repacked.Container, say),
            Net = say.Net is null ? repacked.Net : StatedMass.Parse(say.Net, SaidBy.Weighed),
            Gross = say.Gross is null ? repacked.Gross : StatedMass.Parse(say.Gross, SaidBy.Weighed),
        },
        Fact.ContainerStated stated when Only(say, say.Holds, say.Tare, say.Container) => stated with
        {
            Container = ContainerOf(cellar, stated.Container, say) with { Capacity = say.Holds is null ? stated.Container.Capacity : StatedVolume.Parse(say.Holds, SaidBy.Weighed) },
        },
        Fact.PackagesAdded added when Only(say, say.Net, say.Gross, say.Tare, say.Container, say.Moisture, say.Sealed, say.Place) => added with
        {
            Container = ContainerOf(cellar, added.Container, say),
            Net = say.Net is null ? added.Net : StatedMass.Parse(say.Net, added.Net.By),
            Gross = say.Gross is null ? added.Gross : StatedMass.Parse(say.Gross, SaidBy.Weighed),
            Moisture = say.Moisture is null ? added.Moisture : StatedFraction.Parse(say.Moisture, added.Moisture.By),
            Sealed = say.Sealed is null ? added.Sealed : present.When(say.Sealed),
            Place = say.Place is null ? added.Place : cellar.FindPlace(say.Place).Id,
        },
        Fact.LotAdded lot when Only(say, say.Made, say.Blend, say.Leaf, say.Cut, say.Paid) => lot with
        {
            Made = say.Made is null ? lot.Made : present.When(say.Made),
            Paid = say.Paid is null ? lot.Paid : Money.Parse(say.Paid, SaidBy.Unstated),
            Blend = say.Blend is null && say.Leaf is null && say.Cut is null ? lot.Blend : new Blend(
                say.Blend ?? lot.Blend.Name, say.Leaf is null ? lot.Blend.Leaf : AddPackages.LeafOf(say.Leaf, SaidBy.Unstated), say.Cut ?? lot.Blend.Cut, lot.Blend.Casing),
        },
        Fact.PlaceAdded place when Only(say, say.Room) => place with { RoomKind = AddPlace.RoomOf(say.Room) ?? place.RoomKind },
        _ when Only(say) => fact,
        _ => throw new Refusal($"A line of the kind {fact.Type.Split('/')[0].Replace('-', ' ')} has no such part. Look at it with: undercroft history. Other parts may stand in the line before or after it."),
    };

    /// <summary>What was seen takes the place of all that was said to be seen; a height of a dome goes with its finding, and <c>unknown</c> takes a feel back.</summary>
    private static Fact.PackageLooked Looked(Fact.PackageLooked looked, Correction say)
    {
        var findings = say.Findings is null ? looked.Findings : Measure.Seen(say.Findings.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries), say.Bulge);
        if (say.Bulge is not null && !findings.Contains(Finding.Bulge))
            findings = [.. findings.Where(finding => finding != Finding.AllWell), Finding.Bulge];
        return looked with
        {
            Findings = findings.ToHashSet().SetEquals(looked.Findings) ? looked.Findings : findings,
            Bulge = say.Bulge is not null ? Measure.Dome(say.Bulge) : findings.Contains(Finding.Bulge) ? looked.Bulge : null,
            Feel = say.Feel is null ? looked.Feel : say.Feel == "unknown" ? null : Words.Of<Feel>(say.Feel),
        };
    }

    /// <summary>True where nothing but the named parts (and date and note, which every line has) is to change.</summary>
    private static bool Only(Correction say, params string?[] parts) =>
        new[]
        {
            say.Mass, say.Humidity, say.Net, say.Gross, say.Tare, say.Moisture, say.Container, say.Made, say.Sealed, say.Place, say.Blend, say.Leaf, say.Cut, say.Paid, say.Room, say.Holds, say.Findings,
            say.Bulge, say.Feel,
        }.Count(part => part is not null) == parts.Count(part => part is not null);

    private static Container ContainerOf(Cellar cellar, Container was, Correction say)
    {
        if (say.Container is null && say.Tare is null)
            return was;
        var read = AddPackages.ContainerOf(cellar, say.Container, say.Tare, SaidBy.Weighed);
        return was with { Kind = say.Container is null ? was.Kind : read.Kind, Tare = say.Tare is null ? was.Tare : read.Tare };
    }
}
