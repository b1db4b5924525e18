using Undercroft.Physics.Catalogue;
using Xunit;

namespace Undercroft.Physics.Tests.Catalogue;

public sealed class RoomKindTests
{
    [Theory]
    [InlineData("closet", "cupboard")]
    [InlineData(" Inner Closet ", "cupboard")]
    [InlineData("conditioned-room", "living-room")]
    [InlineData("loft", "attic")]
    [InlineData("Cellar", "cellar")]
    public void Usual_names_lead_to_a_kind(string name, string code) => Assert.Equal(code, RoomKinds.Find(name)!.Code);

    [Fact]
    public void An_unknown_name_is_no_kind_and_the_nearest_usual_names_are_offered()
    {
        Assert.Null(RoomKinds.Find("closst"));
        Assert.Equal("closet", RoomKinds.Nearest("closst")[0]);
        Assert.All(RoomKinds.Nearest("closst"), name => Assert.NotNull(RoomKinds.Find(name)));
    }
}
