using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>How much stretch film to cut for a lid.</summary>
/// <remarks>
/// <para><b>Equation</b> L = turns·perimeter/stretch + overlap; the overlap is laid down unstretched.</para>
/// <para><b>Source</b> Geometry; a stretch of 1.5 to 2 is common practice.</para>
/// <para><b>Valid</b> Film that stretches evenly. Corners thin it: stretch less and add a turn there.</para>
/// <para><b>Error</b> The hand's: cut 10 mm more.</para>
/// </remarks>
public static class StripLength
{
    /// <summary>Usual overlap.</summary>
    public static Length UsualOverlap => Length.FromMillimetres(20);

    /// <summary>Length to cut.</summary>
    /// <param name="perimeter">Of the lid.</param>
    /// <param name="turns">How often around, above zero.</param>
    /// <param name="stretch">Length when on over length when cut, 1 to 4.</param>
    /// <param name="overlap">Of the end, not stretched.</param>
    public static Length Of(Length perimeter, double turns, double stretch, Length overlap) =>
        new((Positive.Number(turns) * Positive.Number(perimeter.Metres) / StretchFactor.At(stretch)) + Positive.OrZero(overlap.Metres));

    /// <summary>Perimeter of a round lid.</summary>
    public static Length Around(Length diameter) => new(Math.PI * Positive.Number(diameter.Metres));

    /// <summary>Perimeter of a rectangular lid.</summary>
    public static Length Around(Length side, Length otherSide) => new(2 * (Positive.Number(side.Metres) + Positive.Number(otherSide.Metres)));
}
