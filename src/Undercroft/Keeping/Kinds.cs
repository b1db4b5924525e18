using Undercroft.Forecasts.Beliefs;
using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;

namespace Undercroft.Keeping;

/// <summary>Catalogue entries and own kinds by the code a person types.</summary>
public static class Kinds
{
    /// <summary>A container kind.</summary>
    /// <exception cref="Refusal">No such code; the message names the nearest.</exception>
    public static ContainerKind Container(Cellar cellar, string code)
    {
        ArgumentNullException.ThrowIfNull(code);
        return KnownKinds.Find(cellar, code.Trim()) ?? throw new Refusal($"No container kind is called '{code}'. Nearest: {string.Join(", ", KnownKinds.NearestTo(cellar, code))}. Leave it out if you do not know.");
    }

    /// <summary>Says how large and heavy a container kind usually is.</summary>
    public static Func<string, UsualSize> SizesIn(Cellar cellar) => code => KnownKinds.Find(cellar, code) is { } kind ? new(kind.Capacity, kind.TypicalTare, kind.Flexible) : default;

    /// <summary>A leaf kind.</summary>
    /// <exception cref="Refusal">No such code; the message names the nearest.</exception>
    public static LeafKind Leaf(string code) => LeafKinds.Find(code.Trim())
        ?? throw new Refusal($"No leaf kind is called '{code}'. Nearest: {string.Join(", ", LeafKinds.Nearest(code))}. Leave it out if you do not know.");
}
