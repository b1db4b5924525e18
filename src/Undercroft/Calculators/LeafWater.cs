using Undercroft.Ledger;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;

namespace Undercroft.Calculators;

/// <summary>Water that brings leaf to another moisture.</summary>
/// <param name="WaterG">Positive to add, negative to lose.</param>
/// <param name="FinalMassG">Of the leaf afterwards.</param>
public sealed record WaterFigures(double WaterG, double FinalMassG);

/// <summary>A point of an isotherm.</summary>
/// <param name="MoistureWetBasisPct">Water over the whole mass.</param>
/// <param name="MoistureDryBasisPct">Water over the dry mass.</param>
/// <param name="HumidityPct">Of air in balance.</param>
public sealed record IsothermFigures(double MoistureWetBasisPct, double MoistureDryBasisPct, double HumidityPct);

/// <summary>Air over a humectant.</summary>
/// <param name="HumidityPct">In balance with the solution.</param>
public sealed record HumectantFigures(double HumidityPct);

/// <summary>Leaf and water.</summary>
public static class LeafWater
{
    /// <summary>How much water to add or lose.</summary>
    /// <exception cref="Refusal">A mass that is not above zero.</exception>
    public static WaterFigures ToReach(Mass leaf, Moisture from, Moisture to)
    {
        var water = Written.Within(() => WaterToAdd.Of(leaf, from, to));
        return new(water.Grams, (leaf + water).Grams);
    }

    /// <summary>Moisture of leaf in balance with a humidity.</summary>
    /// <exception cref="Refusal">Humidity outside the isotherm: 100 %, or nearly so in the cold.</exception>
    public static IsothermFigures InBalanceWith(LeafKind leaf, RelativeHumidity humidity, Temperature temperature)
    {
        ArgumentNullException.ThrowIfNull(leaf);
        Check(temperature);
        if (humidity.Fraction is not (>= 0 and < 1))
            throw new Refusal($"No answer is given: leaf in air of {humidity.Percent.As("0.##")} % takes up water without end. Give a humidity below 100 %.");
        if (!(humidity.Fraction < SorptionShift.Factor(leaf.Isotherm.SorptionHeat, temperature)))
        {
            throw new Refusal(
                $"No answer is given: at {temperature.Celsius.As("0.##")} °C leaf in air of {humidity.Percent.As("0.##")} % lies beyond the end of its curve. Give a lower humidity.");
        }

        var moisture = Written.Within(() => SorptionShift.MoistureAt(leaf.Isotherm, humidity, temperature));
        return new(moisture.WetBasisPercent, 100 * moisture.DryBasis, humidity.Percent);
    }

    /// <summary>Humidity of air in balance with leaf of a moisture.</summary>
    /// <exception cref="Refusal">Leaf so moist that no air below 100 % balances it.</exception>
    public static IsothermFigures InBalanceWith(LeafKind leaf, Moisture moisture, Temperature temperature)
    {
        ArgumentNullException.ThrowIfNull(leaf);
        Check(temperature);
        var activity = Written.Within(() => SorptionShift.ActivityAt(leaf.Isotherm, moisture, temperature)).Fraction;
        return activity < 1
            ? new(moisture.WetBasisPercent, 100 * moisture.DryBasis, 100 * activity)
            : throw new Refusal($"No answer is given: leaf of {moisture.WetBasisPercent.As("0.##")} % is wetter than air can balance at this temperature. Give a lower moisture.");
    }

    /// <summary>Humidity over a solution of glycerol.</summary>
    public static HumectantFigures OverGlycerol(double massFraction) => new(100 * Written.Within(() => NorrishSolution.ActivityAt(massFraction)).Fraction);

    /// <summary>The leaf kind of a code, or the nearest ones.</summary>
    /// <exception cref="Refusal">Unknown.</exception>
    public static LeafKind Kind(string code) => LeafKinds.Find(code) ?? throw new Refusal(
        $"'{code}' is not a leaf that is known. Nearest: {string.Join(", ", LeafKinds.Nearest(code))}. All: {string.Join(", ", LeafKinds.All.Select(kind => kind.Code))}.");

    private static void Check(Temperature temperature)
    {
        if (temperature.Celsius is not (>= -40 and <= 80))
            throw new Refusal($"{temperature.Celsius.As("0.##")} °C is far outside the 5 to 40 °C from which the isotherms come. Give a temperature from −40 to 80 °C.");
    }
}
