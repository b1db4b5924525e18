using Undercroft.Physics.Catalogue;

namespace Undercroft.Catalogue;

/// <summary>One number of a catalogue entry, with how sure it is and where it comes from.</summary>
/// <param name="What">Of what.</param>
/// <param name="Value">The middle, in <paramref name="Unit"/>.</param>
/// <param name="Unit">Its unit; empty for a bare number.</param>
/// <param name="Spread">How far it scatters, in words; null where none is stated.</param>
/// <param name="Provenance">published, common practice, derived, from memory or assumption.</param>
/// <param name="Source">Key of the bibliography; null where there is no source.</param>
/// <param name="Remark">From what it was worked out, or why it is assumed; null where nothing is to be said.</param>
public sealed record KindValue(string What, double Value, string Unit, string? Spread, string Provenance, string? Source, string? Remark)
{
    /// <summary>A value with its evidence.</summary>
    public static KindValue Of(string what, double value, string unit, string? spread, Evidence evidence)
    {
        ArgumentNullException.ThrowIfNull(evidence);
        return new(what, value, unit, spread, evidence.Tag, evidence.Source.Length == 0 ? null : evidence.Source, evidence.Remark.Length == 0 ? null : evidence.Remark);
    }
}

/// <summary>One entry in a list.</summary>
/// <param name="Group">containers, leaves, rooms or cuts.</param>
/// <param name="Code">What the command line takes.</param>
/// <param name="Name">For people.</param>
/// <param name="Horizon">For how long practice trusts it, or for other groups what matters most about it.</param>
public sealed record KindLine(string Group, string Code, string Name, string Horizon);

/// <summary>One entry in full.</summary>
/// <param name="Group">containers, leaves, rooms or cuts.</param>
/// <param name="Code">What the command line takes.</param>
/// <param name="Name">For people.</param>
/// <param name="Horizon">As in the list.</param>
/// <param name="Check">What to do before the shelf, for containers; else null.</param>
/// <param name="BadIf">What counts as bad, for containers; else null.</param>
/// <param name="Caution">Where handling can hurt someone; else null.</param>
/// <param name="Values">Its numbers.</param>
public sealed record KindPage(string Group, string Code, string Name, string Horizon, string? Check, string? BadIf, string? Caution, IReadOnlyList<KindValue> Values);
