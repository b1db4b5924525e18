using Undercroft.Physics.Air;
using Undercroft.Physics.Quantities;

namespace Undercroft.Physics.Barrier;

/// <summary>What a film lets through in a day where it is used, from what its data sheet says.</summary>
/// <remarks>
/// <para><b>Equation</b> permeance at T = permeance of the test·exp[−(E/R)(1/T − 1/T_test)]; flow = permeance·area·difference of partial pressure;
/// for water (RH_in − RH_out)·psat(T), for oxygen 0.2095·101 325 Pa outside against a share of it inside.</para>
/// <para><b>Source</b> Definition of permeance; factor of [Moyls1998] (<see cref="ArrheniusFactor"/>).</para>
/// <para><b>Valid</b> Film only. Closure, seal and creases come on top and usually decide.</para>
/// <para><b>Error</b> Data sheet against measurement 17 to 74 % [Moyls1998]; without an energy, 15 K away from the test, a factor of two.</para>
/// </remarks>
public static class FilmTransmission
{
    /// <summary>Permeance at another temperature than that of the test.</summary>
    /// <param name="tested">As tested.</param>
    /// <param name="test">Temperature of the test.</param>
    /// <param name="use">Temperature of use.</param>
    /// <param name="activationEnergy">J/mol; 0 where it is not known.</param>
    public static Permeance At(Permeance tested, Temperature test, Temperature use, double activationEnergy) =>
        new(Positive.OrZero(tested.MolPerM2SPa) * ArrheniusFactor.Between(use, test, activationEnergy));

    /// <summary>Water a day, outwards above zero.</summary>
    /// <param name="permeance">At the temperature of use.</param>
    /// <param name="area">Of film.</param>
    /// <param name="temperature">Of use.</param>
    /// <param name="inside">Humidity inside: the leaf's.</param>
    /// <param name="outside">Humidity of the room.</param>
    public static Mass WaterPerDay(Permeance permeance, Area area, Temperature temperature, RelativeHumidity inside, RelativeHumidity outside) => new(
        permeance.WaterKilogramsPerM2SPa * Positive.OrZero(area.SquareMetres) * 86400
        * (inside.Fraction - outside.Fraction) * SaturationPressure.OverWater(temperature).Pascals);

    /// <summary>Oxygen a day at the temperature of use and one atmosphere, inwards above zero.</summary>
    /// <param name="permeance">At the temperature of use.</param>
    /// <param name="area">Of film.</param>
    /// <param name="temperature">Of use.</param>
    /// <param name="insideShare">Share of oxygen inside, 0 to 1.</param>
    public static Volume OxygenPerDay(Permeance permeance, Area area, Temperature temperature, double insideShare = 0) =>
        OxygenPerDay(permeance.MolPerM2SPa * Positive.OrZero(area.SquareMetres), temperature, insideShare);

    /// <summary>Oxygen a day through any conductance, mol/(s·Pa), at the temperature of use and one atmosphere.</summary>
    public static Volume OxygenPerDay(double conductance, Temperature temperature, double insideShare = 0) => insideShare is >= 0 and <= 1
        ? new(Positive.OrZero(conductance) * (PhysicalConstants.OxygenInDryAir - insideShare) * 86400 * PhysicalConstants.GasConstant * Positive.Number(temperature.Kelvin))
        : throw new ArgumentOutOfRangeException(nameof(insideShare), insideShare, "A share lies within 0 to 1.");
}
