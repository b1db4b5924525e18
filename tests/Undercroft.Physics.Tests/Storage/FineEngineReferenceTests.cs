using Undercroft.Physics.Storage;
using Undercroft.Physics.Tests.Reference;
using Xunit;

namespace Undercroft.Physics.Tests.Storage;

/// <summary>Source: own computation by an independent stiff solver, Reference/forecast.</summary>
public class FineEngineReferenceTests(ITestOutputHelper output)
{
    public static TheoryData<string> Cases => [.. ReferenceCase.Names];

    [Theory]
    [MemberData(nameof(Cases))]
    public void Reproduces_the_independent_stiff_solver(string number)
    {
        var reference = ReferenceCase.Read(number);
        var course = FineEngine.Run(reference.Model, reference.Start, reference.Climate, reference.Days);
        var distance = RowDistance.Between(reference.Expected, course.Rows);
        output.WriteLine($"{reference.Name} {distance} {course.Steps}");
        distance.AssertWithinTheModelsAccuracy();
    }
}
