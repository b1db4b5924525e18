using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Climate;

/// <summary>Humidity over the saturated solution of a salt: the reference by which a hygrometer is checked.</summary>
/// <param name="Salt">Formula, such as <c>NaCl</c>.</param>
/// <param name="Humidity">Of the air above it.</param>
/// <param name="Uncertainty">Half-width in humidity at k = 2, or null where the source gives none.</param>
/// <param name="Source">Key of the bibliography.</param>
public sealed record FixedPoint(string Salt, RelativeHumidity Humidity, RelativeHumidity? Uncertainty, string Source);

/// <summary>Humidity fixed points of saturated salt solutions.</summary>
/// <remarks>
/// <para><b>Equation</b> between the columns of the table linear in temperature, the larger uncertainty of the two; below 5 °C
/// RH = a₀ + a₁ t + a₂ t² + a₃ t³; for the salts that the table lacks RH = A exp(B/T).</para>
/// <para><b>Source</b> [OimlR121] Table 1; below 5 °C the polynomials of [Greenspan1977]; A and B after Wexler in [CrcHandbook].</para>
/// <para><b>Valid</b> 0 … 40 °C (K₂CO₃ to 30 °C, NaBr from 5 °C, LiCl from 20 °C, since authors disagree below); Mg(NO₃)₂, NH₄NO₃ and KI 10 … 30 °C.</para>
/// <para><b>Error</b> as tabulated, 0.2 to 1.3 points; ±2 for the three last salts. A box must be small, still and within 1 K.</para>
/// <para><b>Departs</b> a₁ of K₂CO₃ is positive, as the table demands, where some codes carry it with the wrong sign.</para>
/// </remarks>
public static class SaturatedSalts
{
    private const double Step = 5;

    /// <summary>Columns 5, 10, … 40 °C; null where the source has none, so that the salt is not offered there.</summary>
    private static readonly (string Salt, double?[] Percent, double[] Uncertainty)[] Oiml =
    [
        ("LiCl", [null, null, null, 12, 11.3, 11.3, 11.3, 11.2], [1.8, 1.7, 1.8, 0.9, 0.3, 0.3, 0.3, 0.3]),
        ("MgCl2", [33.6, 33.5, 33.3, 33.1, 32.8, 32.4, 32.1, 31.6], [0.3, 0.3, 0.3, 0.2, 0.2, 0.2, 0.2, 0.2]),
        ("K2CO3", [43.1, 43.1, 43.2, 43.2, 43.2, 43.2, null, null], [0.5, 0.4, 0.4, 0.4, 0.4, 0.5, 0.5, 0.5]),
        ("NaBr", [63.5, 62.2, 60.7, 59.1, 57.6, 56.0, 54.6, 53.2], [0.8, 0.6, 0.6, 0.5, 0.4, 0.4, 0.4, 0.5]),
        ("NaCl", [75.7, 75.7, 75.6, 75.5, 75.3, 75.1, 74.9, 74.7], [0.3, 0.3, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2]),
        ("KCl", [87.7, 86.8, 85.9, 85.1, 84.2, 83.6, 83.0, 82.3], [0.5, 0.4, 0.4, 0.3, 0.3, 0.3, 0.3, 0.3]),
        ("K2SO4", [98.5, 98.2, 97.9, 97.6, 97.3, 97.0, 96.7, 96.4], [1.0, 0.8, 0.7, 0.6, 0.5, 0.4, 0.4, 0.4]),
    ];

    private static readonly (string Salt, double[] Coefficients)[] Greenspan =
    [
        ("MgCl2", [33.6686, -0.00797397, -0.108988e-2, 0]),
        ("K2CO3", [43.1315, 0.00147523, 0, 0]),
        ("NaCl", [75.5164, 0.0398321, -0.265459e-2, 0.2848e-4]),
        ("KCl", [88.6190, -0.193340, 0.899706e-3, 0]),
        ("K2SO4", [98.7792, -0.0590502, 0, 0]),
    ];

    private static readonly (string Salt, double A, double B)[] Crc = [("Mg(NO3)2", 25.28, 220), ("NH4NO3", 3.54, 853), ("KI", 29.35, 254)];

    /// <summary>The salts that are known, driest first.</summary>
    public static IReadOnlyList<string> Names { get; } = ["LiCl", "MgCl2", "K2CO3", "Mg(NO3)2", "NaBr", "NH4NO3", "KI", "NaCl", "KCl", "K2SO4"];

    /// <summary>The temperatures between which a salt is offered.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not one of <see cref="Names"/>.</exception>
    public static (Temperature Lowest, Temperature Highest) RangeOf(string salt)
    {
        if (Crc.Any(row => Same(row.Salt, salt)))
            return (Temperature.FromCelsius(10), Temperature.FromCelsius(30));
        var percent = OimlRow(salt).Percent;
        var lowest = Greenspan.Any(row => Same(row.Salt, salt)) ? 0 : Step * (1 + Array.FindIndex(percent, value => value is not null));
        return (Temperature.FromCelsius(lowest), Temperature.FromCelsius(Step * (1 + Array.FindLastIndex(percent, value => value is not null))));
    }

    /// <summary>The fixed point of a salt at a temperature.</summary>
    /// <param name="salt">One of <see cref="Names"/>, in any case.</param>
    /// <param name="temperature">Of salt and air.</param>
    /// <exception cref="ArgumentOutOfRangeException">Unknown salt, or a temperature outside <see cref="RangeOf"/>.</exception>
    public static FixedPoint At(string salt, Temperature temperature)
    {
        ArgumentNullException.ThrowIfNull(salt);
        var (lowest, highest) = RangeOf(salt);
        var celsius = Math.Round(temperature.Celsius, 9); // 20 °C is the column of 20 °C
        if (!(celsius >= lowest.Celsius - 1e-9 && celsius <= highest.Celsius + 1e-9))
        {
            throw new ArgumentOutOfRangeException(
                nameof(temperature), temperature.Celsius, FormattableString.Invariant($"{salt} is a reference from {lowest.Celsius:0} to {highest.Celsius:0} °C only."));
        }

        if (Crc.FirstOrDefault(row => Same(row.Salt, salt)) is { Salt: not null } crc)
            return new(crc.Salt, RelativeHumidity.FromPercent(crc.A * Math.Exp(crc.B / temperature.Kelvin)), RelativeHumidity.FromPercent(2), "CrcHandbook");

        var oiml = OimlRow(salt);
        if (celsius < Step)
        {
            var c = Greenspan.First(row => Same(row.Salt, salt)).Coefficients;
            return new(oiml.Salt, RelativeHumidity.FromPercent(c[0] + (celsius * (c[1] + (celsius * (c[2] + (celsius * c[3])))))), null, "Greenspan1977");
        }

        var left = Math.Clamp((int)Math.Floor(celsius / Step) - 1, 0, oiml.Percent.Length - 1);
        var share = (celsius / Step) - 1 - left;
        if (share <= 0)
            return new(oiml.Salt, RelativeHumidity.FromPercent(oiml.Percent[left]!.Value), RelativeHumidity.FromPercent(oiml.Uncertainty[left]), "OimlR121");
        var percent = ((1 - share) * oiml.Percent[left]!.Value) + (share * oiml.Percent[left + 1]!.Value);
        return new(
            oiml.Salt, RelativeHumidity.FromPercent(percent), RelativeHumidity.FromPercent(Math.Max(oiml.Uncertainty[left], oiml.Uncertainty[left + 1])), "OimlR121");
    }

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    private static (string Salt, double?[] Percent, double[] Uncertainty) OimlRow(string salt) =>
        Oiml.FirstOrDefault(row => Same(row.Salt, salt)) is { Salt: not null } found
            ? found
            : throw new ArgumentOutOfRangeException(nameof(salt), salt, $"Known salts: {string.Join(", ", Names)}.");
}
