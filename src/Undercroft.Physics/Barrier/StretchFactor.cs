namespace Undercroft.Physics.Barrier;

/// <summary>What stretching does to a film.</summary>
/// <remarks>
/// <para><b>Equation</b> Drawn to s times its length at constant volume with a fixed width, the film is 1/s as thick and passes s times as much; necking freely it is 1/√s as thick.</para>
/// <para><b>Source</b> Conservation of volume; no measurement of drawn wax–polyolefin film was found.</para>
/// <para><b>Valid</b> Draw ratio 1 to 4 without holes. Best case: creases, overlap gaps and relaxation come on top, and decide.</para>
/// <para><b>Error</b> Factor 3 either way. Treat stretched film as a bridge over a seam, not as armour.</para>
/// </remarks>
public static class StretchFactor
{
    /// <summary>Permeance after stretching divided by before, width held.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Draw ratio outside 1 to 4: the film tears.</exception>
    public static double At(double drawRatio) => drawRatio is >= 1 and <= 4
        ? drawRatio
        : throw new ArgumentOutOfRangeException(nameof(drawRatio), drawRatio, "The draw ratio lies within 1 (unstretched) to 4 (it breaks).");
}
