using System.Collections;
using System.Diagnostics.CodeAnalysis;
using Undercroft.Importing.Cells;

namespace Undercroft.Importing.Rows;

/// <summary>The dates of a row by what they are of: one place for each, since a long sheet has as many of these as rows.</summary>
public sealed class RowDates : IEnumerable<KeyValuePair<DateRole, Said<DateCell>>>
{
    private readonly Said<DateCell>?[] said = new Said<DateCell>?[(int)DateRole.Gone + 1];

    /// <summary>How many are known.</summary>
    public int Count => said.Count(one => one is not null);

    /// <summary>The date of a role that has one.</summary>
    public Said<DateCell> this[DateRole role]
    {
        get => said[(int)role] ?? throw new KeyNotFoundException($"No date is {role}.");
        set => said[(int)role] = value;
    }

    /// <summary>Takes a date where the role has none.</summary>
    public bool TryAdd(DateRole role, Said<DateCell> date)
    {
        if (said[(int)role] is not null)
            return false;
        said[(int)role] = date;
        return true;
    }

    /// <summary>The date of a role, if any.</summary>
    public bool TryGetValue(DateRole role, [NotNullWhen(true)] out Said<DateCell>? date) => (date = said[(int)role]) is not null;

    /// <summary>Leaves out the date of a role.</summary>
    public void Remove(DateRole role) => said[(int)role] = null;

    /// <inheritdoc/>
    public IEnumerator<KeyValuePair<DateRole, Said<DateCell>>> GetEnumerator()
    {
        for (var role = 0; role < said.Length; role++)
        {
            if (said[role] is { } date)
                yield return new((DateRole)role, date);
        }
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
