namespace Undercroft.Physics.Storage;

/// <summary>What passes one path per second and pascal of partial-pressure difference, and how that grows with warmth.</summary>
/// <param name="AtReference">Conductance at <see cref="ReferenceKelvin"/>, mol/(s·Pa).</param>
/// <param name="ActivationEnergy">E of the Arrhenius factor exp[−(E/R)(1/T − 1/296.15 K)], J/mol.</param>
public readonly record struct Conductance(double AtReference, double ActivationEnergy)
{
    /// <summary>The temperature to which every conductance of the model is referred: 23 °C.</summary>
    public const double ReferenceKelvin = 296.15;
}

/// <summary>One way between the inside of a package and the room: a film, a heat seal, a gasket, a zip, a slip lid, a seam, a hole. Paths add.</summary>
/// <param name="Name">What a person would point at: "film", "zip", "lid seal".</param>
/// <param name="Water">For water vapour.</param>
/// <param name="Oxygen">For oxygen.</param>
/// <param name="CarbonDioxide">For carbon dioxide.</param>
/// <param name="Nitrogen">For nitrogen, argon included.</param>
/// <param name="Viscous">Flow of the whole gas per pascal of total-pressure difference, mol/(s·Pa); 0 for films.</param>
public sealed record ExchangePath(
    string Name, Conductance Water, Conductance Oxygen, Conductance CarbonDioxide, Conductance Nitrogen, double Viscous = 0)
{
    /// <summary>The same path with every conductance multiplied: a longer seal, a leakier lid.</summary>
    /// <param name="factor">Not negative.</param>
    public ExchangePath Times(double factor) => this with
    {
        Water = Water with { AtReference = Water.AtReference * factor },
        Oxygen = Oxygen with { AtReference = Oxygen.AtReference * factor },
        CarbonDioxide = CarbonDioxide with { AtReference = CarbonDioxide.AtReference * factor },
        Nitrogen = Nitrogen with { AtReference = Nitrogen.AtReference * factor },
        Viscous = Viscous * factor,
    };
}
