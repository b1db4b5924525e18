using System.Text.Json.Serialization;
using Undercroft.Ledger.Ids;

namespace Undercroft.Ledger.Events;

public abstract partial record Fact
{
    /// <summary>Somebody decided what becomes of a package, and when to look again.</summary>
    /// <param name="Package">Which.</param>
    /// <param name="As">What was decided.</param>
    /// <param name="LookAgain">The day of the next look; null where none is needed.</param>
    /// <param name="Text">Why, in words.</param>
    public sealed record Decided(PackageId Package, Decision As, DateOnly? LookAgain = null, string? Text = null) : Fact;

    /// <summary>A picture of a package is kept. When it was taken is when it happened.</summary>
    /// <param name="Package">What it shows.</param>
    /// <param name="Sha256">Digest of the kept file, in lower case hexadecimal: its name in the folder of photos.</param>
    /// <param name="Text">In words.</param>
    public sealed record PhotoKept(PackageId Package, string Sha256, string? Text = null) : Fact;

    /// <summary>Somebody marked where on a picture the leaf shows and where a grey card does, so that its colour can be told.</summary>
    /// <param name="Package">What it shows.</param>
    /// <param name="Sha256">Digest of the kept file.</param>
    /// <param name="Leaf">Where leaf shows.</param>
    /// <param name="Card">Where the grey card shows.</param>
    public sealed record PhotoMarked(PackageId Package, string Sha256, PhotoPatch Leaf, PhotoPatch Card) : Fact;
}

/// <summary>A rectangle of a picture, as parts of its width and height from the upper left corner.</summary>
/// <param name="X">Left edge, 0 to 1.</param>
/// <param name="Y">Upper edge, 0 to 1.</param>
/// <param name="Width">Above 0.</param>
/// <param name="Height">Above 0.</param>
public sealed record PhotoPatch(double X, double Y, double Width, double Height)
{
    /// <summary>True where it lies within the picture and has a size.</summary>
    [JsonIgnore]
    public bool LiesWithin => X >= 0 && Y >= 0 && Width > 0 && Height > 0 && X + Width <= 1.000001 && Y + Height <= 1.000001;
}

/// <summary>What becomes of a package.</summary>
[JsonConverter(typeof(CodeWordJson<Decision>))]
public enum Decision
{
    /// <summary>Nothing is done; it is looked at again.</summary>
    Watch,

    /// <summary>Kept apart from the others.</summary>
    Isolate,

    /// <summary>Closed anew.</summary>
    Reseal,

    /// <summary>Taken to another place.</summary>
    Move,

    /// <summary>Used before others.</summary>
    EnjoySoon,

    /// <summary>Thrown away.</summary>
    Discard,
}
