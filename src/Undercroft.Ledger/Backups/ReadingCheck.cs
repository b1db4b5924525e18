using System.Globalization;
using Microsoft.Data.Sqlite;
using Undercroft.Ledger.Events;
using Undercroft.Ledger.Readings;
using Undercroft.Ledger.Sqlite;

namespace Undercroft.Ledger.Backups;

/// <summary>Holds the readings in a file against the lines that tell of them.</summary>
internal static class ReadingCheck
{
    /// <summary>Checks every batch and counts the readings in force.</summary>
    internal static long Of(ReadingTable table, List<CellarEvent> events, Cellar? cellar, List<string> problems)
    {
        var there = table.Batches().ToHashSet();
        HashSet<Guid> sound = [];
        foreach (var line in events)
        {
            if (line.Fact is not Fact.ReadingsImported told)
                continue;
            var name = string.Create(CultureInfo.InvariantCulture, $"Line {line.Version}: the readings of {told.File}");
            if (!there.Remove(told.Batch))
                problems.Add($"{name} are missing.");
            else if (Fault(table, told) is { } fault)
                problems.Add($"{name} {fault}");
            else
                sound.Add(told.Batch);
        }

        foreach (var stray in there)
            problems.Add($"No line tells of the readings of batch {stray}.");
        return cellar is null ? 0 : InForce(table, cellar, sound);
    }

    private static string? Fault(ReadingTable table, Fact.ReadingsImported told)
    {
        try
        {
            var seal = table.SealOf(told.Batch, out var count);
            if (count != told.Count)
                return string.Create(CultureInfo.InvariantCulture, $"are {count}, not {told.Count}: some are missing or came from elsewhere.");
            return seal == told.Sha256 ? null : "do not fit their digest. They were changed after they were written.";
        }
        catch (Exception broken) when (broken is SqliteException or ArgumentOutOfRangeException or InvalidDataException)
        {
            return $"cannot be read through: {broken.Message}";
        }
    }

    private static long InForce(ReadingTable table, Cellar cellar, HashSet<Guid> sound)
    {
        var count = 0L;
        foreach (var place in cellar.Places.Keys)
        {
            foreach (var series in cellar.SeriesAt(place))
            {
                var span = cellar.ReadingsOf(place, series);
                span = span with { Parts = [.. span.Parts.Where(part => sound.Contains(part.Batch))] };
                ReadingPart[] ordered = [.. span.Parts.OrderBy(part => part.FirstUtc)];
                var apart = ordered.Zip(ordered.Skip(1)).All(pair => pair.First.LastUtc < pair.Second.FirstUtc);
                count += apart ? ordered.Sum(part => part.Count) : table.Merged(span).LongCount();
            }
        }

        return count;
    }
}
