using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Forecasting;

/// <summary>How far a page looks ahead. Nobody keeps leaf in a bag for decades: over thirty years its answer would drown in seasons.</summary>
internal static class Horizon
{
    private const double Bag = 2;
    private const double Other = 30;

    /// <summary>Years for a package as it stands.</summary>
    internal static double Of(Cellar cellar, Package package) => package.IsOpen ? Bag : Of(package.Container.Kind is { } code ? KnownKinds.Find(cellar, code) : null);

    /// <summary>Years for a container kind, the keeper's own ones among them; null where nobody knows which.</summary>
    internal static double Of(ContainerKind? kind) => kind?.Vessel == Vessel.Bag ? Bag : Other;
}
