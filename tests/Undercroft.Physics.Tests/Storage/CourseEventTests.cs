using Undercroft.Physics.Air;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>What a person does in mid-course. Source: own computation by the fine engine from one act to the next, the acts on paper.</summary>
public class CourseEventTests
{
    private const double R = PhysicalConstants.GasConstant;
    private static readonly OswinIsotherm Leaf = new(0.12, 0.6, 2500);
    private static readonly SinusoidClimate Cellar = new(12, 4, 1, -1.8, 0.6, 0.08, 1);
    private static readonly SinusoidClimate Study = new(21, 3, 2, -1.8, 0.45, 0.1, 1);
    private static readonly ClimateTable CellarTable = ClimateTable.Daily(Cellar, 3000);
    private static readonly ClimateTable StudyTable = ClimateTable.Daily(Study, 3000);
    private static readonly UptakeDraws Uptake = new(5e-12 * 1000 / 86400, 293.15, 2, 0.9, UptakeBasis.PerPascal, PerKilogram: true);

    [Fact]
    public void A_course_of_moves_openings_and_another_jar_stays_with_the_fine_engine()
    {
        var (large, small) = (Film(4e-4, 500), Film(1.5e-4, 200));
        Course course = new(
            1, 0.08, [Leaf], Leaf.MoistureAt(new(0.66)).DryBasis,
            [
                Rigid(0, 400, CellarTable, 4e-4, large, CourseEvent.Sealed.InTheRoom),
                Rigid(400, 700, StudyTable, 4e-4, large),
                Rigid(700, 1500, StudyTable, 1.5e-4, small, new CourseEvent.TakenOut(0.5), new CourseEvent.WaterAdded(0.001), CourseEvent.Sealed.InTheRoom),
                Rigid(1500, 2000, StudyTable, 1.5e-4, small, new CourseEvent.Opened(0.6)),
            ],
            [399, 699, 1499, 1501, 2000], []);
        var fast = EnsembleEngine.Run(course);

        PackageModel jar = new(new(0.08), Leaf, new Headspace.Rigid(new(4e-4)), [large], OfMass(0.08), RoomAir.Ordinary);
        var state = PackageState.Sealed(jar, Leaf.MoistureAt(new(0.66)), DayMean(Cellar, 0), new(101325));
        var first = DailyMeans.Fine(jar, state, Cellar, [399]);
        Near(first[0], fast, 0);
        state = After(jar, state, Cellar, 0, 400);
        Near(DailyMeans.Fine(jar, state, Study, [699], 400)[0], fast, 1);
        state = After(jar, state, Study, 400, 700);
        PackageModel little = new(new(0.04), Leaf, new Headspace.Rigid(new(1.5e-4)), [small], OfMass(0.04), RoomAir.Ordinary);
        state = PackageState.Sealed(little, new((state.Water.Kilograms / 2 + 0.001) / 0.04), DayMean(Study, 700), new(101325));
        Near(DailyMeans.Fine(little, state, Study, [1499], 700)[0], fast, 2);
        state = After(little, state, Study, 700, 1500);
        var kelvin = DayMean(Study, 1500);
        var saturation = SaturationPressure.PascalOverWater(kelvin);
        var vapour = SorptionShift.ActivityAt(Leaf, new(state.Water.Kilograms / 0.04), new(kelvin)).Fraction * saturation;
        var room = Study.At(1500).RelativeHumidity * saturation;
        var fresh = (101325 - vapour) * 1.5e-4 / (R * kelvin);
        state = new(
            new(state.Water.Kilograms - (0.6 * 1.5e-4 * (vapour - room) * PhysicalConstants.MolarMassOfWater / (R * kelvin))),
            (0.4 * state.OxygenMoles) + (0.6 * 0.2095 * fresh), (0.4 * state.CarbonDioxideMoles) + (0.6 * 0.00042 * fresh), (0.4 * state.NitrogenMoles) + (0.6 * 0.7901 * fresh));
        var last = DailyMeans.Fine(little, state, Study, [1501, 2000], 1500);
        Near(last[0], fast, 3);
        Near(last[1], fast, 4);
        Assert.Equal(0.04, fast.DryMass[4][0], 1e-15);
    }

    [Fact]
    public void A_closure_that_fails_lets_in_what_the_fine_engine_says()
    {
        var (sound, gap) = (Film(4e-4, 2000), Film(4e-4, 20));
        var stay = Rigid(0, 1000, StudyTable, 4e-4, sound, CourseEvent.Sealed.InTheRoom);
        stay = stay with { Paths = [PathDraws.Of(sound, 1), PathDraws.Of(gap, 1, (PerDraw)new[] { 500.0, double.PositiveInfinity })] };
        var fast = EnsembleEngine.Run(new(2, 0.08, [Leaf], Leaf.MoistureAt(new(0.66)).DryBasis, [stay], [490, 1000], []));
        PackageModel jar = new(new(0.08), Leaf, new Headspace.Rigid(new(4e-4)), [sound], OfMass(0.08), RoomAir.Ordinary);
        var start = PackageState.Sealed(jar, Leaf.MoistureAt(new(0.66)), DayMean(Study, 0), new(101325));
        var failed = DailyMeans.Fine(jar with { Paths = [sound, gap] }, After(jar, start, Study, 0, 500), Study, [1000], 500)[0];
        Assert.Equal(failed.Moisture.WetBasis, fast.MoistureWetBasis[1][0], 5e-4);
        Assert.Equal(failed.Oxygen.Pascals, fast.Oxygen[1][0], 100.0);
        var held = DailyMeans.Fine(jar, start, Study, [490, 1000]);
        Assert.Equal(held[1].Moisture.WetBasis, fast.MoistureWetBasis[1][1], 5e-4);
        Assert.Equal(held[1].Oxygen.Pascals, fast.Oxygen[1][1], 100.0);
        Assert.Equal(fast.Oxygen[0][0], fast.Oxygen[0][1]);
        Assert.True(fast.MoistureWetBasis[1][0] < fast.MoistureWetBasis[1][1] - 0.001);
    }

    [Fact]
    public void A_jar_in_use_grows_lighter_by_its_pace()
    {
        var stay = Rigid(0, 70, StudyTable, 4e-4, Film(4e-4, 1e9), CourseEvent.Sealed.InTheRoom) with { LeafTakenPerDay = 0.0005 };
        var result = EnsembleEngine.Run(new(1, 0.08, [Leaf], 0.15, [stay], [70], []));
        Assert.Equal((0.08 * 1.15) - (70 * 0.0005), result.DryMass[0][0] + result.Water[0][0], 1e-6);
    }

    [Fact]
    public void Mixed_tables_of_drawn_numbers_are_those_of_each_number()
    {
        var random = new Random(7);
        double[] Drawn(double low, double high) => [.. Enumerable.Range(0, 6).Select(_ => low + ((high - low) * random.NextDouble()))];
        var (warmer, damper, q10, heat, factor) = (Drawn(-3, 3), Drawn(-0.05, 0.05), Drawn(1.5, 3), Drawn(1400, 4200), Drawn(0.3, 3));
        Course Of(int draws, PerDraw t, PerDraw rh, PerDraw q, IReadOnlyList<Isotherm> leaf, PerDraw f) => new(
            draws, 0.08, leaf, 0.17,
            [Rigid(0, 2000, CellarTable, 4e-4, Film(4e-4, 300), CourseEvent.Sealed.InTheRoom) with
            {
                TemperatureOffset = t, HumidityOffset = rh, Uptake = Uptake with { Q10 = q }, Paths = [PathDraws.Of(Film(4e-4, 300), f)],
            }],
            [500, 2000], []);

        var all = EnsembleEngine.Run(Of(6, warmer, damper, q10, [.. heat.Select(each => Leaf with { SorptionHeat = each })], factor));
        for (var draw = 0; draw < 6; draw++)
        {
            var one = EnsembleEngine.Run(Of(1, warmer[draw], damper[draw], q10[draw], [Leaf with { SorptionHeat = heat[draw] }], factor[draw]));
            for (var row = 0; row < 2; row++)
            {
                // A tenth of the accuracy asked of the whole.
                Assert.Equal(one.MoistureWetBasis[row][0], all.MoistureWetBasis[row][draw], 5e-5);
                Assert.Equal(one.Oxygen[row][0], all.Oxygen[row][draw], 10.0);
                Assert.Equal(one.CarbonDioxide[row][0], all.CarbonDioxide[row][draw], 10.0);
                Assert.Equal(one.Total[row][0], all.Total[row][draw], 20.0);
            }
        }
    }

    [Fact]
    public void Leaf_that_starts_beyond_its_isotherm_is_reported_and_not_a_number()
    {
        var stay = Rigid(0, 100, StudyTable, 4e-4, Film(4e-4, 300), CourseEvent.Sealed.InTheRoom);
        var result = EnsembleEngine.Run(new(
            2, 0.08, [new GabIsotherm(0.09, 5, 0.85, 0)], (PerDraw)new[] { 0.15, 3.0 }, [stay], [50, 100], [new Limit.MoistureBelow(0.01)]));
        Assert.Equal([false, true], result.LeftRange);
        Assert.Equal(1, result.LeftRangeCount);
        Assert.True(double.IsNaN(result.Oxygen[1][1]));
        Assert.False(double.IsNaN(result.Oxygen[1][0]));
    }

    [Fact]
    public void Stays_with_a_gap_and_impossible_numbers_are_refused()
    {
        var stay = Rigid(0, 100, StudyTable, 4e-4, Film(4e-4, 300), CourseEvent.Sealed.InTheRoom);
        void Refused(Course course) => Assert.Throws<ArgumentOutOfRangeException>(() => EnsembleEngine.Run(course));
        Course good = new(1, 0.08, [Leaf], 0.15, [stay], [50], []);
        EnsembleEngine.Run(good);
        Refused(good with { Stays = [stay, stay with { FromDay = 120, ToDay = 130 }] });
        Refused(good with { DryMass = -1 });
        Refused(good with { DryMass = double.NaN });
        Refused(good with { StartMoisture = double.NaN });
        Refused(good with { OutputDays = [50, 40] });
        Refused(good with { OutputDays = [101] });
        Refused(good with { Draws = 0 });
        Refused(good with { Draws = 3, DryMass = (PerDraw)new[] { 1.0, 2.0 } });
        Refused(good with { Stays = [stay with { Headspace = new HeadspaceDraws.Rigid(0) }] });
        Refused(good with { Stays = [stay with { ToDay = 100_000 }], OutputDays = [50], Leaf = [] });
    }

    private static Stay Rigid(int from, int to, ClimateTable place, double volume, ExchangePath film, params CourseEvent[] events) => new(
        from, to, place, new HeadspaceDraws.Rigid(volume), [PathDraws.Of(film, 1)], Uptake, RoomAir.Ordinary, events);

    private static ExchangePath Film(double volume, double days)
    {
        var oxygen = volume / (R * 296.15 * days * 86400);
        return new("film", new(oxygen * 100, 35_000), new(oxygen, 33_000), new(4 * oxygen, 30_000), new(0.3 * oxygen, 40_000));
    }

    private static OxygenUptake OfMass(double dryMass) => new(5e-12 * 1000 / 86400 * dryMass, 293.15, 2, 0.9, UptakeBasis.PerPascal);

    private static double DayMean(SinusoidClimate climate, int day) => Enumerable.Range(0, 24).Average(hour => climate.At(day + ((hour + 0.5) / 24)).Kelvin);

    private static PackageState After(PackageModel model, PackageState start, SinusoidClimate climate, int from, int to)
    {
        var row = FineEngine.Run(model, start, climate, [to], from).Rows[0];
        var perPascal = ((Headspace.Rigid)model.Headspace).Volume.CubicMetres / (R * climate.At(to).Kelvin);
        return new(
            new(row.Moisture.DryBasis * model.DryMass.Kilograms), row.Oxygen.Pascals * perPascal, row.CarbonDioxide.Pascals * perPascal, row.Nitrogen.Pascals * perPascal);
    }

    private static void Near(StorageRow fine, EnsembleCourse fast, int row)
    {
        Assert.Equal(fine.Moisture.WetBasis, fast.MoistureWetBasis[row][0], 5e-4);
        Assert.Equal(fine.Oxygen.Pascals, fast.Oxygen[row][0], 100.0);
        Assert.Equal(fine.CarbonDioxide.Pascals, fast.CarbonDioxide[row][0], 100.0);
        Assert.Equal(fine.Total.Pascals, fast.Total[row][0], 200.0);
    }
}
