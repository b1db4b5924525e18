using System.CommandLine;
using System.Globalization;
using Spectre.Console;
using Undercroft.Ledger;
using Undercroft.Shell;

namespace Undercroft.Solving;

/// <summary>The command <c>solve</c>.</summary>
public static class SolveCommand
{
    /// <summary>The command for the tree.</summary>
    public static Command In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        var cases = new Argument<string[]>("CASE.json") { Description = "Model cases, one a file.", Arity = ArgumentArity.OneOrMore };
        var engine = new Option<string>("--engine")
        {
            Description = "fast (the kernel behind every forecast) or fine (the error-controlled reference).",
            DefaultValueFactory = _ => "fast",
        };
        engine.AcceptOnlyFromAmong("fast", "fine");
        return line.Command(
            "solve",
            "Solve model cases: the storage model with bare numbers.",
            async call =>
            {
                var chosen = call.Value(engine) == "fine" ? SolvingEngine.Fine : SolvingEngine.Fast;
                List<ModelCase> asked = [];
                foreach (var path in call.Value(cases)!)
                    asked.Add(CaseFile.Read(await TextOf(call, path), path));
                var solved = await Task.Run(() => All(asked, chosen));
                return new Answer(solved.Length == 1 ? solved[0] : solved, console => Print(console, solved));
            },
            cases,
            engine);
    }

    private static async Task<string> TextOf(Call call, string path)
    {
        var full = call.Terminal.FullPath(path);
        return File.Exists(full)
            ? await File.ReadAllTextAsync(full)
            : throw new Refusal($"{path} is not solved: there is no such file. Name a file that exists.");
    }

    /// <summary>Every case, several at once; the first refusal in the order asked is the one that is told.</summary>
    private static SolvedCase[] All(List<ModelCase> asked, SolvingEngine engine)
    {
        var solved = new SolvedCase[asked.Count];
        var refused = new Refusal?[asked.Count];
        Parallel.For(0, solved.Length, i =>
        {
            try
            {
                solved[i] = SolveCase.Run(asked[i], engine);
            }
            catch (Refusal refusal)
            {
                refused[i] = refusal;
            }
        });
        return refused.FirstOrDefault(each => each is not null) is { } first ? throw first : solved;
    }

    private static void Print(IAnsiConsole console, IReadOnlyList<SolvedCase> solved)
    {
        foreach (var one in solved)
        {
            var table = new Table().Title(Markup.Escape(one.Name)).AddColumns("day", "moisture, wet basis", "activity", "O2 kPa", "CO2 kPa", "total kPa");
            foreach (var row in one.Rows)
            {
                table.AddRow(
                    Shown(row.Day, "0.##"), Shown(100 * row.MoistureDryBasis / (1 + row.MoistureDryBasis), "0.00") + " %", Shown(row.WaterActivity, "0.000"),
                    Shown(row.O2Pa / 1000, "0.00"), Shown(row.Co2Pa / 1000, "0.00"), Shown(row.TotalPa / 1000, "0.00"));
            }

            console.Write(table);
        }
    }

    private static string Shown(double value, string format) => value.ToString(format, CultureInfo.InvariantCulture);
}
