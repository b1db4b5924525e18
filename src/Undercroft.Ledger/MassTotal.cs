using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger;

/// <summary>Leaf in several packages, by the book.</summary>
/// <param name="Low">At least so much in those of which something is known.</param>
/// <param name="High">At most so much in those.</param>
/// <param name="Packages">How many there are.</param>
/// <param name="Unknown">Of them without any known mass: they are not in the sum, and not nothing.</param>
public sealed record MassTotal(Mass Low, Mass High, int Packages, int Unknown)
{
    /// <summary>The total of packages.</summary>
    public static MassTotal Of(IEnumerable<Package> packages)
    {
        ArgumentNullException.ThrowIfNull(packages);
        var (low, high, count, unknown) = (0.0, 0.0, 0, 0);
        foreach (var package in packages)
        {
            count++;
            if (package.BookNet is { Low: { } least, High: { } most })
                (low, high) = (low + least.Kilograms, high + most.Kilograms);
            else
                unknown++;
        }

        return new(new Mass(low), new Mass(high), count, unknown);
    }
}
