namespace Undercroft.Physics.Barrier;

/// <summary>The humidity inside a laminate, at the middle of each layer.</summary>
/// <remarks>
/// <para><b>Equation</b> Vapour pressure falls along the stack in proportion to water resistance: RH at the middle of layer k = RH_in − (RH_in − RH_out)·(Σ_{i&lt;k} rᵢ + r_k/2)/Σ rᵢ.</para>
/// <para><b>Source</b> Resistances in series; standard, no single source.</para>
/// <para><b>Valid</b> Steady state, one temperature, water resistances that do not themselves depend on humidity. In nylon outside, polyethylene inside, the polyethylene carries
/// nearly all the resistance: the nylon sits at room humidity, whatever is in the bag.</para>
/// <para><b>Error</b> Nylon's own water resistance falls when moist, which moves it still closer to the room.</para>
/// </remarks>
public static class LayerHumidity
{
    /// <summary>Humidity in each layer's middle.</summary>
    /// <param name="inside">Humidity at the first layer's free face, 0 to 1.</param>
    /// <param name="outside">Humidity at the last layer's free face, 0 to 1.</param>
    /// <param name="waterPermeances">From the inside outwards, each above zero.</param>
    public static IReadOnlyList<double> Of(double inside, double outside, params IReadOnlyList<Permeance> waterPermeances)
    {
        var resistances = waterPermeances.Select(layer => 1 / Positive.Number(layer.MolPerM2SPa)).ToArray();
        var total = resistances.Sum();
        var passed = 0.0;
        var humidities = new double[resistances.Length];
        for (var k = 0; k < resistances.Length; k++)
        {
            humidities[k] = inside - ((inside - outside) * (passed + (resistances[k] / 2)) / total);
            passed += resistances[k];
        }

        return humidities;
    }
}
