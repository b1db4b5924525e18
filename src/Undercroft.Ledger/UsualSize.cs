using Undercroft.Physics.Quantities;

namespace Undercroft.Ledger;

/// <summary>How large and heavy a container kind usually is; null where nobody knows.</summary>
/// <param name="Capacity">Inner volume.</param>
/// <param name="Tare">Empty, with its closure.</param>
/// <param name="Flexible">True for bags and pouches, which come in all sizes.</param>
public readonly record struct UsualSize(Volume? Capacity, Mass? Tare, bool Flexible = false);
