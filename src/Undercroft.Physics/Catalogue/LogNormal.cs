namespace Undercroft.Physics.Catalogue;

/// <summary>A positive quantity whose logarithm is normally distributed: how permeances, leaks and rates scatter.</summary>
/// <param name="Median">The value with as much above as below, in the unit of the quantity.</param>
/// <param name="LogSd">Standard deviation of the natural logarithm; 0.3 is a factor of 1.35, 1.2 a factor of 3.3.</param>
public readonly record struct LogNormal(double Median, double LogSd)
{
    /// <summary>The value at <paramref name="z"/> standard deviations of the logarithm above the median.</summary>
    public double At(double z) => Median * Math.Exp(LogSd * z);
}
