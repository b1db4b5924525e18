using Undercroft.Importing.Cells;
using Undercroft.Ledger.Events;

namespace Undercroft.Importing.Rows;

/// <summary>What is left over in the amount's cells, and whether the amounts of a row fit together.</summary>
internal static partial class AmountReading
{
    // Words of the amount's cells that were no amount: dates and places are taken, the rest is kept; digits that nothing explains are a doubt.
    private static void Rests(RowFacts facts, AmountCells cells, TableSetting setting)
    {
        foreach (var part in cells.Parts)
        {
            if (part.Facts is not { Rest.Length: > 0 } read || part.Column.Meaning is Meaning.Unit)
                continue;
            var (dates, place, rest) = LooseFacts.Of(read.Rest, setting.Today, bareYears: true);
            foreach (var (role, date, words) in dates)
                facts.Dates.TryAdd(role != DateRole.Unsaid ? role : facts.Container?.Value.Kind == VesselKind.Tin || read.Vessel?.Kind == VesselKind.Tin ? DateRole.Made : DateRole.Unsaid, new Said<DateCell>(date, words, Sureness.Written));
            if (place is not null && facts.Place is null)
                facts.Place = new Said<IReadOnlyList<string>>(PlaceWords.Path(place), place, Sureness.Written);
            else if (place is not null)
                rest = rest.Length > 0 ? $"{rest}, {place}" : place;
            if (rest.Length == 0)
                continue;
            if (part.Column.Meaning != Meaning.Container)
                facts.Notes.Add(part.Column.Head.Length > 0 ? $"{part.Column.Head}: {rest}" : rest);
            if (facts.Groups.TrueForAll(group => group.Each is null) && read.Portions.Count == 0 && read.Bare is null && Tokens.Of(Folding.Level(rest)).Find(token => SmallWords.Vague.Contains(token.Text) || token.Text is "half" or "halb" or "halbe" or "halber" or "halbes" or "halbvoll" or "halvfull" or "halvfuld" or "halfvol" or "quarter" or "mitad" or "mezza" or "mezzo" or "media" or "moitie" or "demi" or "pol" or "polowa" or "половина" or "半分") is { Text: not null } vague)
                facts.Doubt("amount-unread", $"'{vague.Text}' in '{RowReader.Short(part.Cell.Text.Trim())}' is no amount: how much is it?", part.Column.Index, AmountChoices.Unread(part.Column, rest));
            var silent = read.Portions.Count == 0 && read.Count is null && read.Vessel is null && !read.Gone && !read.Open && dates.Count == 0;
            if (part.Column.IsAmount && silent && read.Bare is null)
                facts.Doubt("amount-unread", $"'{RowReader.Short(part.Cell.Text.Trim())}' under '{RowReader.Name(part.Column)}' is not understood as an amount.", part.Column.Index, AmountChoices.Unread(part.Column, part.Cell.Text));
            else if (rest.Any(char.IsAsciiDigit) && part.Column.Meaning is not Meaning.Container)
                facts.Doubt("words-unread", $"'{RowReader.Short(rest)}' in '{RowReader.Short(part.Cell.Text.Trim())}' is not understood.", part.Column.Index, Choice.Cell("without", $"leave '{RowReader.Short(rest)}' out", part.Column.Index, Without(part.Cell.Text, rest)));
        }
    }

    private static string Without(string text, string rest) => Folding.Level(text).Replace(rest, "", StringComparison.Ordinal).Trim(' ', ',', ';', '(', ')', '-');

    // "3 tins, 1 open": of several, some are open and some are no longer there.
    private static void States(RowFacts facts, AmountCells cells)
    {
        int? open = null, closed = null, gone = null;
        Column? column = null;
        foreach (var part in cells.Parts)
        {
            open ??= part.Facts?.OpenOnes;
            closed ??= part.Facts?.ClosedOnes;
            gone ??= part.Facts?.GoneOnes;
            column ??= part.Facts is { OpenOnes: not null } or { ClosedOnes: not null } or { GoneOnes: not null } ? part.Column : null;
        }

        open ??= cells.Told?.OpenOnes;
        closed ??= cells.Told?.ClosedOnes;
        gone ??= cells.Told?.GoneOnes;
        open ??= cells.Loose?.OpenOnes;
        closed ??= cells.Loose?.ClosedOnes;
        gone ??= cells.Loose?.GoneOnes;
        open ??= cells.Noted?.OpenOnes;
        closed ??= cells.Noted?.ClosedOnes;
        gone ??= cells.Noted?.GoneOnes;
        if ((open is null && closed is null && gone is null) || (open == 1 && closed is null && gone is null && facts.Groups is [{ Open: false }, { Open: true, Count: 1 }]))
            return;
        var several = facts.Questions.Exists(question => question.Kind == "several");
        if (facts.Groups is not [{ } group])
        {
            facts.Doubt("states", "Some are open or gone, and which of them is not said.", column?.Index ?? -1, AmountChoices.StatesOf(facts, column));
            return;
        }

        // Where only the states are counted, their sum is the count.
        var sum = Math.Min((open ?? 0) + (closed ?? 0), MostPackages);
        if (sum > 0 && (several || (group.Count == 1 && sum > 1)))
        {
            facts.Settle(question => question.Kind == "several");
            facts.GramsRead += (sum - group.Count) * (group.Each?.Grams ?? 0);
            group = group with { Count = sum };
        }

        if (gone >= group.Count && open is null && closed is null)
        {
            facts.Gone = true;
            return;
        }

        var left = group.Count - (gone ?? 0);
        if (left <= 0 || (open ?? 0) > left || (open is not null && closed is not null && open + closed != left))
        {
            facts.Groups[0] = group;
            facts.Doubt("states", $"{group.Count} packages, of which {(open is null ? "" : $"{open} open, ")}{(closed is null ? "" : $"{closed} closed, ")}{(gone is null ? "" : $"{gone} gone")}".TrimEnd(',', ' ') + ": that does not add up.", column?.Index ?? -1,
                AmountChoices.States(column, cells.Of(Meaning.Count)?.Column, group.Count, open, closed, gone));
            return;
        }

        if (gone is not null)
            facts.GramsRead -= gone.Value * (group.Each?.Grams ?? 0);
        var opened = open ?? (closed is { } shut ? left - shut : 0);
        facts.Groups.Clear();
        if (left - opened > 0)
            facts.Groups.Add(group with { Count = left - opened, Open = false });
        if (opened > 0)
            facts.Groups.Add(group with { Count = opened, Open = true });
        if (gone is > 0)
            facts.Notes.Add($"{gone} of {group.Count} no longer there");
    }

    private static void Net(RowFacts facts)
    {
        if (facts.GrossGrams is not { } gross || facts.TareGrams is not { } tare)
            return;
        var net = gross.Value - tare.Value;
        if (net <= 0)
        {
            int full = facts.ColumnOf(gross.Raw, column => column.Meaning == Meaning.Gross), empty = facts.ColumnOf(tare.Raw, column => column.Meaning == Meaning.Tare);
            facts.Doubt("gross-under-tare", $"The full weight of {gross.Value:0.#} g is not above the empty weight of {tare.Value:0.#} g.", full,
                full < 0 || empty < 0 ? [] : [new Choice("swapped", "they are swapped", [new CellSaid(SheetMap.Letter(full), tare.Raw), new CellSaid(SheetMap.Letter(empty), gross.Raw)])]);
        }
        else if (facts.Groups is [{ Each: null, Count: 1 }])
        {
            facts.Groups.Clear();
            facts.GramsWritten += net;
            Add(facts, 1, Amount.Of(net), false);
        }
        else if (facts.Groups is [{ Each: { } each, Count: 1 }] && Math.Abs(each.Grams - net) > Math.Max(2, 0.03 * net))
            facts.Doubt("net-unfit", $"Full minus empty weight is {net:0.#} g, and {each.Grams:0.#} g is written.", -1);
    }

    private static void Sizes(RowFacts facts)
    {
        if (facts.Container?.Value.Ml is { } size && !(size > 0))
        {
            facts.Doubt("container-zero", $"A container of no size stands in '{RowReader.Short(facts.Container.Raw.Trim())}'. Its size is left open.", facts.ColumnOf(facts.Container.Raw, column => column.Meaning == Meaning.Container));
            facts.Container = facts.Container with { Value = facts.Container.Value with { Ml = null } };
        }

        foreach (var group in facts.Groups)
        {
            if (group.Each is { } each && facts.Container?.Value is { Ml: { } ml, Count: not 0 } && each.LowGrams > DensestPacking * ml)
                Overfull(facts, each, ml);
        }

        if (facts.Groups is [{ Each: { } only }] && facts.GrossGrams is { } gross && only.Grams >= gross.Value)
            facts.Doubt("net-over-gross", $"The leaf of {only.Grams:0.#} g is not lighter than the full container of {gross.Value:0.#} g.", -1);
    }

    private static void Overfull(RowFacts facts, Amount each, double ml)
    {
        var box = facts.Container!.Raw;
        var column = facts.ColumnOf(box, column => column.Meaning == Meaning.Container);
        var own = column >= 0 && facts.Context?.Table.Columns[column].Meaning == Meaning.Container;
        facts.Doubt("overfull", $"{each.Grams:0.#} g is more than a container of {ml:0} ml holds.", column,
            own ? [Choice.Cell("size-wrong", "the size of the container is wrong: leave it open", column, "")] : []);
    }
}
