namespace Undercroft.Tests.Shell;

/// <summary>One example for every command of <c>docs/cli.md</c>; a test parses each. A new command adds a line.</summary>
internal static class Examples
{
    private static readonly Dictionary<string, string> ByPath = new()
    {
        ["add"] = "add --blend \"Evening ribbon\" --leaf burley --net 50g --container jar-237 --sealed 2020-03 --place Closet",
        ["place add"] = "place add Closet --inside House --room cupboard",
        ["place show"] = "place show House/Closet",
        ["show"] = "show --as-of 2024-12-31",
        ["weigh"] = "weigh 2GDJX 612.3g --scale 0.1g --on 2026-05-03",
        ["humidity"] = "humidity 2GDJX 62% --temperature 20C",
        ["look"] = "look 2GDJX lid-loose condensation --note \"band turned by hand\"",
        ["open"] = "open 2GDJX",
        ["close"] = "close 2GDJX --on 2026-05",
        ["take"] = "take 2GDJX 12g",
        ["water"] = "water 2GDJX 2.3g",
        ["condition"] = "condition 2GDJX --to 14% --from 10% --net 50g",
        ["trouble"] = "trouble mould no no yes under65 --package 2GDJX --keep",
        ["identify"] = "identify --container jar-473 --place Closet --gross 412g",
        ["move"] = "move 2GDJX House/Basement",
        ["repack"] = "repack 2GDJX --container jar-118 --tare 130g --net 26g",
        ["split"] = "split 2GDJX --container jar-473 --count 4",
        ["totals"] = "totals --pace 15g..25g",
        ["pace"] = "pace 20g",
        ["value"] = "value 2GDJX --replace 60EUR --note \"a shop's list\"",
        ["remove"] = "remove 2GDJX --as given --note \"to a neighbour\"",
        ["correct"] = "correct 12 --mass 611.8g",
        ["undo"] = "undo 12",
        ["note"] = "note 2GDJX \"smells of raisins\"",
        ["import sheet"] = "import sheet shelf.csv --dry-run",
        ["import logger"] = "import logger closet.csv --place Closet",
        ["doubts"] = "doubts 57 --choose day-first --similar",
        ["history"] = "history 2GDJX",
        ["changes"] = "changes --since 2025-05-03",
        ["due"] = "due --minutes 30",
        ["forecast"] = "forecast 2GDJX --years 10",
        ["ask"] = "ask --in bag-zip --leaf burley --mass 50g --room cupboard",
        ["compare"] = "compare --leaf burley --mass 250g --place cupboard --years 10 jar-946 pouch-foil bag-zip",
        ["kinds"] = "kinds jar-473",
        ["print labels"] = "print labels --out labels.pdf --sheet a4-3x7 --start 5 --offset 1.5mm,-0.5mm",
        ["print round"] = "print round --minutes 15 --out round.pdf",
        ["print packing"] = "print packing --out packing.pdf",
        ["print handover"] = "print handover --out handover.pdf --decides \"my sister\"",
        ["print claim"] = "print claim --out claim.pdf --again 18..30EUR",
        ["print provenance"] = "print provenance 2GDJX --out 2GDJX.pdf",
        ["calendar"] = "calendar --out shelf.ics",
        ["backup"] = "backup --out cellar-2026-05.zip",
        ["restore"] = "restore cellar-2026-05.zip --data restored",
        ["verify"] = "verify",
        ["export"] = "export --out tables --redact prices,places",
        ["calc air"] = "calc air --temperature 25C --humidity 60%",
        ["calc warm-air"] = "calc warm-air --from 0C/90% --to 20C",
        ["calc mkt"] = "calc mkt --temperature 20C*2 --temperature 2C*4",
        ["calc water"] = "calc water --mass 50g --from 10% --to 14%",
        ["calc isotherm"] = "calc isotherm --leaf burley --humidity 75%",
        ["calc humectant"] = "calc humectant --glycerol 50%",
        ["calc film"] = "calc film --water 0.9 --test 38C/90% --area 300cm2 --temperature 20C --inside 65% --outside 45%",
        ["calc laminate"] = "calc laminate --layer 140 --layer 3560",
        ["calc strip"] = "calc strip --diameter 80mm --turns 2 --stretch 2",
        ["calc headspace"] = "calc headspace --container 473ml --leaf 100g --moisture 13%",
        ["calc pressure"] = "calc pressure --from 20C --to 40C --to-altitude 1500m",
        ["calc salt"] = "calc salt --salt NaCl --temperature 20C",
        ["calc hygrometer"] = "calc hygrometer --point 33.1%=36.0% --point 75.5%=73.0% --reading 60%",
        ["calc pinhole"] = "calc pinhole --diameter 10um --length 0.2mm --temperature 25C",
        ["demo"] = "demo --data demo",
        ["solve"] = "solve case-01.json --engine fine",
        ["serve"] = "serve --urls http://127.0.0.1:7420",
        ["access password"] = "access password",
        ["access code"] = "access code",
        ["access list"] = "access list",
        ["access revoke"] = "access revoke K2M9QD",
        ["access token"] = "access token \"closet logger\" --scope measure",
    };

    /// <summary>The example of a command.</summary>
    /// <exception cref="KeyNotFoundException">It has none.</exception>
    public static string Of(string path) => ByPath.TryGetValue(path, out var example)
        ? example
        : throw new KeyNotFoundException($"'{path}' has no example: add a line to Examples.cs.");

    /// <summary>The words of an example, as a shell would hand them over.</summary>
    public static string[] WordsOf(string path) => [.. System.CommandLine.Parsing.CommandLineParser.SplitCommandLine(Of(path))];
}
