namespace Undercroft.Shell.Web;

/// <summary>What the pages are grouped by; the first line of the navigation, in this order.</summary>
public enum PageGroup
{
    /// <summary>What wants doing: due list, round, calendar.</summary>
    Week,

    /// <summary>What there is: packages, lots, places, totals.</summary>
    Cellar,

    /// <summary>What would be: questions, comparison, calculators, and what they rest on.</summary>
    Ask,

    /// <summary>What was written: history, doubts, sheets, paper, backup.</summary>
    Records,

    /// <summary>Who may come in, and how things are shown to them.</summary>
    Access,
}

/// <summary>A page in the navigation. The rooms of the program each bring their own; none knows the others.</summary>
/// <param name="Group">The word of the first line under which it stands.</param>
/// <param name="Order">Smaller stands earlier; the first of a group is where the group's word leads.</param>
/// <param name="Address">Such as <c>/places</c>; pages below it count as it.</param>
/// <param name="Word">One or two words.</param>
public sealed record PageEntry(PageGroup Group, int Order, string Address, string Word)
{
    /// <summary>The entry that a path belongs to: the longest address that it equals or lies below; null where none does.</summary>
    public static PageEntry? Of(IEnumerable<PageEntry> entries, string path)
    {
        ArgumentNullException.ThrowIfNull(entries);
        return entries.Where(entry => entry.Holds(path)).MaxBy(entry => entry.Address.Length);
    }

    private bool Holds(string path) => path == Address || (Address.Length > 1 && path.StartsWith(Address + "/", StringComparison.Ordinal));
}

/// <summary>A line at the foot of every page that should always be in view, such as how the backup stands.</summary>
/// <param name="Order">Smaller stands earlier.</param>
/// <param name="Component">Takes no parameters; may inject <see cref="Desk"/>.</param>
public sealed record FootLine(int Order, Type Component);
