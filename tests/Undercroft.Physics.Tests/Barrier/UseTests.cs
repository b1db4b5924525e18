using CsCheck;
using Undercroft.Physics.Barrier;
using Undercroft.Physics.Catalogue;
using Undercroft.Physics.Quantities;
using Xunit;

namespace Undercroft.Physics.Tests.Barrier;

public class UseTests
{
    private static readonly Temperature Cupboard = Temperature.FromCelsius(20);

    // Own computation by hand: 0.9 g/(m²·day) at 38 °C/90 %, 300 cm², 65 over 45 % at 20 °C, 33.5 kJ/mol: 0.955 mg a day.
    [Fact]
    public void Water_of_a_data_sheet_where_it_is_used()
    {
        var tested = Permeance.FromGramsPerM2Day(0.9, WaterTest.Tropical);
        var used = FilmTransmission.At(tested, Temperature.FromCelsius(38), Cupboard, 33.5e3);
        var perDay = FilmTransmission.WaterPerDay(
            used, Area.FromSquareCentimetres(300), Cupboard, RelativeHumidity.FromPercent(65), RelativeHumidity.FromPercent(45));
        Assert.Equal(0.955, perDay.Grams * 1e3, 0.001);
    }

    // 150 cm³(STP)/(m²·day·atm) over 300 cm² from air into none: 150 × 0.03 × 0.2095 = 0.943 cm³(STP), 1.012 ml at 20 °C.
    [Fact]
    public void Oxygen_of_a_data_sheet_where_it_is_used()
    {
        var perDay = FilmTransmission.OxygenPerDay(Permeance.FromCm3PerM2DayAtm(150), Area.FromSquareCentimetres(300), Cupboard);
        Assert.Equal(150 * 0.03 * 0.2095 * 293.15 / 273.15, perDay.Millilitres, 1e-6);
        Assert.Equal(0, FilmTransmission.OxygenPerDay(Permeance.FromCm3PerM2DayAtm(150), Area.FromSquareCentimetres(300), Cupboard, 0.2095).Millilitres, 1e-12);
    }

    // Polyethylene bag 16 × 10 cm, 50 µm, [FitnessU12] at 23 °C: 24 ml of oxygen a day by the film alone.
    [Fact]
    public void A_small_polyethylene_bag_takes_in_its_own_volume_of_air_in_days()
    {
        var film = Materials.Find("ldpe", Permeant.Oxygen)!.Middle.Through(Length.FromMicrometres(50));
        var perDay = FilmTransmission.OxygenPerDay(film, Area.FromSquareCentimetres(2 * 160), Temperature.FromCelsius(23));
        Assert.Equal(24, perDay.Millilitres, 2.5); // worked out to two digits with volumes at 0 °C
    }

    // [ConservationPhysics]: a tenth each hour is 10, 19, 27(.1) %; steady exchange gives 9.52, 18.13, 25.92 %.
    [Theory]
    [InlineData(1, 10, 9.52)]
    [InlineData(2, 19, 18.13)]
    [InlineData(3, 27.1, 25.92)]
    public void Matches_ConservationPhysics_air_exchange(int hours, double refilled, double steady)
    {
        Assert.Equal(refilled, 100 * AirExchange.ReplacedByRefills(0.1, hours), 0.05);
        Assert.Equal(steady, 100 * AirExchange.Replaced(0.1, hours), 0.005);
    }

    [Fact]
    public void Many_small_refills_tend_to_steady_exchange() =>
        Gen.Select(Gen.Double[0.001, 5], Gen.Double[0.01, 3]).Holds((rate, time) =>
            Math.Abs(AirExchange.ReplacedByRefills(rate * time / 1e6, 1_000_000) - AirExchange.Replaced(rate, time)) < 1e-4);

    // From memory of a textbook example, not re-read: polyester bottle, P 0.23e-13 cm³(STP)·cm/(cm²·s·Pa), 400 against 0.4 kPa, 0.05 cm, 500 cm²: flux 1.8e-7,
    // 9.0e-5 cm³/s, 750 cm³ gone in 97 days (94 without its rounding): 3 %.
    [Fact]
    public void Carbonated_bottle_from_memory()
    {
        var wall = Permeability.FromCm3CmPerCm2SPa13(0.23).Through(new Length(0.05e-2));
        var molPerSecond = wall.MolPerM2SPa * 500e-4 * (400e3 - 0.4e3);
        var cubicCentimetres = molPerSecond * 22413.97;
        Assert.Equal(9.0e-5, cubicCentimetres, 9.0e-5 * 0.03);
        Assert.Equal(97, 750 / cubicCentimetres / 86400, 97 * 0.03);
    }

    // Geometry: round 80 mm, two turns, drawn to twice its length, 20 mm overlap: 251 + 20 mm; 110 × 80 mm at 1.7: 447 + 20 mm.
    [Fact]
    public void Strips_for_lids()
    {
        Assert.Equal(271, StripLength.Of(StripLength.Around(Length.FromMillimetres(80)), 2, 2, StripLength.UsualOverlap).Millimetres, 0.5);
        Assert.Equal(467, StripLength.Of(StripLength.Around(Length.FromMillimetres(110), Length.FromMillimetres(80)), 2, 1.7, StripLength.UsualOverlap).Millimetres, 0.5);
    }

    [Fact]
    public void A_data_sheet_becomes_a_pouch_with_the_closure_of_another()
    {
        var sheet = new DataSheet("polyester 12 µm", 43, WaterTest.Tropical, 140, Temperature.FromCelsius(23));
        var bag = ContainerKinds.Find("bag-zip")!;
        var own = sheet.Container(bag, "own-1", Area.FromSquareCentimetres(680), Volume.FromMillilitres(1000));
        Assert.Equal(["film", "zip"], own.Paths.Select(path => path.Median.Name));
        Assert.Equal(bag.Paths[1], own.Paths[1]);
        var expected = 43e-3 / 0.01801528 / 86400 / WaterTest.Tropical.Difference.Pascals * 680e-4;
        Assert.Equal(expected, ArrheniusFactor.At(Temperature.FromCelsius(38), own.Paths[0].Median.Water), expected * 1e-9);
        Assert.All(own.Paths, path => Assert.NotEqual(Provenance.Published, path.Evidence.Provenance));
        Assert.Throws<ArgumentException>(() => sheet.Container(ContainerKinds.Find("jar-473")!, "own-2", new(0.01), Volume.FromLitres(1)));
        Assert.Throws<ArgumentException>(() => sheet.Container(bag, "jar-473", new(0.01), Volume.FromLitres(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => (sheet with { WaterGramsPerM2Day = double.NaN }).Film());
    }

    [Fact]
    public void Gases_that_no_source_gives_are_guessed_and_say_so()
    {
        foreach (var material in Materials.Codes.Where(code => Materials.Find(code, Permeant.Oxygen) is not null))
        {
            Assert.NotNull(Materials.FindOrGuess(material, Permeant.CarbonDioxide));
            var nitrogen = Materials.FindOrGuess(material, Permeant.Nitrogen)!;
            if (Materials.Find(material, Permeant.Nitrogen) is null)
                Assert.Equal((Provenance.Assumption, true), (nitrogen.Evidence.Provenance, nitrogen.LogSd >= 0.7));
            Assert.True(nitrogen.Middle.MolMPerM2SPa < Materials.Find(material, Permeant.Oxygen)!.Middle.MolMPerM2SPa);
        }

        Assert.Null(Materials.FindOrGuess("cardboard", Permeant.Nitrogen));
    }
}
