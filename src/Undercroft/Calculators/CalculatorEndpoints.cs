using Undercroft.Ledger;
using Undercroft.Shell;
using Undercroft.Shell.Web;

namespace Undercroft.Calculators;

/// <summary>Every calculator as an address for programs: <c>/api/calc/air?temperature=25C&amp;humidity=60%25</c>.</summary>
public static class CalculatorEndpoints
{
    /// <summary>The addresses.</summary>
    public static IEnumerable<Shell.Web.Endpoint> All() =>
        CalcCommand.All().Select(calculator => new Shell.Web.Endpoint("GET", "/api/calc/" + calculator.Name, Scope.Read, calculator.Question, (HttpContext context) => Answer(calculator.Name, context)));

    private static async Task<IResult> Answer(string name, HttpContext context)
    {
        try
        {
            var calculator = CalcCommand.All().First(each => each.Name == name);
            var answer = await calculator.Answer(FieldsOf(context.Request.Query), TextWriter.Null);
            return Results.Text(JsonText.Of(answer.Json), "application/json");
        }
        catch (Refusal refusal)
        {
            return Refused(refusal.Message, StatusCodes.Status422UnprocessableEntity);
        }
        catch (WrongUsage usage)
        {
            return Refused(usage.Message, StatusCodes.Status400BadRequest);
        }
    }

    /// <summary>The filled fields of a query; a field given several times is one of several lines.</summary>
    internal static IEnumerable<KeyValuePair<string, string>> FieldsOf(IQueryCollection query) =>
        query.Select(field => KeyValuePair.Create(field.Key, string.Join('\n', field.Value.OfType<string>()))).Where(field => !string.IsNullOrWhiteSpace(field.Value));

    private static IResult Refused(string why, int status) => Results.Text(JsonText.Of(new { error = why }), "application/json", statusCode: status);
}
