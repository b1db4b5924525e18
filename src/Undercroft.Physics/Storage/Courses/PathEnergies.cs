namespace Undercroft.Physics.Storage.Courses;

/// <summary>Activation energies of one path where they are drawn too, J/mol.</summary>
/// <param name="Water">For water.</param>
/// <param name="Oxygen">For oxygen.</param>
/// <param name="CarbonDioxide">For carbon dioxide.</param>
/// <param name="Nitrogen">For nitrogen.</param>
public sealed record PathEnergies(PerDraw Water, PerDraw Oxygen, PerDraw CarbonDioxide, PerDraw Nitrogen);
