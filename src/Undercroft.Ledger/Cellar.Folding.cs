using System.Runtime.CompilerServices;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Ids;
using Undercroft.Ledger.Readings;

namespace Undercroft.Ledger;

public sealed partial record Cellar
{
    /// <summary>One run over the ledger.</summary>
    private sealed class Folding
    {
        private readonly DateOnly? asOf;
        private readonly LedgerLine[] lines;
        private readonly Dictionary<PlaceId, Place> places = [];
        private readonly Dictionary<LotId, Lot> lots = [];
        private readonly Dictionary<LotId, List<PackageId>> packagesOf = [];
        private readonly Dictionary<PackageId, Draft> packages = [];
        private readonly Dictionary<PackageId, Fact.PaceStated> paces = [];
        private readonly Dictionary<ShortId, List<TimelineEntry>> notes = [];
        private readonly List<TimelineEntry> cellarNotes = [];
        private readonly List<Timed<Fact.RowDoubted>> rows = [];
        private readonly List<Timed<Fact.RowAnswered>> answers = [];
        private readonly Dictionary<string, Fact.FilmDescribed> films = new(StringComparer.OrdinalIgnoreCase);
        private readonly Dictionary<string, Fact.ContainerDescribed> containers = new(StringComparer.OrdinalIgnoreCase);
        private readonly HashSet<string> rulesOff = new(StringComparer.OrdinalIgnoreCase);
        private readonly List<Timed<Fact.SheetImported>> imports = [];
        private readonly List<Timed<Fact.ReadingsImported>> readings = [];
        private readonly List<Timed<Fact.HygrometerChecked>> checks = [];
        private Fact.CellarCreated? created;
        private Fact.PaceStated? pace;

        internal Folding(LedgerLine[] lines, DateOnly? asOf)
        {
            this.lines = lines;
            this.asOf = asOf;
            foreach (var line in InTime(lines))
                Apply(line);
        }

        /// <summary>A run over one package of a cellar that is known.</summary>
        private Folding(Cellar known, Package package, List<LedgerLine> history)
        {
            lines = [];
            foreach (var place in known.Places.Values)
                places.Add(place.Id, place);
            packages.Add(package.Id, new Draft(package.Id, (Fact.PackagesAdded)package.Timeline[0].Fact, package.Timeline[0], package.Since, known.Lots[package.Lot].Made));
            foreach (var line in InTime(history))
                Apply(line);
        }

        /// <summary>A package by all lines about it but the one that added it, earlier ones and fresh ones.</summary>
        internal static Package Again(Cellar known, Package package, List<LedgerLine> history) => new Folding(known, package, history).packages[package.Id].Done();

        internal Cellar Done()
        {
            var here = packages.Values.Where(draft => asOf is not { } day || draft.Since <= day).Select(draft => draft.Done()).ToDictionary(package => package.Id);
            HashSet<ShortId> used = [];
            foreach (var line in lines)
                Introduced.AddTo(used, line.Event.Fact);
            return new Cellar(used)
            {
                Version = lines.Length == 0 ? 0 : lines[^1].Event.Version,
                Name = created?.Name,
                IsDemo = created?.Demo ?? false,
                DemoDay = created?.DemoDay,
                Places = places.ToDictionary(pair => pair.Key, pair => pair.Value with { Notes = NotesOn(pair.Key.Id) }),
                Lots = lots.ToDictionary(pair => pair.Key, pair => pair.Value with
                {
                    Packages = [.. packagesOf[pair.Key].Where(here.ContainsKey)],
                    Notes = NotesOn(pair.Key.Id),
                }),
                Packages = here,
                DoubtfulRows = rows,
                RowAnswers = answers,
                Imports = imports,
                Readings = readings,
                HygrometerChecks = checks,
                LastSecond = asOf is { } end ? new DateTimeOffset(end, new TimeOnly(23, 59, 59), TimeSpan.Zero).ToUnixTimeSeconds() : Reading.Latest,
                Notes = cellarNotes,
                Pace = pace,
                OwnFilms = films,
                OwnContainers = containers,
                RulesOff = rulesOff,
                Paces = paces,
                Lines = lines,
                Amended = [.. lines.Where(line => !line.Holds || line.Event.Fact is Fact.EventCorrected)],
                NextCounter = used.Select(id => id.Counter + 1).DefaultIfEmpty(0).Max(),
            };
        }

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        private void Apply(LedgerLine line)
        {
            var entry = Entry(line);
            if (asOf is { } day && line.Day > day && line.Fact is not (Fact.CellarCreated or Fact.PlaceAdded or Fact.LotAdded or Fact.PackagesAdded or Fact.ReadingsImported or Fact.FilmDescribed or Fact.ContainerDescribed))
                return;
            switch (line.Fact)
            {
                case Fact.CellarCreated fact: created = fact; break;
                case Fact.PlaceAdded fact: Add(fact, entry); break;
                case Fact.ClimateStated fact: places[fact.Place] = Known(places, fact.Place, line) with { Climate = fact.Climate }; break;
                case Fact.OutdoorsStated fact: places[fact.Place] = Known(places, fact.Place, line) with { Outdoors = fact }; break;
                case Fact.AltitudeStated fact: places[fact.Place] = Known(places, fact.Place, line) with { Altitude = fact.Altitude }; break;
                case Fact.LotAdded fact: Add(fact, entry); break;
                case Fact.LotValued fact:
                    var lot = Known(lots, fact.Lot, line);
                    lots[fact.Lot] = lot with { Replace = fact.Replace ?? lot.Replace, Sale = fact.Sale ?? lot.Sale };
                    break;
                case Fact.PackagesAdded fact: Add(fact, line, entry); break;
                case Fact.PackageWeighed fact: Of(fact.Package, line).Weighed(fact, entry); break;
                case Fact.HumidityRead fact: Of(fact.Package, line).Note(entry); break;
                case Fact.PackageLooked fact: Of(fact.Package, line).Note(entry); break;
                case Fact.Decided fact: Of(fact.Package, line).Note(entry); break;
                case Fact.PhotoKept fact: Of(fact.Package, line).Note(entry); break;
                case Fact.PhotoMarked fact: Of(fact.Package, line).Note(entry); break;
                case Fact.PackageOpened fact: Of(fact.Package, line).Opened(entry); break;
                case Fact.PackageClosed fact: Of(fact.Package, line).Closed(entry); break;
                case Fact.LeafTaken fact: Of(fact.Package, line).Taken(fact, entry); break;
                case Fact.PackageMoved fact: Of(fact.Package, line).Moved(Known(places, fact.Place, line).Id, entry); break;
                case Fact.PackageRepacked fact: Of(fact.Package, line).Repacked(fact, entry); break;
                case Fact.ContainerStated fact: Of(fact.Package, line).Described(fact, entry); break;
                case Fact.WaterAdded fact: Of(fact.Package, line).Watered(fact, entry); break;
                case Fact.PackageRemoved fact: Of(fact.Package, line).Removed(fact, entry); break;
                case Fact.PaceStated { Package: { } package } fact:
                    Of(package, line).Note(entry);
                    paces[package] = fact;
                    break;
                case Fact.PaceStated fact: pace = fact; break;
                case Fact.Noted fact: Add(fact, entry); break;
                case Fact.EventCorrected or Fact.EventUndone: break; // resolved before
                case Fact.SheetImported fact: imports.Add(new(entry, fact)); break;
                case Fact.ReadingsImported fact:
                    _ = Known(places, fact.Place, line);
                    readings.Add(new(entry, fact));
                    break;
                case Fact.HygrometerChecked fact:
                    _ = Known(places, fact.Place, line);
                    checks.Add(new(entry, fact));
                    break;
                case Fact.RowDoubted fact: rows.Add(new(entry, fact)); break;
                case Fact.RowAnswered fact: answers.Add(new(entry, fact)); break;
                case Fact.FilmDescribed fact: films[fact.Code] = fact; break;
                case Fact.ContainerDescribed fact: containers[fact.Code] = fact; break;
                case Fact.RuleSwitched { On: true } fact: rulesOff.Remove(fact.Rule); break;
                case Fact.RuleSwitched fact: rulesOff.Add(fact.Rule); break;
                default: throw new InvalidOperationException($"The fold does not know {line.Fact.Type}.");
            }
        }

        private void Add(Fact.PlaceAdded fact, TimelineEntry entry) => places[fact.Place] = new Place
        {
            Id = fact.Place,
            Name = fact.Name,
            Inside = fact.Inside,
            RoomKind = fact.RoomKind,
            Altitude = fact.Altitude,
            Climate = fact.Climate,
            AddedBy = entry.Event,
        };

        private void Add(Fact.LotAdded fact, TimelineEntry entry)
        {
            lots[fact.Lot] = new Lot
            {
                Id = fact.Lot,
                Blend = fact.Blend,
                Made = fact.Made,
                Net = fact.Net,
                Paid = fact.Paid,
                Source = fact.Source,
                Text = fact.Text,
                AddedBy = entry.Event,
            };
            packagesOf[fact.Lot] = [];
        }

        private void Add(Fact.PackagesAdded fact, LedgerLine line, TimelineEntry entry)
        {
            var lot = Known(lots, fact.Lot, line);
            foreach (var id in fact.Packages)
            {
                packages[id] = new Draft(id, fact, entry with { Day = SealingDay(fact, lot, line) }, PresenceDay(fact, lot, line), lot.Made);
                packagesOf[fact.Lot].Add(id);
            }
        }

        private void Add(Fact.Noted fact, TimelineEntry entry)
        {
            if (fact.About is not { } about)
                cellarNotes.Add(entry);
            else if (packages.TryGetValue(new PackageId(about), out var package))
                package.Note(entry);
            else if (notes.TryGetValue(about, out var list))
                list.Add(entry);
            else
                notes[about] = [entry];
        }

        private List<TimelineEntry> NotesOn(ShortId id) => notes.TryGetValue(id, out var list) ? list : [];

        private Draft Of(PackageId id, LedgerLine line) => Known(packages, id, line);

        private static T Known<TKey, T>(Dictionary<TKey, T> all, TKey id, LedgerLine line) where TKey : notnull => all.TryGetValue(id, out var one)
            ? one
            : throw new InvalidDataException($"{LineName.Of(line)} speaks of {id}, which no line before it added.");
    }
}
