using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger;

/// <summary>Something in the records that is probably not so. It is kept as written and never refused; a person decides.</summary>
/// <param name="About">The package or lot.</param>
/// <param name="Event">The event that raised it.</param>
/// <param name="Kind">A stable word for programs, such as <c>weight-rose</c>.</param>
/// <param name="Reason">What is odd and what to look at, for people.</param>
public sealed record Doubt(ShortId About, Guid Event, string Kind, string Reason);
