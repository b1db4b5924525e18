using Undercroft.Forecasts;
using Undercroft.Forecasts.Comparing;
using Undercroft.Ledger;
using Undercroft.Physics.Quantities;

namespace Undercroft.Comparing;

/// <summary>A comparison as a person asks for it, in words: the same at every door.</summary>
/// <param name="Mass">Such as 100g.</param>
/// <param name="Years">Horizon.</param>
/// <param name="Leaf">Leaf kind; null for mixed leaf.</param>
/// <param name="Place">A place of the cellar or a kind of room; null for somewhere indoors.</param>
/// <param name="Moisture">Such as 16%; null where nobody knows.</param>
/// <param name="Cut">Cut; null where nobody says.</param>
/// <param name="Kinds">Container kinds; empty for the usual ones.</param>
/// <param name="Draws">Size of the ensemble.</param>
/// <param name="Seed">The same seed gives the same answer.</param>
public sealed record CompareQuery(
    string? Mass, double Years, string? Leaf, string? Place, string? Moisture, string? Cut, IReadOnlyList<string> Kinds, int Draws = 256, ulong Seed = 1)
{
    /// <summary>Leaf where nobody says how much.</summary>
    public const string UsualMass = "100g";

    /// <summary>Works it out.</summary>
    /// <exception cref="Refusal">A word that cannot be read, an unknown code, a number that cannot be.</exception>
    public Comparison Answer(Cellar cellar, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(cellar);
        var question = LotQuestion.At(
            cellar, Said(Place), new Mass(Read(QuantityText.OfMass, Said(Mass) ?? UsualMass)), Said(Leaf), Said(Cut), Said(Moisture) is { } percent ? Read(QuantityText.OfPercent, percent) : null);
        return Comparison.Of(cellar, question, Kinds, new ForecastAsk(today, Years, Draws, Seed));
    }

    private static string? Said(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private static double Read(QuantityText units, string text) => units.TryRead(text, out var why) ?? throw new Refusal(why);
}
