using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Keeping;

/// <summary>Catalogue entries by the code a person types.</summary>
public static class Kinds
{
    /// <summary>A container kind.</summary>
    /// <exception cref="Refusal">No such code; the message names the nearest.</exception>
    public static ContainerKind Container(string code) => ContainerKinds.Find(code.Trim())
        ?? throw new Refusal($"No container kind is called '{code}'. Nearest: {string.Join(", ", ContainerKinds.Nearest(code))}. Leave it out if you do not know.");

    /// <summary>The volume of a container kind, or null where the catalogue does not know it.</summary>
    public static Volume? Capacity(string code) => ContainerKinds.Find(code)?.Capacity;

    /// <summary>A leaf kind.</summary>
    /// <exception cref="Refusal">No such code; the message names the nearest.</exception>
    public static LeafKind Leaf(string code) => LeafKinds.Find(code.Trim())
        ?? throw new Refusal($"No leaf kind is called '{code}'. Nearest: {string.Join(", ", LeafKinds.Nearest(code))}. Leave it out if you do not know.");
}
