using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using Undercroft.Serving;
using Xunit;

namespace Undercroft.Tests.Serving;

/// <summary>A page that fails tells the person what to do and the log where it was; neither learns what was typed.</summary>
public sealed class FailureTests
{
    [Theory]
    [InlineData("/packages", "text/plain; charset=utf-8")]
    [InlineData("/api/packages", "application/problem+json; charset=utf-8")]
    public async Task A_failure_shows_nothing_of_the_inside(string path, string form)
    {
        var context = new DefaultHttpContext { Request = { Path = path, Method = "GET" }, Response = { Body = new MemoryStream() } };
        var log = new Lines();
        await Failures.Catch(context, _ => throw new InvalidOperationException("SELECT secret of grandfather"), log);
        Assert.Equal((500, form), (context.Response.StatusCode, context.Response.ContentType));
        context.Response.Body.Position = 0;
        using var reader = new StreamReader(context.Response.Body);
        var said = await reader.ReadToEndAsync(TestContext.Current.CancellationToken);
        Assert.Contains("Something in the program failed", said, StringComparison.Ordinal);
        Assert.DoesNotContain("secret", said, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", said, StringComparison.Ordinal);
        var line = Assert.Single(log.Written);
        Assert.Contains(nameof(InvalidOperationException), line, StringComparison.Ordinal);
        Assert.DoesNotContain("secret", line, StringComparison.Ordinal);
    }

    private sealed class Lines : ILogger
    {
        internal List<string> Written { get; } = [];

        public IDisposable? BeginScope<TState>(TState state) where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) => Written.Add(formatter(state, exception));
    }
}
