using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Air;

/// <summary>Water vapour per mass of dry air.</summary>
/// <remarks>
/// <para><b>Equation</b> W = 0.621945 e/(p − e), kg/kg; inverse e = p W/(0.621945 + W).</para>
/// <para><b>Source</b> equation 20 of [Ashrae2017].</para>
/// <para><b>Valid</b> 0 ≤ e &lt; p.</para>
/// <para><b>Error</b> below 0.5 % at ordinary pressure: gases taken as ideal.</para>
/// </remarks>
public static class MixingRatio
{
    /// <summary>Molar mass of water over that of dry air.</summary>
    public const double MolarRatio = 0.621945;

    /// <summary>kg of vapour per kg of dry air.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Vapour pressure negative or not below the total pressure.</exception>
    public static double Of(Pressure vapourPressure, Pressure total) => vapourPressure.Pascals >= 0 && vapourPressure < total
        ? Bare(vapourPressure.Pascals, total.Pascals)
        : throw new ArgumentOutOfRangeException(nameof(vapourPressure), vapourPressure.Pascals, "The vapour pressure lies from 0 up to, but not including, the total pressure.");

    /// <summary>The bare equation, kg/kg.</summary>
    internal static double Bare(double vapourPascal, double totalPascal) => MolarRatio * vapourPascal / (totalPascal - vapourPascal);
}
