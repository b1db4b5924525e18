using Undercroft.Ledger;
using Undercroft.Serving;
using Xunit;

namespace Undercroft.Tests.Serving;

public class BindingTests
{
    [Theory]
    [InlineData("http://127.0.0.1:7420", "127.0.0.1", 7420)]
    [InlineData("http://localhost:8080/", "localhost", 8080)]
    [InlineData("http://LOCALHOST:8080", "localhost", 8080)]
    [InlineData("http://[::1]:7420", "[::1]", 7420)]
    [InlineData("http://127.0.0.1", "127.0.0.1", 80)]
    public void Reads_loopback(string url, string host, int port) => Assert.Equal([new Binding(host, port)], Binding.Read(url));

    [Fact]
    public void Reads_two() =>
        Assert.Equal([new Binding("127.0.0.1", 7420), new Binding("[::1]", 7420)], Binding.Read("http://127.0.0.1:7420; http://[::1]:7420"));

    [Theory]
    [InlineData("http://0.0.0.0:7420", false)]
    [InlineData("http://[::]:7420", false)]
    [InlineData("http://+:7420", false)]
    [InlineData("http://*:7420", false)]
    [InlineData("http://192.168.1.20:7420", false)]
    [InlineData("http://127.0.0.2:7420", false)]
    [InlineData("https://127.0.0.1:7420", true)]
    [InlineData("http://[::1]:7420", true)]
    [InlineData("http://localhost:7420", true)]
    public void Knows_what_others_could_reach(string url, bool loopback) => Assert.Equal(loopback, Assert.Single(Binding.Read(url)).IsLoopback);

    [Theory]
    [InlineData("")]
    [InlineData(" ; ")]
    [InlineData("7420")]
    [InlineData("http://")]
    [InlineData("http://127.0.0.1:99999")]
    [InlineData("ftp://127.0.0.1:7420")]
    [InlineData("http://cellar.example:7420")]
    [InlineData("http://127.0.0.1.cellar.example:7420")]
    [InlineData("http://localhost@192.168.1.20:7420")]
    [InlineData("http://user@127.0.0.1:7420")]
    [InlineData("http://127.0.0.1:7420/cellar")]
    [InlineData("unix:/run/page.sock")]
    public void Refuses_what_is_no_address(string url)
    {
        var refusal = Assert.Throws<Refusal>(() => Binding.Read(url));
        Assert.Contains("http://127.0.0.1:7420", refusal.Message, StringComparison.Ordinal);
    }
}
