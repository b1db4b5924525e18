using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Beliefs;

/// <summary>What a package is expected to be packed in.</summary>
/// <param name="Kinds">One kind where it is known; else the kinds it might be, one draw each in turn.</param>
/// <param name="OwnCapacity">Measured or printed volume; null where the kind's serves.</param>
public sealed record ContainerBelief(IReadOnlyList<ContainerKind> Kinds, Volume? OwnCapacity)
{
    /// <summary>What an unknown container may be: from tight to loose (assumption: each as likely).</summary>
    private static readonly string[] Candidates = ["jar-237", "tin-pull-50", "pouch-vacuum", "bag-zip"];

    /// <summary>True where nobody said what it is.</summary>
    public bool IsUnknown => Kinds.Count > 1;

    /// <summary>Of a container as the ledger tells it.</summary>
    /// <param name="cellar">Knows the keeper's own kinds.</param>
    /// <param name="container">Which.</param>
    public static ContainerBelief Of(Cellar cellar, Container container)
    {
        ArgumentNullException.ThrowIfNull(container);
        return new(
            container.Kind is { } code && KnownKinds.Find(cellar, code) is { } kind ? [kind] : [.. Candidates.Select(ContainerKinds.Find).OfType<ContainerKind>()],
            container.Capacity.Mid);
    }

    /// <summary>The kind of one draw.</summary>
    public ContainerKind Of(int draw) => Kinds[draw % Kinds.Count];

    /// <summary>Its inner volume in one draw.</summary>
    public Volume Capacity(int draw) => OwnCapacity ?? Of(draw).Capacity;
}
