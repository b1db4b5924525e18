using Undercroft.Shell.Web;

namespace Undercroft.Api;

/// <summary>The one table of the HTTP API. A command that reads or writes files of a name that the caller gives must never stand in it.</summary>
internal static class ApiMap
{
    internal static IReadOnlyList<ApiRoute> Routes { get; } =
    [
        Reads("/packages", "show"),
        Writes("/packages", "add"),
        Reads("/packages/{id}", "show"),
        Reads("/packages/{id}/forecast", "forecast"),
        Reads("/packages/{id}/history", "history"),
        Measures("/packages/{id}/weighings", "weigh"),
        Measures("/packages/{id}/humidities", "humidity"),
        Measures("/packages/{id}/looks", "look"),
        Writes("/packages/{id}/containers", "measure"),
        Writes("/packages/{id}/openings", "open"),
        Writes("/packages/{id}/closings", "close"),
        Writes("/packages/{id}/takings", "take"),
        Writes("/packages/{id}/waterings", "water"),
        Writes("/packages/{id}/moves", "move"),
        Writes("/packages/{id}/repackings", "repack"),
        Writes("/packages/{id}/removals", "remove"),
        Writes("/packages/{id}/splits", "split"),
        Writes("/packages/several", "several"),
        Reads("/packages/{id}/conditionings", "condition", "--before", "--after", "--leaf-alone", "--humidity", "--on"),
        Writes("/packages/{id}/conditionings", "condition"),
        Writes("/troubles/{what}", "trouble"),
        Reads("/troubles/{what}", "trouble", "--keep"),
        Reads("/identify", "identify"),
        Reads("/totals", "totals"),
        Writes("/pace", "pace"),
        Reads("/value", "value", "--replace", "--sale", "--note"),
        Writes("/lots/{id}/values", "value"),
        Writes("/notes", "note"),
        Writes("/places", "place add"),
        Reads("/places/{name}", "place show"),
        Reads("/places/{name}/spell", "place spell"),
        Reads("/places/{name}/sensors", "place sensors"),
        Writes("/places/{name}/climates", "place climate"),
        Writes("/places/{name}/hygrometers", "place check-hygrometer"),
        Reads("/places/compare", "place compare"),
        Reads("/sensors", "place sensors"),
        Reads("/freezing", "place freeze"),
        Reads("/forecasts", "forecast"),
        Reads("/due", "due"),
        Reads("/doubts", "doubts"),
        Reads("/history", "history"),
        Reads("/changes", "changes"),
        Writes("/corrections", "correct"),
        Writes("/undoings", "undo"),
        Reads("/ask", "ask"),
        Reads("/compare", "compare"),
        Reads("/beliefs", "beliefs"),
        Reads("/practice", "practice show"),
        Writes("/practice/{rule}/on", "practice on"),
        Writes("/practice/{rule}/off", "practice off"),
        Reads("/kinds", "kinds"),
        Writes("/kinds/films", "own film"),
        Writes("/kinds/containers", "own container"),
        Reads("/verify", "verify"),
        .. Calculators.Select(name => Reads("/calc/" + name, "calc " + name)),
    ];

    /// <summary>Commands that have no address, and why.</summary>
    internal static IReadOnlyDictionary<string, string> Without { get; } = new Dictionary<string, string>
    {
        ["import sheet"] = Files, ["import logger"] = Files + " A program sends readings to " + PostReadings.Path + ".", ["calendar"] = Files + " The feed is /calendar.ics.",
        ["print labels"] = Files, ["print round"] = Files, ["print packing"] = Files, ["print handover"] = Files, ["print claim"] = Files, ["print provenance"] = Files,
        ["backup"] = Files, ["restore"] = Files, ["export"] = Files, ["solve"] = Files,
        ["demo"] = "It begins another cellar, and a server has one.", ["serve"] = "It is what answers here.",
        ["access password"] = Doors, ["access code"] = Doors, ["access list"] = Doors, ["access revoke"] = Doors, ["access token"] = Doors,
    };

    private const string Files = "It reads or writes files of a name that the caller gives.";
    private const string Doors = "Who may come in is for people to say, at the machine or on the page /access.";

    private static string[] Calculators =>
        ["air", "warm-air", "mkt", "water", "isotherm", "humectant", "film", "laminate", "pinhole", "strip", "headspace", "pressure", "bulge", "tightness", "salt", "hygrometer"];

    private static ApiRoute Reads(string path, string words, params string[] without) => new("GET", path, words, Scope.Read, without);

    private static ApiRoute Measures(string path, string words) => new("POST", path, words, Scope.Measure);

    private static ApiRoute Writes(string path, string words) => new("POST", path, words, Scope.Write);
}
