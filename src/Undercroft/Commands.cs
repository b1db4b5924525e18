using System.CommandLine;
using Undercroft.Access;
using Undercroft.Backups;
using Undercroft.Believing;
using Undercroft.Calculators;
using Undercroft.Calendars;
using Undercroft.Catalogue;
using Undercroft.Comparing;
using Undercroft.Demo;
using Undercroft.Due;
using Undercroft.Forecasting;
using Undercroft.History;
using Undercroft.Importing;
using Undercroft.Importing.Answering;
using Undercroft.Keeping.Adding;
using Undercroft.Keeping.Correcting;
using Undercroft.Keeping.Handling;
using Undercroft.Keeping.Measuring;
using Undercroft.Keeping.Showing;
using Undercroft.Keeping.Troubles;
using Undercroft.Keeping.Watering;
using Undercroft.Places;
using Undercroft.Places.Hygrometers;
using Undercroft.Places.Logging;
using Undercroft.Practising;
using Undercroft.Printing;
using Undercroft.Serving;
using Undercroft.Shell;
using Undercroft.Solving;
using Undercroft.Totals;
using Undercroft.Worth;

namespace Undercroft;

/// <summary>The one list of what the program can do. A new command is one line here.</summary>
public static class Commands
{
    /// <summary>The whole tree.</summary>
    public static RootCommand In(CommandLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return line.Tree(
        [
            AddCommands.Add(line),
            CommandLine.Group("place", "Places: houses, rooms, shelves, boxes.", [AddCommands.PlaceAdd(line), .. PlaceCommands.In(line), CheckHygrometerCommand.In(line), SensorsCommand.In(line)]),
            ShowCommand.In(line),
            .. MeasureCommands.In(line),
            .. HandleCommands.In(line),
            SplitCommand.In(line),
            SeveralCommand.In(line),
            .. TotalsCommands.In(line),
            ValueCommand.In(line),
            ConditionCommand.In(line),
            .. TroubleCommands.In(line),
            .. CorrectCommands.In(line),
            CommandLine.Group("import", "Bring in what was written elsewhere.", ImportSheetCommand.In(line), ImportLoggerCommand.In(line, LogWorkbook.Sheets)),
            DoubtsCommand.In(line),
            HistoryCommand.In(line),
            ChangesCommand.In(line),
            DueCommand.In(line),
            .. ForecastCommand.In(line),
            CompareCommand.In(line),
            BeliefsCommand.In(line),
            PracticeCommands.In(line),
            KindsCommand.In(line),
            CalendarCommand.In(line),
            PrintCommands.In(line),
            OwnCommands.In(line),
            .. BackupCommands.In(line),
            CalcCommand.In(line, LogWorkbook.Sheets),
            DemoCommand.In(line),
            SolveCommand.In(line),
            ServeCommand.In(line),
            AccessCommands.In(line),
        ]);
    }
}
