namespace Undercroft.Physics.Climate;

/// <content>The same weather against a basis in temperature.</content>
public sealed partial class ClimateTable
{
    private TemperatureBasis? basis;

    /// <summary>Made when first asked for; two threads that ask at once make the same.</summary>
    internal TemperatureBasis Basis => basis ??= new(
        (samples.Min(sample => sample.Kelvin), samples.Max(sample => sample.Kelvin)), Cells, Periodic, SamplesOf);

    private IEnumerable<BasisSample> SamplesOf(int cell)
    {
        for (var s = firstSample[cell]; s < firstSample[cell + 1]; s++)
        {
            var sample = samples[s];
            var (cos, sin) = resolved[cell] ? (0, 0) : (2 * sample.Cos, 2 * sample.Sin);
            yield return new(sample.Kelvin, sample.Humidity, sample.Pascals, sample.Saturation, sample.Weight, cos, sin);
        }
    }
}
