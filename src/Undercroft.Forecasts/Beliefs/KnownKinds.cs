using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Forecasts.Beliefs;

/// <summary>The container kinds that a cellar knows: those of the catalogue and the keeper's own.</summary>
public static class KnownKinds
{
    /// <summary>The kind of a code, or null.</summary>
    public static ContainerKind? Find(Cellar cellar, string code) => ContainerKinds.Find(code);

    /// <summary>The kind of a code.</summary>
    /// <exception cref="Refusal">There is none; the message names the nearest.</exception>
    public static ContainerKind Get(Cellar cellar, string code)
    {
        ArgumentNullException.ThrowIfNull(code);
        return Find(cellar, code) ?? throw new Refusal($"No container kind is called '{code}'. Nearest: {string.Join(", ", ContainerKinds.Nearest(code))}.");
    }
}
