namespace Undercroft.Physics.Catalogue;

/// <summary>Where a number comes from. Every number of the catalogue carries exactly one.</summary>
public enum Provenance
{
    /// <summary>Read in a named source.</summary>
    Published,

    /// <summary>What people of the trade do or say; no source.</summary>
    CommonPractice,

    /// <summary>Worked out from other numbers, which are named.</summary>
    Derived,

    /// <summary>Remembered from a named source, to be checked there.</summary>
    FromMemory,

    /// <summary>Nobody has published it: a guess, wide on purpose.</summary>
    Assumption,
}

/// <summary>What a value rests on.</summary>
/// <param name="Provenance">How it is known.</param>
/// <param name="Source">A key of <c>docs/physics/sources.bib</c>, or empty where there is no source.</param>
/// <param name="Remark">From what it was derived, under which conditions it holds, or why it is assumed.</param>
/// <param name="Fitted">True where the value was adjusted until the model reproduced the named practice rows: agreement with those rows is then no evidence.</param>
public sealed record Evidence(Provenance Provenance, string Source, string Remark, bool Fitted = false)
{
    /// <summary>How a person is told: "published", "common practice, no source", "derived", "from memory", "assumption".</summary>
    public string Tag => Provenance switch
    {
        Provenance.Published => "published",
        Provenance.CommonPractice => "common practice, no source",
        Provenance.Derived => Fitted ? "derived (fitted)" : "derived",
        Provenance.FromMemory => "from memory",
        Provenance.Assumption => "assumption",
        _ => throw new InvalidOperationException($"No words for provenance {Provenance}."),
    };
}
