using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate;

/// <summary>
/// The weather of a place as running integrals against a basis in temperature, so that the integral of any smooth function of temperature over any days
/// is a sum of five products: whatever the activation energies, heats and offsets of a package, its clocks come from this one table.
/// </summary>
/// <remarks>
/// <para><b>Equation</b> ∫ w(t) F(T) g(T) dt ≈ Σ g(T_k) ∫ w F(T) ℓ_k(T) dt, ℓ_k Lagrange's polynomials at Chebyshev's points T_k of the place's range,
/// F(T) = exp[−(35 kJ/mol / R)(1/T − 1/296.15 K)], times psat(T) for water; w is 1, the room's humidity or its pressure, and twice the cosine or sine of the day.</para>
/// <para><b>Source</b> interpolation at Chebyshev's points; elementary.</para>
/// <para><b>Valid</b> energies from 10 to 60 kJ/mol and temperatures within 20 K of their middle.</para>
/// <para><b>Error</b> about 1e-4 of the integral at those ends, 1e-6 within 10 kJ/mol or 10 K; held in the tests.</para>
/// </remarks>
internal sealed class TemperatureBasis
{
    /// <summary>Points in temperature.</summary>
    public const int Nodes = 5;

    /// <summary>Where each family of <see cref="Nodes"/> integrals begins: with psat, with psat and humidity, plain, with pressure, with humidity, and their harmonics.</summary>
    public const int Water = 0, WaterHumid = 5, Gas = 10, GasCos = 15, GasSin = 20, Pressed = 25, PressedCos = 30, PressedSin = 35, Humid = 40, HumidCos = 45, HumidSin = 50;

    /// <summary>∫T, its harmonics times the length, and ∫P.</summary>
    public const int Kelvin = 55, KelvinCos = 56, KelvinSin = 57, Pascals = 58, Width = 59;

    private const double ReferenceEnergy = 35_000;
    private const double LeastHalfRange = 1;

    private readonly RunningSums sums;

    /// <summary>Sums up the samples of a place.</summary>
    /// <param name="kelvinRange">Lowest and highest temperature.</param>
    /// <param name="cells">How many cells.</param>
    /// <param name="periodic">True where the cells go round.</param>
    /// <param name="samplesOf">The samples of one cell: K, humidity, Pa, psat, weight in days, and twice the cosine and sine of the day.</param>
    public TemperatureBasis((double Low, double High) kelvinRange, int cells, bool periodic, Func<int, IEnumerable<BasisSample>> samplesOf)
    {
        var middle = (kelvinRange.Low + kelvinRange.High) / 2;
        var half = Math.Max(LeastHalfRange, (kelvinRange.High - kelvinRange.Low) / 2);
        NodeKelvin = [.. Enumerable.Range(0, Nodes).Select(k => middle - (half * Math.Cos(Math.PI * (k + 0.5) / Nodes)))];
        var scale = new double[Nodes];
        for (var k = 0; k < Nodes; k++)
        {
            scale[k] = 1;
            for (var j = 0; j < Nodes; j++)
            {
                if (j != k)
                    scale[k] /= NodeKelvin[k] - NodeKelvin[j];
            }
        }

        var running = new double[(cells + 1) * Width];
        var lagrange = new double[Nodes];
        for (var cell = 0; cell < cells; cell++)
        {
            var to = running.AsSpan((cell + 1) * Width, Width);
            running.AsSpan(cell * Width, Width).CopyTo(to);
            foreach (var sample in samplesOf(cell))
                Add(sample, scale, lagrange, to);
        }

        sums = new(running, Width, cells, periodic);
    }

    /// <summary>T_k.</summary>
    public double[] NodeKelvin { get; }

    /// <summary>ln F(T) = (E/R)(1/296.15 K − 1/T) of the reference energy.</summary>
    public static double LogReference(double kelvin) => ReferenceEnergy / PhysicalConstants.GasConstant * ((1 / 296.15) - (1 / kelvin));

    /// <summary>All integrals from the beginning of one cell to that of another.</summary>
    public void Between(int from, int to, Span<double> into) => sums.Between(from, to, into);

    /// <summary>True where the table tells of the day before this edge.</summary>
    public bool Reaches(int edge) => sums.Reaches(edge);

    /// <summary>Mean temperature over the two days about a time.</summary>
    public double MeanKelvinAbout(double day)
    {
        var edge = (int)Math.Floor(day);
        var (before, after) = (KelvinAboutEdge(edge), KelvinAboutEdge(edge + 1));
        return before + ((day - edge) * (after - before));
    }

    private double KelvinAboutEdge(int edge)
    {
        while (!sums.Reaches(edge))
            edge--; // beyond its last day a table goes on as it ended
        var (from, to) = (Math.Max(0, edge - 1), sums.Reaches(edge + 1) ? edge + 1 : edge);
        return sums.Between(from, to, Kelvin) / (to - from);
    }
    private void Add(in BasisSample sample, double[] scale, double[] lagrange, Span<double> to)
    {
        for (var k = 0; k < Nodes; k++)
        {
            var value = scale[k];
            for (var j = 0; j < Nodes; j++)
                value *= j == k ? 1 : sample.Kelvin - NodeKelvin[j];
            lagrange[k] = value;
        }

        var gas = sample.Weight * Math.Exp(LogReference(sample.Kelvin));
        var water = gas * sample.Saturation;
        var (humid, pressed) = (gas * sample.Humidity, gas * sample.Pascals);
        for (var k = 0; k < Nodes; k++)
        {
            var part = lagrange[k];
            to[Water + k] += water * part;
            to[WaterHumid + k] += water * sample.Humidity * part;
            to[Gas + k] += gas * part;
            to[GasCos + k] += gas * sample.Cos * part;
            to[GasSin + k] += gas * sample.Sin * part;
            to[Pressed + k] += pressed * part;
            to[PressedCos + k] += pressed * sample.Cos * part;
            to[PressedSin + k] += pressed * sample.Sin * part;
            to[Humid + k] += humid * part;
            to[HumidCos + k] += humid * sample.Cos * part;
            to[HumidSin + k] += humid * sample.Sin * part;
        }

        to[Kelvin] += sample.Weight * sample.Kelvin;
        to[KelvinCos] += sample.Weight * sample.Kelvin * sample.Cos;
        to[KelvinSin] += sample.Weight * sample.Kelvin * sample.Sin;
        to[Pascals] += sample.Weight * sample.Pascals;
    }
}

/// <summary>The weather at one time.</summary>
internal readonly record struct BasisSample(double Kelvin, double Humidity, double Pascals, double Saturation, double Weight, double Cos, double Sin);
