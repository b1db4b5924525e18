namespace Undercroft.Shell.Web;

/// <summary>A part of the page of one lot. The rooms of the program each bring their own; none knows the others.</summary>
/// <param name="Order">Smaller stands higher.</param>
/// <param name="Component">Takes the parameter <c>Lot</c>.</param>
public sealed record LotPanel(int Order, Type Component);
