namespace Undercroft.Shell.Web;

/// <summary>A part of the page of one package. The rooms of the program each bring their own; none knows the others.</summary>
/// <param name="Order">Smaller stands higher.</param>
/// <param name="Component">Takes the parameters <c>Package</c> and <c>Cellar</c>.</param>
public sealed record PackagePanel(int Order, Type Component);
