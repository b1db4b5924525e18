namespace Undercroft.Shell.Web;

/// <summary>Marks an address that answers before sign-in: health, style sheet, the sign-in itself.</summary>
[AttributeUsage(AttributeTargets.Class)]
public sealed class OpenToAll : Attribute;
