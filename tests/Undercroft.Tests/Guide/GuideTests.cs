using System.CommandLine.Parsing;
using Undercroft.Tests.House;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Guide;

/// <summary>The guide is true: its lines run as they stand, in their order, in an empty folder.</summary>
public sealed class GuideTests
{
    /// <summary>Pages with lines to run; a page of paper and pictures has none.</summary>
    public static TheoryData<string> Pages =>
        [.. Directory.GetFiles(Path.Combine(Repository.Root, "docs", "guide"), "*.md").Where(file => File.ReadAllText(file).Contains("```sh", StringComparison.Ordinal)).Select(file => Path.GetFileName(file)!)];

    [Fact]
    public void The_first_hour_is_among_them() => Assert.Contains(Pages, row => row.Data == "first-hour.md");

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Every_line_runs(string page)
    {
        using var cli = new Cli();
        var (inside, ran) = (false, 0);
        foreach (var line in await File.ReadAllLinesAsync(Path.Combine(Repository.Root, "docs", "guide", page), TestContext.Current.CancellationToken))
        {
            if (line.StartsWith("```", StringComparison.Ordinal))
                inside = line == "```sh";
            if (!inside || !line.StartsWith("undercroft ", StringComparison.Ordinal))
                continue;
            var answer = await cli.Run([.. CommandLineParser.SplitCommandLine(line).Skip(1)]);
            Assert.True(answer.Exit == 0, $"{page}: {line}: {answer.Error}");
            Assert.NotEqual("", answer.Out);
            ran++;
        }

        Assert.True(ran > 0, $"{page} runs nothing");
    }
}
