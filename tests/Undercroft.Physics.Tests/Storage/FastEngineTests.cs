using System.Globalization;
using Undercroft.Physics.Solving;
using Undercroft.Physics.Storage;
using Undercroft.Physics.Tests.Reference;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>Source: own computation by an independent stiff solver, Reference/forecast.</summary>
public class FastEngineTests(ITestOutputHelper output)
{
    public static TheoryData<string> Cases => [.. ReferenceCase.Names];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Reproduces_the_independent_stiff_solver(string number)
    {
        var reference = ReferenceCase.Read(number);
        var rows = FastEngine.Run(reference.Model, reference.Start, reference.Climate, reference.Days);
        var distance = RowDistance.Between(reference.Expected, rows);
        output.WriteLine($"{reference.Name} {distance}");
        distance.AssertWithinTheModelsAccuracy();
    }

    public static TheoryData<int> Seeds => [.. Enumerable.Range(1, int.Parse(Environment.GetEnvironmentVariable("UNDERCROFT_SEEDS") ?? "12", CultureInfo.InvariantCulture))];

    /// <summary>Source: own computation by the fine engine; a fixed sample of the packages that the model speaks of.</summary>
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Stays_with_the_fine_engine_over_the_whole_range(int seed)
    {
        var drawn = DrawnCase.From(seed);
        var fine = FineEngine.Run(drawn.Model, drawn.Start, drawn.Climate, drawn.Days);
        Assert.Equal(SolverStatus.Running, fine.Status);
        var distance = RowDistance.Between(fine.Rows, FastEngine.Run(drawn.Model, drawn.Start, drawn.Climate, drawn.Days));
        output.WriteLine($"{seed} {distance}");
        distance.AssertWithinTheModelsAccuracy();
    }
}
