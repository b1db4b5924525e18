namespace Undercroft.Physics.Barrier;

/// <summary>One layer of a laminate.</summary>
public abstract record Layer
{
    private Layer()
    {
    }

    /// <summary>A plain polymer film, whose resistance is its own wherever it sits.</summary>
    /// <param name="Name">Such as "polyethylene 50 µm".</param>
    /// <param name="Permeance">At the common temperature, and at the layer's own humidity where that matters.</param>
    public sealed record Homogeneous(string Name, Permeance Permeance) : Layer;

    /// <summary>Foil, or a metallised or oxide-coated film: decided by pinholes and cracks. The series law refuses it.</summary>
    /// <param name="Name">Such as "metallised polyester".</param>
    /// <param name="Permeance">As measured alone.</param>
    public sealed record DefectLimited(string Name, Permeance Permeance) : Layer;
}

/// <summary>Layers behind each other.</summary>
/// <remarks>
/// <para><b>Equation</b> 1/Π = Σ 1/Πᵢ.</para>
/// <para><b>Source</b> Resistances in series; standard, no single source.</para>
/// <para><b>Valid</b> Homogeneous layers in full contact, at one temperature, each at its own humidity (<see cref="LayerHumidity"/>). <em>Not</em> foil, metallised or
/// coated layers: gas reaches a pinhole sideways through the neighbouring polymer, so the neighbour helps far more than its own resistance. Metallised polyester 2.0 with
/// polyethylene 8000 gives 2.00 by this law; the laminate measures 0.6 [SupplierSheets]. Such a structure enters as one measured layer.</para>
/// <para><b>Error</b> That of the layers; the least permeable one decides.</para>
/// </remarks>
public static class Laminate
{
    /// <summary>Permeance of the stack.</summary>
    /// <exception cref="ArgumentException">No layers, or a defect-limited one, which the law does not describe.</exception>
    public static Permeance InSeries(params IReadOnlyList<Layer> layers)
    {
        if (layers.Count == 0)
            throw new ArgumentException("A laminate needs a layer.", nameof(layers));
        return new Permeance(1 / layers.Sum(Resistance));
    }

    private static double Resistance(Layer layer) => layer switch
    {
        Layer.Homogeneous plain => 1 / Positive.Number(plain.Permeance.MolPerM2SPa),
        Layer.DefectLimited defective => throw new ArgumentException(
            $"{defective.Name} is limited by pinholes and cracks, so layers do not add as resistances. Enter the finished laminate as one measured layer.", nameof(layer)),
        _ => throw new ArgumentOutOfRangeException(nameof(layer), layer, "Unknown layer."),
    };
}
