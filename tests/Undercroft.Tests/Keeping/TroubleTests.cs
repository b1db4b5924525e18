using System.Text.RegularExpressions;
using Undercroft.Demo;
using Undercroft.Keeping.Adding;
using Undercroft.Keeping.Troubles;
using Undercroft.Ledger;
using Undercroft.Ledger.Events;
using Undercroft.Tests.Forecasts;
using Undercroft.Tests.Serving;
using Undercroft.Tests.Shell;
using Xunit;

namespace Undercroft.Tests.Keeping;

public sealed partial class TroubleTests
{
    private static readonly DateOnly Today = DemoHousehold.Day;

    public static TheoryData<string> Trees => [.. TroubleTrees.All.Select(tree => tree.Code)];

    /// <summary>Every way through every tree ends, with a decision, a day, a caution and something to do, and nowhere with a word of safety.</summary>
    [Theory]
    [MemberData(nameof(Trees))]
    public void Every_path_ends_in_a_decision_with_a_day_and_a_caution(string code)
    {
        var tree = TroubleTrees.Of(code);
        var ends = Paths(tree.Root, []).ToArray();
        Assert.NotEmpty(ends);
        foreach (var (path, end) in ends)
        {
            Assert.Same(end, tree.After(path));
            Assert.InRange(end.LookAgainAfterDays, 1, 60);
            Assert.NotEmpty(end.Do);
            Assert.True(end.Caution.Length > 40, string.Join('.', path));
            Assert.True(path.Length <= 4, "Nobody answers more than four questions before a shelf.");
            Assert.DoesNotMatch(Safety(), string.Join(' ', [end.Verdict, end.Reason, end.Caution, .. end.Do]));
        }
    }

    [Fact]
    public void All_six_decisions_are_reached_by_some_tree() =>
        Assert.Equal(Enum.GetValues<Decision>().ToHashSet(), TroubleTrees.All.SelectMany(tree => Paths(tree.Root, [])).Select(path => path.End.As).ToHashSet());

    /// <summary>A single sign of mould, or doubt, never ends in watching.</summary>
    [Fact]
    public void Doubt_about_mould_never_ends_in_watching()
    {
        var tree = TroubleTrees.Of("mould");
        Assert.Equal(Decision.Discard, ((Step.End)tree.After(["yes"])).As);
        Assert.All(Paths(tree.Root, []).Where(path => path.Path.Contains("yes") && path.Path[0] == "yes" || path.Path.Contains("unsure")), path => Assert.NotEqual(Decision.Watch, path.End.As));
        var crystals = (Step.End)tree.After(["no", "no", "yes", "under65"]);
        Assert.Equal(Decision.Watch, crystals.As);
        Assert.Contains("cannot be sure", crystals.Verdict, StringComparison.Ordinal);
        Assert.Contains("do not smoke", crystals.Caution, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("mould", "perhaps")]
    [InlineData("mould", "yes", "no")]
    [InlineData("bulge", "no", "first", "yes", "yes")]
    public void An_answer_that_is_none_is_refused(string tree, params string[] answers) => Assert.Throws<Refusal>(() => TroubleTrees.Of(tree).After(answers));

    [Fact]
    public void The_ledger_says_what_it_knows_of_a_bulge()
    {
        var cellar = Cellar.Fold(DemoHousehold.Events());
        var tin = cellar.Here.Single(package => package.Looks.Any(look => look.Fact.Bulge is not null));
        var said = TroubleTrees.Say(TroubleTrees.Of("bulge"), [], cellar, tin, Today);
        Assert.Contains(said.Evidence, known => known.Contains("3 mm high on 2026-05-02", StringComparison.Ordinal));
        Assert.Contains(said.Evidence, known => known.Contains("1500 m", StringComparison.Ordinal));
    }

    [Fact]
    public void Neighbours_of_a_beetle_are_named_soft_ones_first()
    {
        var made = new OneCellar();
        var found = made.Add(new AddRequest("One", Container: "bag-zip", Place: "shelf"));
        var bag = made.Add(new AddRequest("Two", Container: "bag-zip", Place: "shelf"));
        var jar = made.Add(new AddRequest("Three", Container: "jar-473", Place: "shelf"));
        made.Add(new AddRequest("Four", Container: "bag-zip", Place: "loft"));
        var known = Assert.Single(TroubleTrees.Say(TroubleTrees.Of("beetle"), [], made.Cellar, made.Cellar.Packages[found], Today).Evidence);
        Assert.StartsWith("2 others", known, StringComparison.Ordinal);
        Assert.Contains(bag.ToString(), known, StringComparison.Ordinal);
        Assert.DoesNotContain(jar.ToString(), known, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_end_is_written_down_with_its_day_and_taken_back_in_one_go()
    {
        using var cli = new Cli();
        var id = await cli.Add("--blend", "Evening ribbon", "--container", "jar-237");
        var asked = await cli.Json("trouble", "mould");
        Assert.Equal(3, asked.GetProperty("answers").GetArrayLength());
        var end = (await cli.Json("trouble", "mould", "no", "yes", "--package", id)).GetProperty("end");
        Assert.Equal(("isolate", "2026-05-04"), (end.GetProperty("decision").GetString(), end.GetProperty("lookAgain").GetString()));
        var kept = await cli.Json("trouble", "mould", "no", "yes", "--package", id, "--keep");
        Assert.Equal(2, (await cli.Run("history", id)).Out.Split('\n').Count(line => line.Contains("drop", StringComparison.OrdinalIgnoreCase) || line.Contains("condensation", StringComparison.Ordinal) || line.Contains("keep it apart", StringComparison.Ordinal)));
        await cli.Json("undo", kept.GetProperty("event").GetProperty("id").GetString()!);
        await cli.Refused(1, "trouble", "mould", "no", "--package", id, "--keep");
        await cli.Refused(2, "trouble", "mould", "yes", "--keep");
        await cli.Refused(1, "trouble", "ghosts");
    }

    [Fact]
    public void An_unlabelled_jar_is_ranked_by_what_fits()
    {
        var made = new OneCellar();
        var heavy = made.Add(new AddRequest("Heavy", Cut: "flake", Net: "200g", Gross: "620g", Container: "jar-473", Place: "closet"));
        var light = made.Add(new AddRequest("Light", Cut: "ribbon", Net: "100g", Gross: "520g", Container: "jar-473", Place: "closet"));
        made.Add(new AddRequest("Tin", Cut: "ribbon", Net: "50g", Gross: "120g", Container: "tin-pull-50", Place: "loft"));
        var byWeight = Identify.Of(made.Cellar, new Unlabelled(Container: "jar-473", Gross: "618g"), Today);
        Assert.Equal(heavy.ToString(), byWeight.Candidates[0].Id);
        Assert.StartsWith("Very probably", byWeight.Verdict, StringComparison.Ordinal);
        var byCut = Identify.Of(made.Cellar, new Unlabelled(Container: "jar-473", Cut: "ribbon"), Today);
        Assert.Equal(light.ToString(), byCut.Candidates[0].Id);
        Assert.Contains("Weigh it whole", byCut.Test, StringComparison.Ordinal);
        var byCode = Identify.Of(made.Cellar, new Unlabelled(Code: light.ToString()[..3] + "??"), Today);
        Assert.Equal(light.ToString(), byCode.Candidates[0].Id);
        Assert.Equal(1, byWeight.Candidates.Sum(candidate => candidate.Share) + byWeight.NoneShare, 9);
        Assert.Contains(byWeight.Candidates[1].Against, word => word.Contains("98 g more", StringComparison.Ordinal));
    }

    [Fact]
    public void What_fits_nothing_is_probably_none_of_them()
    {
        var made = new OneCellar();
        made.Add(new AddRequest("Jar", Cut: "flake", Gross: "620g", Container: "jar-473", Place: "closet"));
        made.Add(new AddRequest("Other", Place: "loft", Container: "jar-237", Gross: "300g", Cut: "flake"));
        var found = Identify.Of(made.Cellar, new Unlabelled(Container: "pouch-foil", Gross: "88g", Cut: "plug", Place: "loft"), Today);
        Assert.StartsWith("Probably none", found.Verdict, StringComparison.Ordinal);
        Assert.Throws<Refusal>(() => Identify.Of(made.Cellar, new Unlabelled(), Today));
        Assert.Throws<Refusal>(() => Identify.Of(made.Cellar, new Unlabelled(Code: "?????"), Today));
    }

    [Fact]
    public async Task The_page_asks_and_writes_down()
    {
        await using var page = await OpenPage.Start();
        using (await page.Fill("/add", "rows", ("Blend-0", "Evening ribbon"), ("Container-0", "jar-237")))
        {
        }

        var id = Assert.Single((await page.Cellar()).Here).Id;
        Assert.Contains("Found beetles", await page.Read("/trouble"), StringComparison.Ordinal);
        Assert.Contains("/trouble/mould?A=no", await page.Read("/trouble/mould"), StringComparison.Ordinal);
        using (await page.Fill($"/trouble/mould?A=no.no.yes.unknown&Package={id}", "trouble"))
        {
        }

        var decided = Assert.Single((await page.Cellar()).Packages[id].Of<Fact.Decided>());
        Assert.Equal((Decision.Watch, OpenPage.Today.AddDays(14)), (decided.Fact.As, decided.Fact.LookAgain));
        Assert.Contains("Which may it be?", await page.Read("/trouble/unknown"), StringComparison.Ordinal);
        Assert.Contains(id.ToString(), await page.Read("/trouble/unknown?Container=jar-237"), StringComparison.Ordinal);
    }

    private static IEnumerable<(string[] Path, Step.End End)> Paths(Step step, string[] path) => step switch
    {
        Step.End end => [(path, end)],
        Step.Ask ask => ask.Answers.SelectMany(answer => Paths(answer.Next, [.. path, answer.Code])),
        _ => throw new InvalidOperationException(),
    };

    [GeneratedRegex(@"\b(safe|safely|harmless|no danger|legal)\b", RegexOptions.IgnoreCase)]
    private static partial Regex Safety();
}
