using Undercroft;
using Undercroft.Shell;

var line = new CommandLine(Terminal.OfProcess());
return await line.Run(Commands.In(line), args);
