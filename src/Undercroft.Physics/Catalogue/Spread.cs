namespace Undercroft.Physics.Catalogue;

/// <summary>A log-sd in two parts: what all specimens of a kind share, and what each has of its own.</summary>
/// <param name="Own">Of one specimen about its kind.</param>
/// <param name="Shared">Of the kind.</param>
/// <remarks>The parts add as squares. Data-sheet doubt is mostly shared (all jars have the same lid compound), workmanship mostly own; the split itself is an assumption.</remarks>
public readonly record struct Spread(double Own, double Shared)
{
    /// <summary>Total log-sd.</summary>
    public double Total => Math.Sqrt((Own * Own) + (Shared * Shared));

    /// <summary>Film with good data: 0.3, a factor of 1.35.</summary>
    public static Spread GoodFilm { get; } = OfTotal(0.3, 0.5);

    /// <summary>Film with poor data: 0.7, a factor of 2.</summary>
    public static Spread PoorFilm { get; } = OfTotal(0.7, 0.5);

    /// <summary>Closure without published data: 1.2, a factor of 3.3.</summary>
    public static Spread Closure { get; } = OfTotal(1.2, 0.5);

    /// <summary>Splits a total.</summary>
    /// <param name="total">Log-sd.</param>
    /// <param name="ownShare">Own part over total, 0 to 1; by variance the rest is shared.</param>
    public static Spread OfTotal(double total, double ownShare) => new(total * ownShare, total * Math.Sqrt(1 - (ownShare * ownShare)));
}
