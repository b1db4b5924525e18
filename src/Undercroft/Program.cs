using Undercroft.Calculators;
using Undercroft.Demo;
using Undercroft.Due;
using Undercroft.Forecasting;
using Undercroft.History;
using Undercroft.Importing;
using Undercroft.Keeping.Adding;
using Undercroft.Keeping.Correcting;
using Undercroft.Keeping.Handling;
using Undercroft.Keeping.Measuring;
using Undercroft.Keeping.Showing;
using Undercroft.Serving;
using Undercroft.Shell;
using Undercroft.Solving;

var line = new CommandLine(Terminal.OfProcess());
var tree = line.Tree(
[
    AddCommands.Add(line),
    CommandLine.Group("place", "Places: houses, rooms, shelves, boxes.", AddCommands.PlaceAdd(line)),
    ShowCommand.In(line),
    .. MeasureCommands.In(line),
    .. HandleCommands.In(line),
    .. CorrectCommands.In(line),
    CommandLine.Group("import", "Bring in what was written elsewhere.", ImportSheetCommand.In(line)),
    HistoryCommand.In(line),
    DueCommand.In(line),
    .. ForecastCommand.In(line),
    CalcCommand.In(line),
    DemoCommand.In(line),
    SolveCommand.In(line),
    ServeCommand.In(line),
]);
return await line.Run(tree, args);
