namespace Undercroft.Physics.Storage.Courses;

/// <summary>How the sums of one step lie in memory: first the air, then the uptake, then each path.</summary>
/// <param name="Heats">Nodes of the heat of sorption.</param>
/// <param name="Q10s">Nodes of Q10.</param>
/// <param name="Paths">How many paths.</param>
internal sealed record StepBlock(int Heats, int Q10s, int Paths)
{
    /// <summary>∫P, ∫T, ∫psat, ∫e over the step, and the cosine and sine amplitude of T times its length.</summary>
    public const int Pressure = 0, Kelvin = 1, Saturation = 2, Vapour = 3, KelvinCos = 4, KelvinSin = 5;

    /// <summary>Rises of ln[(P − a·psat)/T] at activity 0, and what each unit of activity adds.</summary>
    public const int Breath = 6, BreathPerActivity = 7;

    /// <summary>Within a gas: ∫fP, ∫fT, ∫f·psat, ∫f·e and the harmonics of fP, fT, f·e.</summary>
    public const int F = 0, FT = 1, A = 2, E = 3, FCos = 4, FSin = 5, FTCos = 6, FTSin = 7, ECos = 8, ESin = 9, GasWidth = 10;

    /// <summary>Cosine and sine amplitude of e times the length of the step.</summary>
    public const int VapourCos = 8, VapourSin = 9;

    /// <summary>The same of P.</summary>
    public const int PressureCos = 10, PressureSin = 11;

    /// <summary>∫s·psat at the first node of the heat of sorption.</summary>
    public const int ShiftedSaturation = 12;

    /// <summary>∫Q10 factor, cosine, sine at the first node of Q10.</summary>
    public int Uptake => ShiftedSaturation + Heats;

    /// <summary>Where a path begins: ∫f·s·psat at each node of the heat of sorption, ∫f·psat, ∫f·e, then the three gases.</summary>
    public int Path(int path) => Uptake + (3 * Q10s) + (path * PathWidth);

    /// <summary>Length of one path.</summary>
    public int PathWidth => Heats + 2 + (3 * GasWidth);

    /// <summary>Length of the whole.</summary>
    public int Width => Path(Paths);
}
