using System.Diagnostics;
using Undercroft.Physics.Air;
using Undercroft.Physics.Climate;
using Undercroft.Physics.Leaf;
using Undercroft.Physics.Quantities;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Storage.Courses;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>The kernel of ensembles against closed forms, against each draw alone, and against itself on lesser processors. Source: own computation.</summary>
public class KernelTests(ITestOutputHelper output)
{
    private const double R = PhysicalConstants.GasConstant;
    private const string Digest = "UNDERCROFT_EXPECTED_DIGEST";

    private static readonly SinusoidClimate Attic = new(15, 8, 5, -1.8, 0.5, 0.12, 1.0);

    [Theory]
    [InlineData(10_000)]
    [InlineData(25_000)]
    [InlineData(45_000)]
    [InlineData(60_000)]
    public void Five_points_in_temperature_carry_any_activation_energy(double energy)
    {
        var table = ClimateTable.Daily(Attic, 365);
        var (sums, node) = (new double[TemperatureBasis.Width], table.Basis.NodeKelvin);
        table.Basis.Between(40, 131, sums);
        var (water, gas) = (0.0, 0.0);
        for (var k = 0; k < TemperatureBasis.Nodes; k++)
        {
            var warmth = Warmth(energy, node[k]) / Math.Exp(TemperatureBasis.LogReference(node[k]));
            water += warmth * sums[TemperatureBasis.WaterHumid + k];
            gas += warmth * sums[TemperatureBasis.Gas + k];
        }

        // The same integrals by many short steps.
        var (exactWater, exactGas) = (0.0, 0.0);
        const int PerDay = 96;
        for (var i = 0; i < 91 * PerDay; i++)
        {
            var room = Attic.At(40 + ((i + 0.5) / PerDay));
            exactGas += Warmth(energy, room.Kelvin) / PerDay;
            exactWater += Warmth(energy, room.Kelvin) * room.RelativeHumidity * SaturationPressure.PascalOverWater(room.Kelvin) / PerDay;
        }

        output.WriteLine($"{(water / exactWater) - 1} {(gas / exactGas) - 1}");
        Assert.Equal(1, water / exactWater, 2e-4);
        Assert.Equal(1, gas / exactGas, 2e-4);
    }

    [Fact]
    public void Drawn_activation_energies_give_what_each_draw_gives_alone()
    {
        const int Draws = 5;
        var course = Course(Draws, 10);
        var path = course.Stays[0].Paths[0];
        double[] energies = [15_000, 25_000, 35_000, 45_000, 55_000];
        course = course with { Stays = [course.Stays[0] with { Paths = [path with { Energies = new(energies, energies, energies, energies) }] }] };
        var together = EnsembleEngine.Run(course);
        for (var draw = 0; draw < Draws; draw++)
        {
            var e = energies[draw];
            ExchangePath own = new(
                "film", path.Median.Water with { ActivationEnergy = e }, path.Median.Oxygen with { ActivationEnergy = e },
                path.Median.CarbonDioxide with { ActivationEnergy = e }, path.Median.Nitrogen with { ActivationEnergy = e });
            var alone = EnsembleEngine.RunAlone(course with { Draws = 1, Stays = [course.Stays[0] with { Paths = [PathDraws.Of(own, 1)] }] });
            for (var row = 0; row < course.OutputDays.Count; row++)
            {
                Assert.Equal(alone.MoistureWetBasis[row][0], together.MoistureWetBasis[row][draw], 2e-5);
                Assert.Equal(alone.Oxygen[row][0], together.Oxygen[row][draw], 10.0);
                Assert.Equal(alone.Total[row][0], together.Total[row][draw], 20.0);
            }
        }
    }

    [Fact]
    public void Closures_that_fail_in_their_own_time_give_what_each_draw_gives_alone()
    {
        const int Draws = 40;
        var course = Course(Draws, 20);
        var sound = course.Stays[0].Paths[0];
        PerDraw days = Enumerable.Range(0, Draws).Select(draw => draw % 3 == 0 ? double.PositiveInfinity : 100.0 + (170 * draw)).ToArray();
        var failing = course with { Stays = [course.Stays[0] with { Paths = [sound, PathDraws.Of(sound.Median.Times(40), 1, days)] }] };
        var (together, alone) = (EnsembleEngine.Run(failing), EnsembleEngine.RunAlone(failing));
        var (moisture, oxygen) = (0.0, 0.0);
        for (var row = 0; row < course.OutputDays.Count; row++)
        {
            for (var draw = 0; draw < Draws; draw++)
            {
                moisture = Math.Max(moisture, 100 * Math.Abs(alone.MoistureWetBasis[row][draw] - together.MoistureWetBasis[row][draw]));
                oxygen = Math.Max(oxygen, Math.Abs(alone.Oxygen[row][draw] - together.Oxygen[row][draw]) / 1000);
            }
        }

        output.WriteLine($"{moisture} points, {oxygen} kPa");
        Assert.InRange(moisture, 0, 0.05);
        Assert.InRange(oxygen, 0, 0.1);
    }

    [Fact]
    public void Bands_are_the_quantiles_of_the_draws()
    {
        var course = Course(70, 6);
        var (all, bands) = (EnsembleEngine.Run(course), EnsembleEngine.Bands(course, [0.05, 0.5, 0.95]));
        for (var row = 0; row < course.OutputDays.Count; row++)
        {
            for (var p = 0; p < 3; p++)
            {
                var probability = new[] { 0.05, 0.5, 0.95 }[p];
                Assert.Equal(Quantile.Of(all.MoistureWetBasis[row], probability), bands.MoistureWetBasis.Quantiles[p][row]);
                Assert.Equal(Quantile.Of(all.Oxygen[row], probability), bands.Oxygen.Quantiles[p][row]);
                Assert.Equal(Quantile.Of(all.Total[row], probability), bands.Total.Quantiles[p][row]);
            }
        }

        Assert.Equal(all.FirstDay[0], bands.FirstDay[0]);
    }

    [Fact]
    public void Water_alone_is_the_water_of_the_whole()
    {
        var course = Course(33, 6);
        var (whole, water) = (EnsembleEngine.Run(course), EnsembleEngine.Run(course with { WithGas = false }));
        Assert.All(Enumerable.Range(0, course.OutputDays.Count), row => Assert.Equal(whole.MoistureWetBasis[row], water.MoistureWetBasis[row]));
        Assert.All(water.Oxygen[0], value => Assert.True(double.IsNaN(value)));
    }

    [Fact]
    public void A_leakier_package_is_never_further_from_its_room()
    {
        var course = Course(1, 30);
        var sound = course.Stays[0].Paths[0];
        double[] factors = [0, 0.1, 0.5, 1, 3, 10, 100];
        var all = EnsembleEngine.Run(course with { Draws = factors.Length, StartMoisture = 0.2, Stays = [course.Stays[0] with { Paths = [PathDraws.Of(sound.Median, factors)] }] });
        for (var draw = 0; draw + 1 < factors.Length; draw++)
            Assert.True(all.MoistureWetBasis[0][draw] >= all.MoistureWetBasis[0][draw + 1] - 1e-9, $"{factors[draw]}");
        Assert.Equal(all.Water[0][0], all.Water[^1][0], 1e-9); // closed: it keeps its water, but for the rounding of the isotherm's table
    }

    [Fact]
    public void Draws_that_leave_the_range_are_counted()
    {
        var course = Course(12, 3);
        PerDraw moist = Enumerable.Range(0, 12).Select(draw => draw < 4 ? 300.0 : 0.16).ToArray(); // no leaf of this curve holds three hundred times its weight
        var result = EnsembleEngine.Run(course with { StartMoisture = moist });
        Assert.Equal(4, result.LeftRangeCount);
        Assert.All(Enumerable.Range(0, 12), draw => Assert.Equal(draw < 4, double.IsNaN(result.MoistureWetBasis[^1][draw])));
    }

    [Fact]
    public void The_digest_is_that_of_single_numbers_and_of_whoever_asked()
    {
        var course = Course(21, 5);
        var here = DigestOf(EnsembleEngine.Run(course));
        Assert.Equal(DigestOf(EnsembleEngine.RunWith<Single1>(course)), here);
        Assert.Equal(Environment.GetEnvironmentVariable(Digest) ?? here, here);
    }

    [Theory]
    [InlineData("DOTNET_EnableAVX512")]
    [InlineData("DOTNET_EnableAVX2")]
    public void A_lesser_processor_gives_the_same_bits(string without)
    {
        ProcessStartInfo start = new(Environment.ProcessPath!, ["-method", $"*{nameof(The_digest_is_that_of_single_numbers_and_of_whoever_asked)}"]) { RedirectStandardOutput = true };
        start.Environment[without] = "0";
        start.Environment[Digest] = DigestOf(EnsembleEngine.Run(Course(21, 5)));
        using var process = Process.Start(start)!;
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0 && said.Contains("Total: 1, Errors: 0, Failed: 0", StringComparison.Ordinal), said);
    }

    private static double Warmth(double energy, double kelvin) => Math.Exp(energy / R * ((1 / 296.15) - (1 / kelvin)));

    private static string DigestOf(EnsembleCourse course) => Convert.ToHexString(System.Security.Cryptography.SHA256.HashData(
        [.. course.MoistureWetBasis.Concat(course.Oxygen).Concat(course.CarbonDioxide).Concat(course.Total).Concat(course.FirstDay).SelectMany(row => row).SelectMany(BitConverter.GetBytes)]));

    private static Course Course(int draws, int years)
    {
        var random = new Random(8);
        PerDraw Each(double low, double high) => draws == 1 ? (low + high) / 2 : Enumerable.Range(0, draws).Select(_ => low + ((high - low) * random.NextDouble())).ToArray();
        var oxygen = 3e-4 / (R * 296.15 * 120 * 86400);
        ExchangePath film = new("film", new(oxygen * 100, 35_000), new(oxygen, 33_000), new(4 * oxygen, 30_000), new(0.3 * oxygen, 40_000));
        Stay stay = new(
            0, years * 365, ClimateTable.Daily(Attic, 365), new HeadspaceDraws.Rigid(3e-4), [PathDraws.Of(film, draws == 5 ? 1 : Each(0.3, 3))],
            new(3e-9, 293.15, 2, 0.9, UptakeBasis.PerMole, PerKilogram: false), RoomAir.Ordinary, [CourseEvent.Sealed.InTheRoom]);
        return new(
            draws, 0.05, [new OswinIsotherm(0.12, 0.6, 2500)], 0.16, [stay], [.. Enumerable.Range(1, years * 4).Select(quarter => (int)(quarter * 91.25))], [new Limit.MoistureBelow(0.12)]);
    }
}
