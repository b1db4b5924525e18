using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;

namespace Undercroft.Physics.Catalogue;

/// <summary>Every sort of container that the program knows, with geometry, ways out, failure, habits and evidence.</summary>
/// <remarks>To add one, imitate <c>JarKinds.cs</c>; every number carries its provenance, and what nobody has measured is wide and says so.</remarks>
public static class ContainerKinds
{
    /// <summary>All of them, in the order of a list.</summary>
    public static IReadOnlyList<ContainerKind> All { get; } =
        [.. JarKinds.All, .. ClampJarKinds.All, .. TinKinds.All, .. LooseTinKinds.All, .. PouchKinds.All.Select(Soft), .. BagKinds.All.Select(Soft)];

    /// <summary>The kind of a code, upper or lower case, or null.</summary>
    public static ContainerKind? Find(string code) => All.FirstOrDefault(kind => string.Equals(kind.Code, code.Trim(), StringComparison.OrdinalIgnoreCase));

    /// <summary>The codes most like a mistyped one.</summary>
    public static IReadOnlyList<string> Nearest(string code, int count = 3) => Quantities.Nearest.To(code, All.Select(kind => kind.Code), count);

    /// <summary>
    /// Soft walls give way, so a bag never holds a pressure that its zip would let go: whole-gas flow faster than emptying the bag within the hour changes no daily mean,
    /// and is held at that.
    /// </summary>
    internal static ContainerKind Soft(ContainerKind kind)
    {
        var most = kind.Capacity.CubicMetres / (PhysicalConstants.GasConstant * Conductance.ReferenceKelvin * 3600);
        PathKind Held(PathKind path) => path with { Median = path.Median with { Viscous = Math.Min(path.Median.Viscous, most) } };
        return kind with { Paths = [.. kind.Paths.Select(Held)], Failure = kind.Failure with { WhenFailed = Held(kind.Failure.WhenFailed) } };
    }
}
