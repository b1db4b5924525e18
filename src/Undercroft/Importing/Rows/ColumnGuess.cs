using Undercroft.Importing.Cells;
using Undercroft.Importing.Sheets;

namespace Undercroft.Importing.Rows;

/// <summary>Gives every column of a table its meaning: the map first, then its head as far as the contents agree, then the contents alone.</summary>
internal static class ColumnGuess
{
    /// <summary>Meanings of which a table has one column; a further column with such a head is kept as a note.</summary>
    private static readonly Meaning[] Single =
    [
        Meaning.Blend, Meaning.Maker, Meaning.Leaf, Meaning.Cut, Meaning.Count, Meaning.Unit, Meaning.Container, Meaning.Made, Meaning.Sealed, Meaning.Bought,
        Meaning.Opened, Meaning.Gone, Meaning.Date, Meaning.Paid, Meaning.PaidTotal, Meaning.Source, Meaning.Moisture, Meaning.Label, Meaning.Gross, Meaning.Tare,
    ];

    public static IReadOnlyList<Column> Columns(string[] heads, IReadOnlyList<SheetRow> rows, DateOnly today, SheetMap? map, double? gramsPerUnit = null)
    {
        var width = Math.Max(heads.Length, rows.Count == 0 ? 0 : rows.Take(2_000).Max(row => row.Cells.Count));
        var columns = new Column?[width];
        var profiles = new Profile[width];
        var taken = new HashSet<Meaning>();
        for (var c = 0; c < width; c++)
        {
            profiles[c] = Profile.Of(rows, c, today);
            if (map?.For(Head(heads, c).Replace(HeadReading.RowBreak, ' '), c) is not { } said)
                continue;
            var meaning = Enum.Parse<Meaning>(said.Meaning, ignoreCase: true);
            taken.Add(meaning);
            columns[c] = Finished(c, heads, HeadReading.Of(Head(heads, c)), meaning, Ground.Map, profiles[c], said, map);
        }

        // Where one column counts the sealed ones, the one beside it counts the open ones, be they never more than one.
        var states = Enumerable.Range(0, width).Any(c => profiles[c].MostWhole > 1 && profiles[c].Part(profiles[c].SmallWhole) >= 0.8 && profiles[c].Years == 0 && HeaderGuess.CountsState(Head(heads, c), profiles[c].MostWhole));
        for (var c = 0; c < width; c++)
        {
            if (columns[c] is null && profiles[c].Filled > 0 && profiles[c].Part(profiles[c].SmallWhole) >= 0.5
                && (HeaderGuess.IsSort(Head(heads, c)) || (profiles[c].Part(profiles[c].SmallWhole) >= 0.8 && profiles[c].Years == 0 && HeaderGuess.CountsState(Head(heads, c), states ? 2 : profiles[c].MostWhole))
                    || (profiles[c].Part(profiles[c].SmallWhole) >= 0.8 && HeaderGuess.IsYear(Head(heads, c), today))))
                columns[c] = new Column(c, Head(heads, c).Replace(HeadReading.RowBreak, ' '), Meaning.Sort, Ground.Head);
        }

        // "Jar 1 | Jar 2" over amounts: a package in each cell.
        var numbered = NumberedHeads.Words(heads).Where(word => Enumerable.Range(0, width).Any(c => NumberedHeads.WordOf(Head(heads, c)) == word && profiles[c] is { Filled: > 0, Dates: 0 } && profiles[c].Part(profiles[c].Masses + profiles[c].Bare) >= 0.5)).ToHashSet();
        for (var c = 0; c < width && numbered.Count > 0; c++)
        {
            if (columns[c] is null && NumberedHeads.WordOf(Head(heads, c)) is { } word && numbered.Contains(word))
                columns[c] = Finished(c, heads, HeadReading.Of(Head(heads, c)), Meaning.Quantity, Ground.Head, profiles[c], null, map);
        }

        var named = heads.Any(head => HeadReading.Of(head) is { Exact: true, Meanings: [Meaning.Blend, ..] } && !HeadWords.LooseNames.Contains(Folding.Fold(head)));

        // Whole heads before parts of heads, so that "Blend" is the name and "Blend type" is not.
        foreach (var exact in (ReadOnlySpan<bool>)[true, false])
        {
            for (var c = 0; c < width; c++)
            {
                var head = HeadReading.Of(Head(heads, c));
                if (columns[c] is not null || head.Meanings.Count == 0 || head.Exact != exact)
                    continue;
                var meaning = Chosen(named && HeadWords.LooseNames.Contains(Folding.Fold(Head(heads, c))) ? head with { Meanings = [.. head.Meanings.Where(one => one != Meaning.Blend)] } : head, profiles[c], taken);
                if (meaning is null)
                    continue;
                taken.Add(meaning.Value);
                columns[c] = Finished(c, heads, head, meaning.Value, Ground.Head, profiles[c], null, map);
            }
        }

        ByContents(columns, heads, profiles, taken, map);
        var all = columns.Select((column, index) => column ?? Finished(index, heads, HeadReading.Of(Head(heads, index)), Meaning.Other, Ground.Nothing, profiles[index], null, map)).ToList();
        var settled = Settled(all, profiles);
        for (var c = 0; c < settled.Count && numbered.Count > 0; c++)
            settled[c] = settled[c] with { Numbered = settled[c].IsAmount && NumberedHeads.WordOf(settled[c].Head) is { } word && numbered.Contains(word) };
        // "All weights in grams" above the head holds for every amount whose own head names no unit.
        return gramsPerUnit is null ? settled : [.. settled.Select(column => column is { GramsPerUnit: null, MlPerUnit: null } && (column.IsAmount || column.Meaning is Meaning.Gross or Meaning.Tare) ? column with { GramsPerUnit = gramsPerUnit } : column)];
    }

    private static Meaning? Chosen(HeadReading head, Profile profile, HashSet<Meaning> taken)
    {
        if (head.Meanings.Count == 0)
            return null;
        foreach (var meaning in head.Meanings)
        {
            if (meaning == Meaning.Place && taken.Contains(meaning) && !head.Exact)
                continue;
            // A running number under "#" counts the rows of the sheet and not packages.
            if (meaning == Meaning.Count && profile.Running && head.Meanings.Contains(Meaning.Label))
                continue;
            if ((Array.IndexOf(Single, meaning) < 0 || !taken.Contains(meaning)) && (Fits(meaning, profile) || (meaning == Meaning.Container && head.MlPerUnit is not null)))
                return meaning;
        }

        // "Opened: yes/no" is a state, "Jar: 4 oz" an amount only where weights stand in it.
        if (head.Meanings[0] is Meaning.Opened or Meaning.Sealed or Meaning.Gone && (profile.Part(profile.States) >= 0.5 || profile is { Filled: > 0, MostWhole: <= 1 } && profile.Part(profile.SmallWhole) >= 0.8) && taken.Add(Meaning.Status))
            return Meaning.Status;
        // "about half" under "Left" tells how full it is.
        if (head.Meanings[0] is Meaning.Left && profile.Part(profile.Prices) < 0.5 && taken.Add(Meaning.Status))
            return Meaning.Status;
        if (head.Meanings[0] is Meaning.Count && profile.Part(profile.Masses) >= 0.5)
            return Meaning.Quantity;
        // "Leaf" over weights is how much of it.
        if (head.Meanings[0] is Meaning.Leaf && profile.Part(profile.Masses + profile.Bare) >= 0.5 && profile.Masses > 0)
            return Meaning.Quantity;
        // "a dozen", "2-3" under "Tins": asked row by row rather than passed over.
        if (head is { Exact: true, Meanings: [Meaning.Count, ..] } && profile is { Vessels: 0, Prices: 0, Dates: 0 } && taken.Add(Meaning.Count))
            return Meaning.Count;
        // Words with digits under a head of days are asked row by row rather than passed over.
        if (head is { Exact: true, Meanings: [Meaning.Made or Meaning.Sealed or Meaning.Bought or Meaning.Date or Meaning.Opened, ..] } && profile is { Masses: 0, Vessels: 0, Prices: 0 } && profile.Part(profile.Digits) >= 0.5 && taken.Add(head.Meanings[0]))
            return head.Meanings[0];
        if (head.Meanings[0] is Meaning.Total && profile.Part(profile.Prices) >= 0.5 && taken.Add(Meaning.PaidTotal))
            return Meaning.PaidTotal;
        if (head.Meanings[0] is Meaning.Each or Meaning.Quantity && profile.Part(profile.Vessels) >= 0.5 && taken.Add(Meaning.Container))
            return Meaning.Container;
        return null;
    }

    private static bool Fits(Meaning meaning, Profile profile)
    {
        if (profile.Filled == 0)
            return true;
        return meaning switch
        {
            Meaning.Sealed or Meaning.Opened or Meaning.Gone => profile.Part(profile.Dates) >= 0.3 || (profile.Part(profile.Bare) >= 0.3 && profile.Part(profile.SmallWhole) < 0.8),
            Meaning.Made or Meaning.Bought or Meaning.Date => profile.Part(profile.Dates + profile.Bare) >= 0.3,
            Meaning.Each => profile.Part(profile.Masses + profile.Bare) >= 0.4,
            Meaning.Total or Meaning.Left => profile.Part(profile.Masses + profile.Bare) >= 0.4 && profile.Part(profile.Prices) < 0.5,
            Meaning.Gross or Meaning.Tare => profile.Part(profile.Masses + profile.Bare) >= 0.4,
            Meaning.Quantity => profile.Part(profile.Texts) < 0.9,
            Meaning.Count => profile.Part(profile.Masses) < 0.5 && profile.Part(profile.Bare + Math.Max(profile.Vessels, profile.Counted) + profile.CountedByState) >= 0.3 && profile.Part(profile.Texts) < 0.6,
            Meaning.Label => true,
            Meaning.Leaf or Meaning.Cut or Meaning.Maker or Meaning.Source => profile.Part(profile.Masses + profile.Bare) < 0.5,
            Meaning.Blend => profile.Part(profile.Bare) < 0.9,
            Meaning.Unit => profile.Distinct <= 8,
            Meaning.Moisture => profile.Part(profile.Bare + profile.Percents) >= 0.3,
            Meaning.Paid or Meaning.PaidTotal => profile.Part(profile.Prices + profile.Bare) >= 0.3,
            Meaning.Container => profile.Part(profile.Bare) < 0.9 || profile.Part(profile.Vessels) >= 0.3,
            Meaning.Place => profile.Part(profile.Dates) < 0.7 && profile.Part(profile.Vessels) < 0.7 | profile.Part(profile.Paths) > 0.3,
            _ => true,
        };
    }

    private static void ByContents(Column?[] columns, string[] heads, Profile[] profiles, HashSet<Meaning> taken, SheetMap? map)
    {
        void Give(int c, Meaning meaning)
        {
            taken.Add(meaning);
            columns[c] = Finished(c, heads, HeadReading.Of(Head(heads, c)), meaning, Ground.Contents, profiles[c], null, map);
        }

        // "数量 | 重さ": a quantity of bare small numbers leaves the weight to a column whose head nobody knows.
        var counts = columns.Any(column => column is { Meaning: Meaning.Quantity, Ground: Ground.Head, GramsPerUnit: null } && profiles[column.Index] is { Masses: 0 } numbers && numbers.Part(numbers.SmallWhole + numbers.Counted) >= 0.8);
        for (var c = 0; c < columns.Length; c++)
        {
            var profile = profiles[c];
            if (columns[c] is not null || profile.Filled == 0)
                continue;
            // A head that is known but was passed over keeps its cells as notes.
            if (HeadReading.Of(Head(heads, c)) is { Exact: true, Meanings: [Meaning.Other, ..] })
                continue;
            if (profile.Part(profile.Prices) >= 0.6 && !taken.Contains(Meaning.Paid) && profile.Part(profile.Masses) < 0.4)
                Give(c, Meaning.Paid);
            else if (profile.Part(profile.Masses) >= 0.6 && !taken.Overlaps([Meaning.Each, Meaning.Total]) && (counts || !taken.Contains(Meaning.Quantity)))
                Give(c, counts ? Meaning.Each : Meaning.Quantity);
            else if (profile.Part(profile.Vessels) >= 0.6 && !taken.Contains(Meaning.Container))
                Give(c, Meaning.Container);
            else if (profile.Part(profile.Counted) >= 0.6 && !taken.Contains(Meaning.Count))
                Give(c, Meaning.Count);
            else if (profile.Part(profile.Dates) >= 0.7 && profile.Part(profile.Texts) < 0.4 && !taken.Overlaps([Meaning.Date, Meaning.Bought, Meaning.Sealed]) && (!taken.Contains(Meaning.Made) || profile.Part(profile.Years) < 0.7))
                Give(c, profile.Part(profile.Years) >= 0.7 ? Meaning.Made : Meaning.Date);
        }

        if (heads.All(head => head.Length == 0))
            Headless(columns, profiles, taken, Give);

        if (taken.Contains(Meaning.Blend))
            return;
        // "Contents" over words that no kind of leaf has is what they are called.
        var names = Array.FindIndex(columns, column => column is { Meaning: Meaning.Leaf, Ground: Ground.Head } && profiles[column.Index] is { Filled: >= 2 } filled && filled.Part(filled.LeafKinds) < 0.5);
        if (names >= 0)
        {
            taken.Add(Meaning.Blend);
            columns[names] = columns[names]! with { Meaning = Meaning.Blend };
            return;
        }

        var best = -1;
        for (var c = 0; c < columns.Length; c++)
        {
            var open = columns[c] is null && HeadReading.Of(Head(heads, c)).Meanings is [] or [Meaning.Blend, ..];
            if (open && profiles[c].Filled > 0 && profiles[c].Part(profiles[c].Texts) >= 0.5 && (best < 0 || profiles[c].Filled > 2 * profiles[best].Filled))
                best = c;
        }

        // Else words under a head that means something else, as "Inventory" over names, are still what the rows are called.
        for (var c = 0; best < 0 && c < columns.Length; c++)
        {
            if (columns[c] is null && profiles[c] is { Filled: >= 2, LeafKinds: 0 } && profiles[c].Part(profiles[c].Texts) >= 0.8 && HeadReading.Of(Head(heads, c)).Meanings is [Meaning.Quantity or Meaning.Label or Meaning.Count or Meaning.Container or Meaning.Unit, ..])
                best = c;
        }

        if (best >= 0)
            Give(best, Meaning.Blend);
    }

    // Without any head bare numbers are judged by their size: few and whole are counted, others are amounts of which the unit is asked.
    private static void Headless(Column?[] columns, Profile[] profiles, HashSet<Meaning> taken, Action<int, Meaning> give)
    {
        for (var c = 0; c < columns.Length; c++)
        {
            var profile = profiles[c];
            if (columns[c] is not null || profile.Filled == 0)
                continue;
            if (profile.Part(profile.Places) >= 0.6 && !taken.Contains(Meaning.Place))
                give(c, Meaning.Place);
            else if (profile.Part(profile.Bare) >= 0.8 && profile.Part(profile.SmallWhole) >= 0.9 && profile.MostWhole <= 24 && !taken.Contains(Meaning.Count) && columns.Length > 2)
                give(c, Meaning.Count);
            else if (profile.Part(profile.Bare) >= 0.8 && !taken.Overlaps([Meaning.Quantity, Meaning.Each, Meaning.Total]))
                give(c, Meaning.Quantity);
        }
    }

    // What one column says about another: a quantity of bare small numbers beside a column of weights counts packages.
    private static List<Column> Settled(List<Column> columns, Profile[] profiles)
    {
        bool weights = columns.Exists(column => column.Ground != Ground.Nothing && column.IsAmount && column.Meaning != Meaning.Quantity && profiles[column.Index].Filled > 0)
            || columns.Exists(column => column.Meaning == Meaning.Quantity && profiles[column.Index].Part(profiles[column.Index].Masses) >= 0.5);
        var counts = columns.Exists(column => column.Meaning == Meaning.Count);
        var sized = columns.Exists(column => column.Meaning == Meaning.Container && profiles[column.Index].Part(profiles[column.Index].Masses) >= 0.5);
        for (var i = 0; i < columns.Count; i++)
        {
            var column = columns[i];
            var profile = profiles[column.Index];
            if (column is { Meaning: Meaning.Quantity, GramsPerUnit: null, Ground: not Ground.Map } && !counts && (weights || sized)
                && (profile.Masses == 0 ? profile.Part(profile.SmallWhole + profile.Counted) >= 0.8 : weights && profile.Part(profile.Masses) < 0.4 && profile.Part(profile.SmallWhole + profile.Counted) >= 0.5))
                columns[i] = column with { Meaning = Meaning.Count };
        }

        // No column of amounts, but amounts among the words of another: "2 tins, 50g each, bought 2016".
        if (!columns.Exists(column => (column.IsAmount || column.Meaning is Meaning.Count or Meaning.Container or Meaning.Sort) && profiles[column.Index].Filled > 0))
        {
            var wordy = columns.Where(column => column is { Meaning: Meaning.Note or Meaning.Other, Ground: not Ground.Map } && profiles[column.Index].Part(profiles[column.Index].Masses) >= 0.4)
                .OrderByDescending(column => profiles[column.Index].Masses).FirstOrDefault();
            if (wordy is not null)
                columns[columns.IndexOf(wordy)] = wordy with { Meaning = Meaning.Quantity, Ground = Ground.Contents };
        }

        // Of several columns of weights, those that name no unit are in the one unit that the others name.
        var units = columns.Where(column => column.IsAmount || column.Meaning is Meaning.Gross or Meaning.Tare).Select(column => column.GramsPerUnit).Where(unit => unit is not null).Distinct().ToList();
        for (var i = 0; i < columns.Count && units.Count == 1; i++)
        {
            if (columns[i] is { GramsPerUnit: null, MlPerUnit: null, Meaning: Meaning.Total or Meaning.Left or Meaning.Gross or Meaning.Tare, Ground: not Ground.Map } && profiles[columns[i].Index].Masses == 0)
                columns[i] = columns[i] with { GramsPerUnit = units[0] };
        }

        return columns;
    }

    private static Column Finished(int index, string[] heads, HeadReading head, Meaning meaning, Ground ground, Profile profile, MapColumn? said, SheetMap? map)
    {
        bool? dayFirst = said?.DayFirst ?? map?.DayFirst
            ?? (profile.DayFirst > 0 && profile.MonthFirst == 0 ? true : profile.MonthFirst > 0 && profile.DayFirst == 0 ? false : null);
        bool? comma = profile.DecimalCommas > 0 && profile.DecimalPoints == 0 ? true : profile.DecimalPoints > 0 && profile.DecimalCommas == 0 ? false : null;
        double? grams = head.GramsPerUnit, ml = head.MlPerUnit;
        if (said?.Unit is { } unit)
        {
            grams = UnitWords.Grams.TryGetValue(Folding.Fold(unit), out var g) ? g : null;
            ml = UnitWords.Millilitres.TryGetValue(Folding.Fold(unit), out var m) ? m : null;
        }

        // Ounces at the head of a column of containers are fluid ones.
        if (meaning == Meaning.Container && grams == UnitWords.OunceGrams && said?.Unit is null)
            (grams, ml) = (null, UnitWords.FluidOunceMl);
        return new Column(index, Head(heads, index).Replace(HeadReading.RowBreak, ' '), meaning, ground, grams, ml, head.Currency, head.Share, dayFirst, comma);
    }

    private static string Head(string[] heads, int index) => index < heads.Length ? heads[index] : "";
}
