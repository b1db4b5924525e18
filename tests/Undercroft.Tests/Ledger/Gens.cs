using CsCheck;
using Undercroft.Ledger.Amounts;
using Undercroft.Ledger.Dates;

namespace Undercroft.Tests.Ledger;

/// <summary>Random values for properties, from one fixed seed.</summary>
internal static class Gens
{
    internal const string Seed = "0N0XIzNsQ0O2";

    internal static readonly Gen<DateOnly> Day = Gen.Int[new DateOnly(1990, 1, 1).DayNumber, new DateOnly(2035, 12, 31).DayNumber].Select(DateOnly.FromDayNumber);

    private static readonly Gen<string> Mark = Gen.Int[0, 3].Select(i => new[] { "", "~", "?", "%" }[i]);

    private static readonly Gen<string> Point = Gen.Select(Day, Gen.Int[0, 4], Gen.Int[21, 24], Mark).Select((day, grain, season, mark) => grain switch
    {
        0 => day.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
        1 => day.ToString("yyyy-MM", System.Globalization.CultureInfo.InvariantCulture),
        2 => day.ToString("yyyy", System.Globalization.CultureInfo.InvariantCulture),
        3 => FormattableString.Invariant($"{day.Year}-{season}"),
        _ => FormattableString.Invariant($"{day.Year / 10}X"),
    } + mark);

    internal static readonly Gen<UnevenDate> Date = Gen.Frequency(
        (6, Point.Select(UnevenDate.Parse)),
        (2, Gen.Select(Day, Gen.Int[0, 4000]).Select((day, span) => UnevenDate.Between(day, day.AddDays(span)))),
        (1, Point.Select(point => UnevenDate.Parse($"[..{point}]"))),
        (1, Point.Select(point => UnevenDate.Parse($"[{point}..]"))),
        (1, Gen.Const(UnevenDate.Unknown)));

    internal static readonly Gen<SaidBy> By = Gen.Enum<SaidBy>();
}
