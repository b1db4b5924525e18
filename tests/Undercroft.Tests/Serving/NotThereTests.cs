using System.Net;
using System.Reflection;
using Microsoft.AspNetCore.Components;
using Undercroft.Shell.Web;
using Undercroft.Tests.Access;
using Xunit;

namespace Undercroft.Tests.Serving;

/// <summary>A page whose address names what is not there says so, to the program that asked and to the person who reads.</summary>
public sealed class NotThereTests
{
    public static TheoryData<string> Templates =>
        [.. typeof(NotThere).Assembly.GetTypes().SelectMany(type => type.GetCustomAttributes<RouteAttribute>()).Select(route => route.Template).Where(template => template.Contains('{', StringComparison.Ordinal))];

    [Theory]
    [MemberData(nameof(Templates))]
    public async Task A_name_that_leads_nowhere_is_answered_with_a_page(string template)
    {
        await using var page = await OpenPage.Start();
        var (before, after) = (template.IndexOf('{', StringComparison.Ordinal), template.IndexOf('}', StringComparison.Ordinal) + 1);
        using var answer = await page.Send(HttpMethod.Get, template[..before] + "no-such-thing" + template[after..]);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        var said = await answer.Text();
        Assert.Contains("<h1>", said, StringComparison.Ordinal);
        Assert.Contains("no-such-thing", said, StringComparison.OrdinalIgnoreCase);
    }
}
