namespace Undercroft.Shell.Web;

/// <summary>What a caller of an address that is no page must be allowed to do.</summary>
public sealed record Needs(Scope Scope);
