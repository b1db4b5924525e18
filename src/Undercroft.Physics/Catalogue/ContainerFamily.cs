namespace Undercroft.Physics.Catalogue;

/// <summary>A sort of container of which nobody said which: "a jar", "some tin".</summary>
/// <param name="Code">The word for it, which stands in the place of a kind's code: <c>jar</c>.</param>
/// <param name="Name">For people.</param>
/// <param name="Members">The kinds that it may be, the commonest first; each counts as equally likely.</param>
public sealed record ContainerFamily(string Code, string Name, IReadOnlyList<ContainerKind> Members)
{
    /// <summary>What a person calls one of them.</summary>
    public string Word => Code == "clamp" ? "clamp jar" : Code;

    /// <summary>What the list of members rests on.</summary>
    public static Evidence Evidence { get; } = new(Provenance.Assumption, "", "which kinds are commonly meant by the word, each as likely");

    /// <summary>All of them.</summary>
    /// <remarks>
    /// A word without a size or a closure. A slip lid is among the tins: it is what makes "a tin" doubtful, and what a look at the shelf settles.
    /// </remarks>
    public static IReadOnlyList<ContainerFamily> All { get; } =
    [
        Of("jar", "glass jar, not known which", "jar-237", "jar-473", "jar-946"),
        Of("clamp", "clamp jar, not known which", "clamp-500-rubber", "clamp-500-silicone", "clamp-1000-rubber", "clamp-1000-silicone"),
        Of("tin", "tin, not known which", "tin-pull-50", "tin-friction-57", "tin-rectangular-50", "tin-slip"),
        Of("pouch", "heat-sealed pouch, not known which", "pouch-metallised", "pouch-foil", "pouch-vacuum"),
        Of("bag", "zip bag, not known which", "bag-zip", "bag-bulk", "bag-sandwich"),
    ];

    /// <summary>The family of a word, upper or lower case, or null.</summary>
    public static ContainerFamily? Find(string code) => All.FirstOrDefault(family => string.Equals(family.Code, code?.Trim(), StringComparison.OrdinalIgnoreCase));

    private static ContainerFamily Of(string code, string name, params string[] members) => new(code, name, [.. members.Select(member => ContainerKinds.Find(member)!)]);
}
