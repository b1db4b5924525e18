using Undercroft.Forecasts.Drawing;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;

namespace Undercroft.Forecasts.Beliefs;

/// <summary>What a package is expected to be packed in.</summary>
/// <param name="Kinds">One kind where it is known; else the kinds it might be, one draw each in turn.</param>
/// <param name="OwnCapacity">Measured or printed volume; null where the kind's serves.</param>
/// <param name="Family">The sort that was said without saying which; null where the kind is known, or nothing is.</param>
public sealed record ContainerBelief(IReadOnlyList<ContainerKind> Kinds, Volume? OwnCapacity, ContainerFamily? Family = null)
{
    /// <summary>What an unknown container may be: from tight to loose (assumption: each as likely).</summary>
    private static readonly string[] Candidates = ["jar-237", "tin-pull-50", "pouch-vacuum", "bag-zip"];

    /// <summary>True where nobody said what it is, not even which sort.</summary>
    public bool IsUnknown => Kinds.Count > 1 && Family is null;

    /// <summary>True where a person can fill one like it with water and weigh it: not what its maker closed, and not a pouch that is sealed by heat.</summary>
    public bool CanBeMeasured => Kinds.All(kind => !kind.FactorySealed && kind.Vessel != Vessel.Pouch);

    /// <summary>True where one kind is known.</summary>
    public bool IsKnown => Kinds.Count == 1;

    /// <summary>Of a container as the ledger tells it.</summary>
    /// <param name="cellar">Knows the keeper's own kinds.</param>
    /// <param name="container">Which.</param>
    public static ContainerBelief Of(Cellar cellar, Container container)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        ArgumentNullException.ThrowIfNull(container);
        var capacity = container.Capacity.Mid ?? (container.Kind is { } own && cellar.OwnContainers.TryGetValue(own.Trim(), out var described) ? described.Capacity.Mid : null);
        if (container.Kind is { } code && KnownKinds.Find(cellar, code) is { } kind)
            return new([kind], capacity);
        return (container.Kind ?? container.Text) is { } word && ContainerFamily.Find(word) is { } family
            ? new(family.Members, capacity, family)
            : new([.. Candidates.Select(ContainerKinds.Find).OfType<ContainerKind>()], capacity);
    }

    /// <summary>The kind of one draw.</summary>
    public ContainerKind Of(int draw) => Kinds[draw % Kinds.Count];

    /// <summary>Spread of glass and tins about their nominal volume: brimful holds 3 to 8 % more (common practice); read as a log-sd.</summary>
    private const double RigidLogSd = 0.03;

    /// <summary>Spread of bags and pouches, which are filled to no line (assumption).</summary>
    private const double FilmLogSd = 0.2;

    /// <summary>Spread of a volume that somebody measured or read off (assumption).</summary>
    public const double MeasuredLogSd = 0.01;

    /// <summary>Log-sd of the inner volume of one draw.</summary>
    public double CapacityLogSd(int draw) => OwnCapacity is not null ? MeasuredLogSd : Of(draw).Flexible ? FilmLogSd : RigidLogSd;

    /// <summary>Its inner volume in every draw, m³.</summary>
    /// <param name="draws">Where the numbers come from.</param>
    /// <param name="key">Of this one vessel.</param>
    public double[] Capacities(SeededDraws draws, string key)
    {
        var z = draws.Normal($"{key}/capacity");
        return [.. z.Select((each, i) => (OwnCapacity ?? Of(i).Capacity).CubicMetres * Math.Exp(CapacityLogSd(i) * each))];
    }
}
