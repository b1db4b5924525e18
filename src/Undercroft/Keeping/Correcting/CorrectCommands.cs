using System.CommandLine;
using System.Globalization;
using Undercroft.Forecasts.Places;
using Undercroft.Ledger;
using Undercroft.Shell;

namespace Undercroft.Keeping.Correcting;

/// <summary><c>correct</c>, <c>undo</c>, <c>note</c>.</summary>
public static class CorrectCommands
{
    /// <summary>The commands.</summary>
    public static Command[] In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return [Correcting(line), Undo(line), Note(line)];
    }

    private static Command Correcting(CommandLine line)
    {
        var number = new Argument<string>("event") { Description = "Number of the line, as in history." };
        Option<string?>[] parts =
        [
            Part("--on", "DATE"), Part("--mass", "MASS"), Part("--humidity", "PERCENT"), Part("--net", "MASS"), Part("--gross", "MASS"), Part("--tare", "MASS"),
            Part("--moisture", "PERCENT"), Part("--container", "KIND"), Part("--made", "DATE"), Part("--sealed", "DATE"), Part("--place", "PLACE"), Part("--blend", "TEXT"),
            Part("--leaf", "KINDS"), Part("--cut", "CUT"), Part("--paid", "MONEY"), Part("--note", "TEXT"), Part("--room", "KIND"), Part("--holds", "VOLUME", "volume that it holds"),
            Part("--findings", "LIST", "findings, all of them, such as lid-loose,rust; all-well for none"), Part("--bulge", "LENGTH", "height of the dome"), Part("--feel", "FEEL", "feel of the leaf; unknown takes it back"),
        ];
        return line.Command("correct", "Say how an earlier line should have read; the old one stays in the history.", async call =>
        {
            var said = Array.ConvertAll(parts, call.Value);
            using var cellars = call.Cellars();
            var change = await Correct.Line(
                cellars,
                call.Value(number)!,
                new Correction(said[0], said[1], said[2], said[3], said[4], said[5], said[6], said[7], said[8], said[9], said[10], said[11], said[12], said[13], said[14], said[15], said[16], said[17], said[18], said[19], said[20]),
                call.Present);
            return await AnswerTo(cellars, change, "Corrected", call);
        }, [number, .. parts]);
    }

    private static Command Undo(CommandLine line)
    {
        var number = new Argument<string?>("event") { Description = "Number of the line; else the last one.", Arity = ArgumentArity.ZeroOrOne };
        return line.Command("undo", "Take a line of the ledger back; both stay in the history.", async call =>
        {
            using var cellars = call.Cellars();
            return await AnswerTo(cellars, await Lines.Undo(cellars, call.Value(number), call.Present), "Taken back", call);
        }, number);
    }

    private static Command Note(CommandLine line)
    {
        var id = Door.Package();
        var text = new Argument<string>("text") { Description = "In words." };
        return line.Command("note", "Write a note about a package.", async call =>
        {
            using var cellars = call.Cellars();
            return await AnswerTo(cellars, await Lines.Note(cellars, call.Value(id)!, call.Value(text)!, call.Present), "Noted", call);
        }, id, text);
    }

    private static async ValueTask<Answer> AnswerTo(ICellars cellars, Change change, string done, Call call)
    {
        await cellars.LearnAsync(change.After);
        var written = change.Events[^1];
        var about = Affected.By(change);
        var verdict = about is { } id ? KeptAnswer.VerdictOn(change.After, id, call.Present(change.After)) : $"{done}.";
        return new KeptAnswer(EventName.Of(written), about?.ToString(), verdict, about is { } one ? Recording.NewDoubts(change, one) : []).ToAnswer();
    }

    private static Option<string?> Part(string name, string help, string? what = null) =>
        new(name) { Description = string.Create(CultureInfo.InvariantCulture, $"The right {what ?? name[2..]}."), HelpName = help };
}
