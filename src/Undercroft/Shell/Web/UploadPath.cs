namespace Undercroft.Shell.Web;

/// <summary>An address that takes a file with its form; all others take small forms only.</summary>
/// <param name="Path">Such as <c>/import</c>; addresses below it too.</param>
/// <param name="MostBytes">Of the whole request.</param>
public sealed record UploadPath(string Path, long MostBytes);
