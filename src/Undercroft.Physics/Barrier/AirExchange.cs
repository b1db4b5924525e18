namespace Undercroft.Physics.Barrier;

/// <summary>How much of the air inside has been replaced after some time.</summary>
/// <remarks>
/// <para><b>Equation</b> 1 − exp(−n·t) for steady exchange of n volumes a unit of time; 1 − (1 − n·Δt)^k for k separate refills.</para>
/// <para><b>Source</b> First-order exchange; the worked example of refills, a tenth of the volume each hour, is in [ConservationPhysics].</para>
/// <para><b>Valid</b> Well-mixed inside, constant rate.</para>
/// <para><b>Error</b> Exact; taking refills for steady exchange is 5 % of the first step at a tenth.</para>
/// </remarks>
public static class AirExchange
{
    /// <summary>Share replaced, 0 to 1, by steady exchange.</summary>
    /// <param name="volumesPerTime">n.</param>
    /// <param name="time">In the same unit of time.</param>
    public static double Replaced(double volumesPerTime, double time) => -double.ExpM1(-Positive.OrZero(volumesPerTime) * Positive.OrZero(time));

    /// <summary>Share replaced by separate refills, each of the same share of the volume.</summary>
    /// <param name="share">Of one refill, 0 to 1.</param>
    /// <param name="refills">How many.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share outside 0 to 1 or a negative number of refills.</exception>
    public static double ReplacedByRefills(double share, int refills)
    {
        if (share is not (>= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(share), share, "A share lies within 0 to 1.");
        ArgumentOutOfRangeException.ThrowIfNegative(refills);
        return 1 - Math.Pow(1 - share, refills);
    }
}
