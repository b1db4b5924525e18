using System.Globalization;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;

namespace Undercroft.Ledger.Amounts;

/// <summary>Money as somebody stated it. Amounts of different currencies are never added or converted: no rate is known here.</summary>
/// <param name="Evenness">Exact, about or between.</param>
/// <param name="First">The amount, or the lower end.</param>
/// <param name="Second">The upper end; equal to <paramref name="First"/> unless between.</param>
/// <param name="Currency">Code or symbol exactly as entered, such as <c>EUR</c> or <c>£</c>.</param>
/// <param name="By">Who says so.</param>
/// <param name="Text">As entered.</param>
/// <remarks>Unknown money is null. Assumption: "about" means ±10 %.</remarks>
[JsonConverter(typeof(MoneyJson))]
public sealed partial record Money(Evenness Evenness, decimal First, decimal Second, string Currency, SaidBy By, string? Text)
{
    /// <summary>The least that it is likely to be.</summary>
    public decimal Low => Evenness == Evenness.About ? First * 0.9m : First;

    /// <summary>The most that it is likely to be.</summary>
    public decimal High => Evenness == Evenness.About ? First * 1.1m : Second;

    /// <summary>The middle.</summary>
    public decimal Mid => (Low + High) / 2;

    /// <summary>Exactly an amount, to a hundredth of a cent, as if it had been entered so.</summary>
    public static Money Exactly(decimal amount, string currency)
    {
        var digits = amount.ToString("0.####", CultureInfo.InvariantCulture);
        var value = decimal.Parse(digits, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);
        return new(Evenness.Exact, value, value, currency, SaidBy.Unstated, $"{digits} {currency}");
    }

    /// <summary>Reads <c>12.50 EUR</c>, <c>€9,50</c>, <c>~ $12</c>, <c>10..12 GBP</c>, <c>20EUR..80EUR</c>; blank and <c>unknown</c> are null.</summary>
    /// <param name="text">What was entered.</param>
    /// <param name="by">Who says so.</param>
    /// <param name="money">The money, or null where unknown or not read.</param>
    /// <param name="why">What, why and what to do; empty where the text was read.</param>
    public static bool TryParse(string? text, SaidBy by, out Money? money, out string why)
    {
        money = null;
        why = "";
        var body = (text ?? "").Trim();
        if (Stated.IsNobodyKnows(body))
            return true;

        var about = Stated.AboutLength(body);
        var match = Form().Match(body[about..].TrimEnd('?').TrimEnd());
        var first = match.Groups["before"].Value.Trim();
        var last = match.Groups["after"].Value.Trim();
        var currency = first + last;
        var between = match.Groups["between"].Value.Trim(); // said with each end
        if (between.Length > 0 && between != currency)
        {
            why = $"'{text}' names two currencies, and no rate is known here: write both ends in one, such as 20..80 EUR.";
            return false;
        }

        if (!match.Success || currency.Length == 0 || (first.Length > 0 && last.Length > 0))
        {
            why = $"'{text}' is not an amount of money: write a number and a currency, such as 12.50 EUR or £9.";
            return false;
        }

        if (Number(match.Groups["low"].Value) is not { } low || Number(match.Groups["high"].Success ? match.Groups["high"].Value : match.Groups["low"].Value) is not { } high)
        {
            why = $"'{text}' is too large a number.";
            return false;
        }

        if (low > high)
        {
            why = $"'{text}' runs backwards: write the smaller amount first.";
            return false;
        }

        var evenness = match.Groups["high"].Success ? Evenness.Between : about > 0 || body.EndsWith('?') ? Evenness.About : Evenness.Exact;
        money = new Money(evenness, low, high, currency, by, text);
        return true;
    }

    /// <summary>Reads what was entered.</summary>
    /// <exception cref="Refusal">It is no money; the message says what to write.</exception>
    public static Money? Parse(string? text, SaidBy by = SaidBy.Unstated) => TryParse(text, by, out var money, out var why) ? money : throw new Refusal(why);

    /// <summary>In a form that is read again.</summary>
    public override string ToString() => Evenness switch
    {
        Evenness.Exact => string.Create(CultureInfo.InvariantCulture, $"{First} {Currency}"),
        Evenness.About => string.Create(CultureInfo.InvariantCulture, $"~{First} {Currency}"),
        Evenness.Between => string.Create(CultureInfo.InvariantCulture, $"{First}..{Second} {Currency}"),
        _ => throw new InvalidOperationException($"No text for {Evenness}."),
    };

    private static decimal? Number(string digits) =>
        decimal.TryParse(digits.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) ? number : null;

    [GeneratedRegex(@"^(?<before>[^0-9.,\s~?]{1,8}\s*)?(?<low>[0-9]+([.,][0-9]{1,4})?)((?<between>\s*[^0-9.,\s~?–-]{1,8})?\s*(\.\.|-|–|\bto\b)\s*((?<between>[^0-9.,\s~?–-]{1,8})\s*)?(?<high>[0-9]+([.,][0-9]{1,4})?))?(?<after>\s*[^0-9.,\s~?]{1,8})?\z", RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}
