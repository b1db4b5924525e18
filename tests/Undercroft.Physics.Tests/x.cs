namespace Undercroft.Tests;
public class T { [Xunit.Fact] public void A() => Xunit.Assert.True(true); }
