using Undercroft.Physics.Leaf;

namespace Undercroft.Physics.Catalogue;

/// <summary>A sort of leaf: how it holds water, and how doubtful that is.</summary>
/// <param name="Code">Short stable name, such as <c>burley</c>.</param>
/// <param name="Name">For people.</param>
/// <param name="Isotherm">At 22 °C with its shift by temperature.</param>
/// <param name="ScaleLogSd">Spread of the curve's scale (A or X_m).</param>
/// <param name="HysteresisPoints">Moisture on wet basis, in points, between the wetting and the drying curve.</param>
/// <param name="Evidence">What the curve rests on.</param>
public sealed record LeafKind(string Code, string Name, Isotherm Isotherm, double ScaleLogSd, double HysteresisPoints, Evidence Evidence);
