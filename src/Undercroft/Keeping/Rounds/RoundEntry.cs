using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Undercroft.Keeping.Measuring;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Keeping.Rounds;

/// <summary>What a person wrote down of one package on a round; every part but its code may be missing.</summary>
/// <param name="Key">Given where it was written; the same key written twice is one entry, however often it is sent.</param>
/// <param name="Id">The package's code.</param>
/// <param name="AllWell">True where nothing was wrong.</param>
/// <param name="Findings">Words of the list, such as <c>lid-loose</c>.</param>
/// <param name="Gross">Such as <c>412.3g</c>; a bare number is grams.</param>
/// <param name="Humidity">Such as <c>62%</c>; a bare number is percent.</param>
/// <param name="Bulge">Such as <c>4mm</c>; a bare number is millimetres.</param>
/// <param name="Note">In words.</param>
/// <param name="On">The day, as ISO 8601; null for today. An entry that waited for a signal says when it was written.</param>
public sealed record RoundEntry(
    Guid Key, string Id, bool AllWell = false, IReadOnlyList<string>? Findings = null, string? Gross = null, string? Humidity = null, string? Bulge = null, string? Note = null, string? On = null)
{
    /// <summary>Nothing was said.</summary>
    public bool IsBlank => !AllWell && Findings is null or { Count: 0 } && Blank(Gross) && Blank(Humidity) && Blank(Bulge) && Blank(Note);

    private static bool Blank(string? text) => string.IsNullOrWhiteSpace(text);

    /// <summary>The facts of it, in their order.</summary>
    /// <exception cref="Refusal">Nothing was said, or something that cannot be read.</exception>
    public IReadOnlyList<Said> Lines(Package package, Present present)
    {
        ArgumentNullException.ThrowIfNull(package);
        ArgumentNullException.ThrowIfNull(present);
        if (IsBlank)
            throw new Refusal($"Nothing was written down for {package.Id}. Say that all is well, or what you see, or go on to the next.");
        var on = DayHere(On, present);
        List<Said> lines = [];
        if (!Blank(Gross))
            lines.Add(Measure.Weighed(package, present, Visit.WithUnit(Gross, "g")!, on: on));
        if (!Blank(Humidity))
            lines.Add(Measure.Humidity(package, present, Visit.WithUnit(Humidity, "%")!, on: on));
        var findings = (Findings ?? []).Where(word => !Blank(word)).ToArray();
        if (AllWell || findings.Length > 0 || !Blank(Bulge) || !Blank(Note))
        {
            if (AllWell && (findings.Length > 0 || !Blank(Bulge)))
                throw new Refusal($"{package.Id}: all well and something seen contradict each other. Leave one of them out.");
            lines.Add(AllWell || findings.Length > 0 || !Blank(Bulge)
                ? Measure.Looked(package, present, findings, Blank(Bulge) ? null : Visit.WithUnit(Bulge, "mm"), on: on, note: Blank(Note) ? null : Note!.Trim())
                : new(new Fact.Noted(Note!.Trim(), package.Id.Id), present.When(on)));
        }

        return lines;
    }

    /// <summary>The day as it is here; null for today. A phone in a zone to the east may write tomorrow's date: that is today here.</summary>
    internal static string? DayHere(string? on, Present present) =>
        Blank(on) || (DateOnly.TryParseExact(on, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) && day == present.Today.AddDays(1)) ? null : on;

    /// <summary>The identifier of its n-th line: the same key always gives the same ones.</summary>
    internal Guid LineId(int n)
    {
        if (n == 0)
            return Key;
        var digest = SHA256.HashData(Encoding.ASCII.GetBytes($"{Key:N}/{n.ToString(CultureInfo.InvariantCulture)}"))[..16];
        digest[6] = (byte)((digest[6] & 0x0F) | 0x80); // RFC 9562, version 8: made from a digest
        digest[8] = (byte)((digest[8] & 0x3F) | 0x80);
        return new Guid(digest, bigEndian: true);
    }
}

/// <summary>What became of an entry.</summary>
/// <param name="Key">Which.</param>
/// <param name="Done">True where it is in the ledger, now or from before.</param>
/// <param name="Line">Its first line; taking it back takes all of the entry back.</param>
/// <param name="Refused">Why it was not written.</param>
public sealed record RoundKept(Guid Key, bool Done, long? Line, string? Refused);

/// <summary>Writes what a round found.</summary>
/// <param name="cellars">Where.</param>
/// <param name="presentOf">The present.</param>
public sealed class RoundWriting(ICellars cellars, Func<Cellar, Present> presentOf)
{
    /// <summary>Writes one entry, all of it or none; one that is in the ledger already is left as it is.</summary>
    /// <exception cref="Refusal">It cannot be written.</exception>
    public async ValueTask<RoundKept> Of(RoundEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        if (entry.Key == Guid.Empty)
            throw new Refusal("An entry needs a key of its own.");
        var change = await cellars.ChangeAsync(cellar => cellar.Lines.Any(line => line.Event.Id == entry.Key) ? [] : Recording.Checked(cellar, [.. Written(cellar, entry, null)]));
        return new(entry.Key, true, change.After.Lines.First(line => line.Event.Id == entry.Key).Event.Version, null);
    }

    /// <summary>Writes entries one by one; one that is refused does not hold up the others.</summary>
    public async ValueTask<IReadOnlyList<RoundKept>> Each(IReadOnlyList<RoundEntry> entries)
    {
        ArgumentNullException.ThrowIfNull(entries);
        List<RoundKept> kept = [];
        foreach (var entry in entries)
        {
            try
            {
                kept.Add(await Of(entry));
            }
            catch (Refusal refusal)
            {
                kept.Add(new(entry.Key, false, null, refusal.Message));
            }
        }

        return kept;
    }

    /// <summary>Writes several entries, all or none, under one first line that takes them all back.</summary>
    /// <exception cref="Refusal">One of them cannot be written.</exception>
    public async ValueTask<Change> Together(IReadOnlyList<RoundEntry> entries)
    {
        ArgumentNullException.ThrowIfNull(entries);
        return await cellars.ChangeAsync(cellar =>
        {
            List<CellarEvent> lines = [];
            foreach (var entry in entries)
                lines.AddRange(Written(cellar, entry, lines.FirstOrDefault()?.Id));
            return Recording.Checked(cellar, [.. lines]);
        });
    }

    private IEnumerable<CellarEvent> Written(Cellar cellar, RoundEntry entry, Guid? cause)
    {
        var present = presentOf(cellar);
        var n = 0;
        foreach (var said in entry.Lines(cellar.FindPackage(entry.Id), present))
        {
            yield return new CellarEvent(0, entry.LineId(n), said.Happened, present.Now.ToUniversalTime(), said.Fact, null, cause ?? (n > 0 ? entry.Key : null));
            n++;
        }
    }
}
