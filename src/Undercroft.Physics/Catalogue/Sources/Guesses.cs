using Undercroft.Physics.Barrier;

namespace Undercroft.Physics.Catalogue.Sources;

/// <summary>Gases that no source gives for a material, from those it gives, by the ratios that polymers usually keep. Assumptions, wide.</summary>
public static class Guesses
{
    /// <summary>Nitrogen over oxygen: 0.34 in polyethylene and natural rubber, down to 0.2 in stiff polymers.</summary>
    public const double NitrogenOverOxygen = 0.3;

    /// <summary>Carbon dioxide over oxygen: 3 to 6.</summary>
    public const double CarbonDioxideOverOxygen = 4.5;

    /// <summary>A guessed value, or null where not even oxygen is known or water is asked.</summary>
    public static MaterialValue? Of(string material, Permeant permeant)
    {
        if (Materials.Find(material, Permeant.Oxygen) is not { } oxygen || Ratio(permeant) is not { } ratio)
            return null;
        return oxygen with
        {
            Permeant = permeant,
            Low = oxygen.Low * ratio,
            High = oxygen.High * ratio,
            LogSd = Math.Max(0.7, oxygen.LogSd),
            Evidence = new(Provenance.Assumption, "", FormattableString.Invariant($"{ratio} times oxygen of [{oxygen.Evidence.Source}]")),
        };
    }

    private static double? Ratio(Permeant permeant) => permeant switch
    {
        Permeant.Nitrogen => NitrogenOverOxygen,
        Permeant.CarbonDioxide => CarbonDioxideOverOxygen,
        Permeant.Oxygen or Permeant.Water => null,
        _ => throw new ArgumentOutOfRangeException(nameof(permeant), permeant, "Unknown permeant."),
    };
}
