namespace Undercroft.Physics.Catalogue;

/// <summary>Every sort of container that the program knows, with geometry, ways out, failure, habits and evidence.</summary>
/// <remarks>To add one, imitate <c>JarKinds.cs</c>; every number carries its provenance, and what nobody has measured is wide and says so.</remarks>
public static class ContainerKinds
{
    /// <summary>All of them, in the order of a list.</summary>
    public static IReadOnlyList<ContainerKind> All { get; } =
        [.. JarKinds.All, .. ClampJarKinds.All, .. TinKinds.All, .. LooseTinKinds.All, .. PouchKinds.All, .. BagKinds.All];

    /// <summary>The kind of a code, upper or lower case, or null.</summary>
    public static ContainerKind? Find(string code) => All.FirstOrDefault(kind => string.Equals(kind.Code, code.Trim(), StringComparison.OrdinalIgnoreCase));

    /// <summary>The codes most like a mistyped one.</summary>
    public static IReadOnlyList<string> Nearest(string code, int count = 3) => NearestCodes.To(code, All.Select(kind => kind.Code), count);
}
