using System.Runtime.CompilerServices;

namespace Undercroft.Physics.Barrier;

/// <summary>Argument checks of the barrier formulae. Written so that NaN and infinity fail.</summary>
internal static class Positive
{
    /// <summary>The value, if finite and above zero.</summary>
    public static double Number(double value, [CallerArgumentExpression(nameof(value))] string name = "") => value > 0 && double.IsFinite(value)
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "Must be finite and above zero.");

    /// <summary>The value, if finite and not below zero.</summary>
    public static double OrZero(double value, [CallerArgumentExpression(nameof(value))] string name = "") => value >= 0 && double.IsFinite(value)
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "Must be finite and not negative.");
}
