using Undercroft.Shell;

var terminal = Terminal.OfProcess();
var line = new CommandLine(terminal);
var tree = line.Tree(Undercroft.Serving.ServeCommand.In(line));
return await line.Run(tree, args);
