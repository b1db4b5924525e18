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
        Writes("/packages/{id}/openings", "open"),
        Writes("/packages/{id}/closings", "close"),
        Writes("/packages/{id}/takings", "take"),
        Writes("/packages/{id}/waterings", "water"),
        Writes("/packages/{id}/moves", "move"),
        Writes("/packages/{id}/repackings", "repack"),
        Writes("/packages/{id}/removals", "remove"),
        Writes("/packages/{id}/splits", "split"),
        Reads("/totals", "totals"),
        Writes("/pace", "pace"),
        Reads("/value", "value"),
        Writes("/lots/{id}/values", "value"),
        Writes("/notes", "note"),
        Writes("/places", "place add"),
        Reads("/places/{name}", "place show"),
        Reads("/forecasts", "forecast"),
        Reads("/due", "due"),
        Reads("/doubts", "doubts"),
        Reads("/history", "history"),
        Writes("/corrections", "correct"),
        Writes("/undoings", "undo"),
        Reads("/ask", "ask"),
        Reads("/compare", "compare"),
        Reads("/kinds", "kinds"),
        Reads("/verify", "verify"),
        .. Calculators.Select(name => Reads("/calc/" + name, "calc " + name)),
    ];

    private static string[] Calculators =>
        ["air", "warm-air", "mkt", "water", "isotherm", "humectant", "film", "laminate", "pinhole", "strip", "headspace", "pressure", "bulge", "tightness", "salt", "hygrometer"];

    private static ApiRoute Reads(string path, string words) => new("GET", path, words, Scope.Read);

    private static ApiRoute Measures(string path, string words) => new("POST", path, words, Scope.Measure);

    private static ApiRoute Writes(string path, string words) => new("POST", path, words, Scope.Write);
}
