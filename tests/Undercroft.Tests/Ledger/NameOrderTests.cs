using Undercroft.Ledger;
using Xunit;

namespace Undercroft.Tests.Ledger;

public sealed class NameOrderTests
{
    [Fact]
    public void Numbers_in_names_count_by_their_value_and_case_does_not_count()
    {
        string?[] names = [null, "Shelf 10", "shelf 2", "Shelf 1", "Shelf 2 left", "Blend 120", "blend 33", "Shelf", "box 007", "Box 7", "Box 99999999999999999999999", "Box 100000000000000000000000"];
        Assert.Equal(
            ["blend 33", "Blend 120", "Box 7", "box 007", "Box 99999999999999999999999", "Box 100000000000000000000000", "Shelf", "Shelf 1", "shelf 2", "Shelf 2 left", "Shelf 10", null],
            names.Order(NameOrder.Instance));
    }
}
