namespace Undercroft.Physics.Catalogue;

/// <summary>A rule of practice: what people do, why they say so, and how it is known.</summary>
/// <param name="Code">Short stable name, which switches it off and on.</param>
/// <param name="Says">The rule.</param>
/// <param name="Reason">Why, as practice has it.</param>
/// <param name="Evidence">Common practice throughout; the remark says what else is known.</param>
public sealed record PracticeRule(string Code, string Says, string Reason, Evidence Evidence);

/// <summary>The rules of practice. Each can be switched off; none is a law of nature.</summary>
public static class PracticeRules
{
    /// <summary>Code of the rule that brings unlined and paper-walled tins out.</summary>
    public const string UnlinedOut = "unlined-out";

    /// <summary>Years within which they come out.</summary>
    public const double UnlinedYears = 5;

    /// <summary>All of them.</summary>
    public static IReadOnlyList<PracticeRule> All { get; } =
    [
        Of("loose-to-glass", "Loose leaf goes to glass on arrival.", "the bag that it comes in dries it in weeks to months", "bags: weeks to 3 months, jars: decades"),
        Of("bridge-seams", "Tins with slip or lifted lids are bridged at the seam with stretch film.", "the seam leaks, the wall does not", "renew after 1 to 3 years or on sight; film is a bridge, no armour"),
        Of("pouches-under-vacuum", "Factory pouches go, whole, under vacuum into another pouch.", "the factory seal is thin, and the pack stays as bought", "corners and card edges pierce the film"),
        Of(UnlinedOut, "Leaf comes out of unlined or paper-walled tins within five years.", "acid and damp rust steel from inside, card takes up water", "no source was found for the five years"),
        Of("cased-no-vacuum", "Heavily cased leaf and ribbon are not put under vacuum.", "the cut clumps, casing is pressed out, and air is part of ageing", "taste, not physics, decides"),
        Of("tint-pointless", "Tinted glass is pointless in the dark.", "no light arrives, and clear glass shows the leaf", "on a lit shelf a closed box does more than any tint"),
    ];

    /// <summary>The rule of a code, or null.</summary>
    public static PracticeRule? Find(string code)
    {
        ArgumentNullException.ThrowIfNull(code);
        return All.FirstOrDefault(rule => string.Equals(rule.Code, code.Trim(), StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>The codes most like a mistyped one.</summary>
    public static IReadOnlyList<string> Nearest(string code, int count = 3) => Quantities.Nearest.To(code, All.Select(rule => rule.Code), count);

    private static PracticeRule Of(string code, string says, string reason, string remark) => new(code, says, reason, new(Provenance.CommonPractice, "", remark));
}
